//! `test`: every check, one stage after the other, until one fails.

use std::time::Instant;

use anyhow::{Context, Result};

use crate::project::{FUZZ, Project};
use crate::run::Run;
use crate::toolchain::{self, WASM};
use crate::{bench, browser, bundle, single, tools};

/// What a stage is called, and what it does.
type Stage = (&'static str, fn(&Project) -> Result<()>);

/// Quick ones first, and nothing that needs the page before it is built.
const STAGES: [Stage; 12] = [
    ("format", format),
    ("lints", lints),
    ("lints of the page", page_lints),
    ("tests", tests),
    ("patterns", tools::patterns),
    ("documentation", documentation),
    ("spelling", tools::spelling),
    ("dependencies", tools::dependencies),
    ("digits", bench::digits),
    ("page", bundle::build),
    ("single file", single::make),
    ("browser", browser::test),
];

/// Runs every stage, and says how long each took.
pub fn all(project: &Project) -> Result<()> {
    let start = Instant::now();
    toolchain::ensure_components(project)?;
    toolchain::ensure_wasm(project)?;
    for (name, check) in STAGES {
        println!("\n== {name}");
        let start = Instant::now();
        check(project).with_context(|| format!("stage \"{name}\""))?;
        println!("== {name}: {:.1} s", start.elapsed().as_secs_f64());
    }
    println!(
        "\nall stages passed in {:.0} s",
        start.elapsed().as_secs_f64()
    );
    Ok(())
}

fn format(project: &Project) -> Result<()> {
    project.cargo(["fmt", "--all", "--check"]).run()?;
    project
        .cargo(["fmt", "--manifest-path", FUZZ, "--check"])
        .run()
}

fn lints(project: &Project) -> Result<()> {
    project
        .cargo(["clippy", "--workspace", "--all-targets"])
        .args(["--", "-D", "warnings"])
        .run()?;
    // Without libFuzzer itself the targets want neither another Rust nor a compiler for C++.
    project
        .cargo(["clippy", "--manifest-path", FUZZ, "--locked"])
        .arg("--no-default-features")
        .arg("--target-dir")
        .arg(&project.target)
        .args(["--", "-D", "warnings"])
        .run()
}

fn page_lints(project: &Project) -> Result<()> {
    project
        .cargo(["clippy", "--package", "app", "--target", WASM])
        .args(["--", "-D", "warnings"])
        .run()
}

fn tests(project: &Project) -> Result<()> {
    project.cargo(["test", "--workspace"]).run()
}

fn documentation(project: &Project) -> Result<()> {
    project
        .cargo(["doc", "--workspace", "--lib", "--no-deps"])
        .env("RUSTDOCFLAGS", "-D warnings")
        .run()
}
