//! The parts of the Rust toolchain the project needs, added where they are missing.
//!
//! `rust-toolchain.toml` names them, but is not acted on where rustup's
//! automatic installation is switched off.

use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result};

use crate::project::Project;
use crate::run::Run;

/// What the page is compiled for.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Adds the standard library for the browser if it is not there.
pub fn ensure_wasm(project: &Project) -> Result<()> {
    let sysroot = Command::new("rustc")
        .args(["--print", "sysroot"])
        .current_dir(&project.root)
        .output_text()?;
    let libraries = Path::new(sysroot.trim())
        .join("lib/rustlib")
        .join(WASM)
        .join("lib");
    if libraries.is_dir() {
        return Ok(());
    }
    rustup(project, ["target", "add", WASM])
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
