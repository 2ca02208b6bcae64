//! The parts of the Rust toolchain the project needs, added where they are missing.
//!
//! `rust-toolchain.toml` names them, but is not acted on where rustup's
//! automatic installation is switched off.

use std::env;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result};

use crate::project::Project;
use crate::run::Run;

/// What the page is compiled for.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Adds the standard library for the browser if it is not there.
pub fn ensure_wasm(project: &Project) -> Result<()> {
    let libraries = sysroot(project)?.join("lib/rustlib").join(WASM).join("lib");
    if libraries.is_dir() {
        return Ok(());
    }
    rustup(project, ["target", "add", WASM])
}

/// Where the toolchain lies.
pub fn sysroot(project: &Project) -> Result<PathBuf> {
    let sysroot = Command::new("rustc")
        .args(["--print", "sysroot"])
        .current_dir(&project.root)
        .output_text()?;
    Ok(sysroot.trim().into())
}

/// Where cargo keeps the crates that it fetched: a folder for each registry.
pub fn registries() -> Result<Vec<PathBuf>> {
    let home = env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(env::home_dir()?.join(".cargo")));
    let sources = home.context("neither CARGO_HOME nor a home folder is known")?;
    let folders = fs::read_dir(sources.join("registry/src"))?;
    folders.map(|folder| Ok(folder?.path())).collect()
}

/// Adds the formatter and the linter if they are not there.
pub fn ensure_components(project: &Project) -> Result<()> {
    for (command, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if !project.cargo([command, "--version"]).answers() {
            rustup(project, ["component", "add", component])?;
        }
    }
    Ok(())
}

fn rustup(project: &Project, arguments: [&str; 3]) -> Result<()> {
    Command::new("rustup")
        .args(arguments)
        .current_dir(&project.root)
        .run()
        .with_context(|| format!("the toolchain lacks {}; add it by hand", arguments[2]))
}
