//! Checks done by programs that are not part of the toolchain.

use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::project::{FUZZ, Project};
use crate::run::Run;

/// The release of typos whose dictionary the text is held to.
const TYPOS: &str = "typos==1.52.0";

/// The release of the library that reads the patterns back: it is not ours.
const EZDXF: &str = "ezdxf==1.4.5";

/// The release of cargo-deny that `deny.toml` is written for.
const CARGO_DENY: &str = "0.20.2";

/// Checks the spelling of everything in the project.
pub fn spelling(project: &Project) -> Result<()> {
    let folder = project.tools().join(TYPOS);
    let typos = folder.join("bin/typos");
    if !typos.is_file() {
        // The Python package is nothing but the finished program.
        Command::new("python3")
            .args(["-m", "pip", "install", "--quiet", "--no-deps", "--target"])
            .arg(&folder)
            .arg(TYPOS)
            .run()
            .context("the spelling check is installed with Python's pip")?;
    }
    Command::new(typos).current_dir(&project.root).run()
}

/// Reads the patterns for cutting machines with a library that is not ours.
pub fn patterns(project: &Project) -> Result<()> {
    let folder = project.tools().join(EZDXF);
    if !folder.join("ezdxf").is_dir() {
        Command::new("python3")
            .args(["-m", "pip", "install", "--quiet", "--target"])
            .arg(&folder)
            .arg(EZDXF)
            .run()
            .context("the reader of patterns is installed with Python's pip")?;
    }
    project
        .cargo(["test", "--package", "tests", "--test", "patterns"])
        .args(["--", "--ignored"])
        .env("PYTHONPATH", folder)
        .run()
}

/// Checks licenses, duplicates and origins of everything the project depends on, and the browser tests' packages for
/// known vulnerabilities.
///
/// Those of the crates are not among these stages: their list is another repository. `cargo deny check advisories`
/// fetches it.
pub fn dependencies(project: &Project) -> Result<()> {
    audit(project)?;
    let folder = project.tools().join(format!("cargo-deny-{CARGO_DENY}"));
    let cargo_deny = folder.join("bin/cargo-deny");
    if !cargo_deny.is_file() {
        println!("installing cargo-deny, once: this takes two minutes");
        project
            .cargo(["install", "cargo-deny", "--version", CARGO_DENY])
            // Its defaults only add ways to reach the list of vulnerabilities.
            .args(["--locked", "--quiet", "--no-default-features", "--root"])
            .arg(&folder)
            .run()?;
    }
    for manifest in ["Cargo.toml", FUZZ] {
        Command::new(&cargo_deny)
            .args(["--manifest-path", manifest, "--config", "deny.toml"])
            .args(["--workspace", "check", "bans", "licenses", "sources"])
            .current_dir(&project.root)
            .run()?;
    }
    Ok(())
}

/// Asks the registry what is known against the browser tests' packages. One that does not answer is no fault of theirs:
/// it is said, and no more.
fn audit(project: &Project) -> Result<()> {
    let output = Command::new("npm")
        .args(["audit", "--json"])
        .current_dir(project.browser_tests())
        .output()
        .context("could not start npm")?;
    // It ends with an error both where it found something and where it could not ask; the report tells which.
    let report: serde_json::Value = serde_json::from_slice(&output.stdout)
        .context("npm audit gave no report: is npm 7 or later installed?")?;
    match report["metadata"]["vulnerabilities"]["total"].as_u64() {
        Some(0) => println!("npm audit: nothing is known against the browser tests' packages"),
        Some(count) => bail!(
            "npm audit knows of {count} vulnerabilities; `npm audit` in tests/browser tells them"
        ),
        None => println!(
            "npm audit: the registry was not asked ({})",
            report["message"].as_str().unwrap_or("no reason given")
        ),
    }
    Ok(())
}
