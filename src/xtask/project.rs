//! Where things are: the project's root and the folder cargo builds into.

use std::env;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result};

use crate::run::Run;

/// The fuzz targets' manifest, from the root: a workspace of its own, which no command with `--workspace` sees.
pub const FUZZ: &str = "tests/fuzz/Cargo.toml";

/// The folders every command works with.
pub struct Project {
    /// The workspace's root, where `index.html` lies.
    pub root: PathBuf,
    /// Cargo's target folder, wherever the machine's settings put it.
    pub target: PathBuf,
}

impl Project {
    /// Asks cargo, which alone knows whether the target folder was moved.
    pub fn find() -> Result<Self> {
        // Read as the program runs: a shared target folder may hold an xtask
        // that was compiled in another copy of the project.
        let manifest = env::var_os("CARGO_MANIFEST_DIR").context("run this as `cargo xtask`")?;
        let root = PathBuf::from(manifest)
            .ancestors()
            .nth(2)
            .context("the xtask lies two folders below the root")?
            .to_owned();
        let metadata = cargo()
            .args(["metadata", "--no-deps", "--format-version", "1"])
            .current_dir(&root)
            .output_text()?;
        let metadata: serde_json::Value = serde_json::from_str(&metadata)?;
        let target = metadata["target_directory"]
            .as_str()
            .context("cargo metadata names no target directory")?
            .into();
        Ok(Self { root, target })
    }

    /// The finished page.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The page as one file.
    pub fn single_file(&self) -> PathBuf {
        self.root.join("single/lip-to-rail.html")
    }

    /// The browser tests' own folder, an npm package.
    pub fn browser_tests(&self) -> PathBuf {
        self.root.join("tests/browser")
    }

    /// Programs the checks install for themselves.
    pub fn tools(&self) -> PathBuf {
        self.target.join("tools")
    }

    /// A cargo command that runs at the root.
    pub fn cargo<'a>(&self, arguments: impl IntoIterator<Item = &'a str>) -> Command {
        let mut command = cargo();
        command.args(arguments).current_dir(&self.root);
        command
    }
}

/// The very cargo that started this program.
fn cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}
