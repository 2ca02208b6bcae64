//! Compiling for the browser: with vector lanes, and without for browsers that have none.

use std::path::PathBuf;

use anyhow::Result;

use crate::project::Project;
use crate::run::Run;
use crate::toolchain::{self, WASM};

/// Whether a module may use vector instructions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lanes {
    /// `simd128`: four corners of a face at a time, two to an instruction.
    With,
    /// The same operations in the same order, one by one.
    Without,
}

impl Lanes {
    /// A word for files and folders.
    pub fn word(self) -> &'static str {
        match self {
            Lanes::With => "lanes",
            Lanes::Without => "plain",
        }
    }
}

/// The profile that everything for the browser is compiled with, of the workspace's `Cargo.toml`.
const PROFILE: &str = "page";

/// Compiles a package, told by what cargo is asked for, and gives the module's path.
pub fn compile(project: &Project, package: &str, target: &[&str], lanes: Lanes) -> Result<PathBuf> {
    toolchain::ensure_wasm(project)?;
    // Each kind has a folder of its own: in a shared one cargo would compile everything anew at each change of flags.
    let folder = match lanes {
        Lanes::With => project.target.clone(),
        Lanes::Without => project.target.join(lanes.word()),
    };
    project
        .cargo(["build", "--package", package, "--profile", PROFILE])
        .args(["--target", WASM, "--target-dir"])
        .arg(&folder)
        .args(target)
        .env("CARGO_ENCODED_RUSTFLAGS", flags(project, lanes)?)
        .run()?;
    Ok(folder
        .join(WASM)
        .join(PROFILE)
        .join(format!("{package}.wasm")))
}

/// What the compiler is told beyond the profile, as cargo wants it: a path may hold spaces.
fn flags(project: &Project, lanes: Lanes) -> Result<String> {
    // Views of one type, not one type for each view: less code.
    let mut flags = vec!["--cfg=erase_components".to_owned()];
    if lanes == Lanes::With {
        flags.push("-Ctarget-feature=+simd128".to_owned());
    }
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
