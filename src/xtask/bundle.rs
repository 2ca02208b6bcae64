//! `build`: the page, compiled and laid out in `dist/` as plain files.
//!
//! Every address inside is relative, so the folder works from any path of any
//! static host.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::project::Project;
use crate::run::Run;
use crate::toolchain::{self, WASM};

/// The style sheets, in the order in which `index.html` links them.
const STYLES: [&str; 8] = [
    "tokens.css",
    "page.css",
    "lists.css",
    "controls.css",
    "stations.css",
    "picture.css",
    "drawing.css",
    "print.css",
];

/// The profile that the page is compiled with, of the workspace's `Cargo.toml`.
const PROFILE: &str = "page";

/// Compiles the page and writes `dist/` anew.
pub fn build(project: &Project) -> Result<()> {
    toolchain::ensure_wasm(project)?;
    project
        .cargo(["build", "--package", "app", "--profile", PROFILE])
        .args(["--target", WASM])
        .env("CARGO_ENCODED_RUSTFLAGS", flags(project)?)
        .run()?;

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
    let wasm = project.target.join(WASM).join(PROFILE).join("app.wasm");
    bind(&wasm, &dist)?;
    println!("dist/ is ready: {} kB", size_of(&dist)?.div_ceil(1000));
    Ok(())
}

/// What the compiler is told beyond the profile, as cargo wants it: a path may hold spaces.
fn flags(project: &Project) -> Result<String> {
    // Views of one type, not one type for each view: less code.
    let mut flags = vec!["--cfg=erase_components".to_owned()];
    // The module says where its code panics: by places in the project, not on this machine.
    let mut places = vec![
        (project.root.clone(), "."),
        (toolchain::sysroot(project)?, "rust"),
    ];
    let registries = toolchain::registries()?;
    places.extend(registries.into_iter().map(|folder| (folder, "crates")));
    for (place, name) in places {
        flags.push(format!("--remap-path-prefix={}={name}", place.display()));
    }
    Ok(flags.join("\u{1f}"))
}

/// Writes the script and the module that the browser loads.
fn bind(wasm: &Path, dist: &Path) -> Result<()> {
    Bindgen::new()
        .input_path(wasm)
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        // Without it the script does not know where its module lies, and
        // `init()` fails in the browser.
        .omit_default_module_path(false)
        .generate(dist)
        .context("could not write the browser's side of the page")
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
