//! `build`: the page, compiled and laid out in `dist/` as plain files.
//!
//! Every address inside is relative, so the folder works from any path of any
//! static host.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::project::Project;
use crate::wasm::{self, Lanes};
use crate::{digest, offline};

/// The style sheets, in the order in which `index.html` links them.
pub const STYLES: [&str; 15] = [
    "tokens.css",
    "page.css",
    "bench.css",
    "lists.css",
    "answers.css",
    "doubts.css",
    "controls.css",
    "stations.css",
    "picture.css",
    "take-away.css",
    "walk-round.css",
    "write-up.css",
    "drawing.css",
    "sheets.css",
    "print.css",
];

/// Where the page lies for browsers without vector instructions; `index.html` chooses.
pub const PLAIN: &str = "plain";

/// Compiles the page and writes `dist/` anew, ready for any host.
pub fn build(project: &Project) -> Result<()> {
    lay_out(project)?;
    offline::add(project)?;
    add_sums(&project.dist())?;
    println!(
        "dist/ is ready: {} kB",
        size_of(&project.dist())?.div_ceil(1000)
    );
    Ok(())
}

/// Compiles the page and writes `dist/` anew, without what keeps it for later.
pub fn lay_out(project: &Project) -> Result<()> {
    let dist = project.dist();
    // A file left from an earlier build would hide that it is missing now.
    if dist.exists() {
        fs::remove_dir_all(&dist).context("could not clear dist/")?;
    }
    fs::create_dir_all(dist.join("style"))?;
    copy(project, "index.html")?;
    for style in STYLES {
        copy(project, &format!("style/{style}"))?;
    }
    for (lanes, folder) in [(Lanes::With, "."), (Lanes::Without, PLAIN)] {
        let module = wasm::compile(project, "app", &[], lanes)?;
        bind(&module, &dist.join(folder))?;
    }
    Ok(())
}

/// Writes the script and the module that the browser loads.
fn bind(module: &Path, folder: &Path) -> Result<()> {
    Bindgen::new()
        .input_path(module)
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        // Without it the script does not know where its module lies, and
        // `init()` fails in the browser.
        .omit_default_module_path(false)
        .generate(folder)
        .context("could not write the browser's side of the page")
}

/// Writes the sums of all files beside them: `sha256sum --check SHA256SUMS` says whether a copy is whole.
fn add_sums(dist: &Path) -> Result<()> {
    let files = digest::of_files(dist, digest::hexadecimal)?;
    let lines = files
        .iter()
        .map(|(path, digest)| [digest, "  ", path, "\n"].concat());
    fs::write(dist.join("SHA256SUMS"), lines.collect::<String>())
        .context("could not write the sums")
}

fn copy(project: &Project, name: &str) -> Result<()> {
    fs::copy(project.root.join(name), project.dist().join(name))
        .with_context(|| format!("could not copy {name}"))?;
    Ok(())
}

/// Bytes in a folder, all told.
fn size_of(folder: &Path) -> Result<u64> {
    let mut bytes = 0;
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let metadata = entry.metadata()?;
        bytes += if metadata.is_dir() {
            size_of(&entry.path())?
        } else {
            metadata.len()
        };
    }
    Ok(bytes)
}
