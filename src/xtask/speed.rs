//! `speed`: how long the page takes to answer a slider, a drag and a first visit in the browser, beside an earlier page.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use crate::project::Project;
use crate::run::Run;
use crate::{browser, bundle};

/// Builds the page, and that of a commit if one is named, and prints the table of both.
pub fn table(project: &Project, against: Option<&str>) -> Result<()> {
    bundle::build(project)?;
    let mut pages = vec![named("now", &project.dist())];
    if let Some(commit) = against {
        pages.push(named("then", &earlier(project, commit)?));
    }
    browser::node(project)?
        .arg("speed/speed.mjs")
        .args(pages)
        .run()
}

fn named(name: &str, folder: &Path) -> String {
    format!("{name}={}", folder.display())
}

/// The page of a commit, built by its own xtask in a folder of its own.
fn earlier(project: &Project, commit: &str) -> Result<PathBuf> {
    let tree = project.target.join("then");
    let git = |arguments: &[&str]| {
        let mut git = Command::new("git");
        git.args(arguments).current_dir(&project.root);
        git
    };
    if tree.exists() {
        fs::remove_dir_all(&tree).context("could not clear the folder of the earlier page")?;
    }
    git(&["worktree", "prune"]).run()?;
    git(&["worktree", "add", "--detach"])
        .arg(&tree)
        .arg(commit)
        .run()?;
    // It tells where its project lies by what cargo sets, so cargo has to start it there.
    project
        .cargo(["xtask", "build"])
        .current_dir(&tree)
        .env("CARGO_TARGET_DIR", &project.target)
        .run()?;
    Ok(tree.join("dist"))
}
