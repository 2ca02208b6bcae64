//! The browser tests: what they need is installed, then they run.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};

use crate::project::Project;
use crate::run::Run;

/// Where Debian and its kin put the browser.
const USUAL_PLACES: [&str; 2] = ["/usr/bin/chromium", "/usr/bin/chromium-browser"];

/// Runs the tests in `tests/browser` against the page in `dist/`.
pub fn test(project: &Project) -> Result<()> {
    in_folder(project, "npx")?
        .args(["--no-install", "playwright", "test"])
        .run()
}

/// Node, where the browser tests lie, with all that they need.
pub fn node(project: &Project) -> Result<Command> {
    in_folder(project, "node")
}

fn in_folder(project: &Project, program: &str) -> Result<Command> {
    let browser = ensure_browser()?;
    ensure_packages(project)?;
    let mut command = Command::new(program);
    command
        .env("CHROMIUM", browser)
        .current_dir(project.browser_tests());
    Ok(command)
}

/// Finds the browser, or installs it where that is possible without asking.
fn ensure_browser() -> Result<PathBuf> {
    if let Some(browser) = find_browser() {
        return Ok(browser);
    }
    ensure!(
        is_root() && Command::new("apt-get").arg("--version").answers(),
        "no Chromium found: install it with your package manager (on Debian: \
         sudo apt-get install chromium), or set CHROMIUM to its path"
    );
    println!("installing Chromium");
    apt_get(&["update", "--quiet"])?;
    apt_get(&["install", "--quiet", "--yes", "chromium"])?;
    find_browser().context("Chromium was installed, but is not where it should be")
}

fn find_browser() -> Option<PathBuf> {
    if let Some(named) = env::var_os("CHROMIUM") {
        return Some(named.into());
    }
    USUAL_PLACES
        .iter()
        .map(Path::new)
        .find(|place| place.is_file())
        .map(Path::to_owned)
}

fn is_root() -> bool {
    Command::new("id")
        .arg("-u")
        .output_text()
        .is_ok_and(|user| user.trim() == "0")
}

fn apt_get(arguments: &[&str]) -> Result<()> {
    Command::new("apt-get")
        .args(arguments)
        .env("DEBIAN_FRONTEND", "noninteractive")
        .run()
}

/// Installs the npm packages, unless the lock file has not changed since.
fn ensure_packages(project: &Project) -> Result<()> {
    if !Command::new("npm").arg("--version").answers() {
        bail!("the browser tests need node and npm (node 20 or later)");
    }
    let folder = project.browser_tests();
    let written = |name: &str| folder.join(name).metadata()?.modified();
    let installed = written("node_modules/.package-lock.json");
    if installed
        .is_ok_and(|installed| written("package-lock.json").is_ok_and(|lock| lock <= installed))
    {
        return Ok(());
    }
    Command::new("npm").arg("ci").current_dir(&folder).run()
}
