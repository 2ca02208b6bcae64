//! The browser tests: what they need is installed, then they run.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};

use crate::project::Project;
use crate::run::Run;

/// A program that the tests drive the page with.
struct Program {
    /// What people call it.
    name: &'static str,
    /// The variable that may hold its path, for the tests to read.
    variable: &'static str,
    /// Where Debian and its kin put it.
    usual_places: &'static [&'static str],
    /// The packages that bring it there.
    packages: &'static [&'static str],
}

const CHROMIUM: Program = Program {
    name: "Chromium",
    variable: "CHROMIUM",
    usual_places: &["/usr/bin/chromium", "/usr/bin/chromium-browser"],
    packages: &["chromium"],
};

const FIREFOX: Program = Program {
    name: "Firefox",
    variable: "FIREFOX",
    usual_places: &["/usr/bin/firefox-esr", "/usr/bin/firefox"],
    packages: &["firefox-esr"],
};

const WEBKIT: Program = Program {
    name: "WebKit's driver",
    variable: "WEBKIT_DRIVER",
    usual_places: &["/usr/bin/WebKitWebDriver"],
    packages: &["webkit2gtk-driver"],
};

/// A screen for it to draw on, where there is none.
const SCREEN: Program = Program {
    name: "xvfb-run",
    variable: "XVFB_RUN",
    usual_places: &["/usr/bin/xvfb-run"],
    packages: &["xvfb", "xauth"],
};

/// Runs the tests in `tests/browser` against the page in `dist/`, one browser after the other.
pub fn test(project: &Project) -> Result<()> {
    in_folder(project, "npx", &[CHROMIUM, FIREFOX])?
        .args(["--no-install", "playwright", "test"])
        .run()?;
    in_folder(project, "npm", &[WEBKIT, SCREEN])?
        .args(["run", "webkit"])
        .run()
}

/// Node, where the browser tests lie, with all that they need.
pub fn node(project: &Project) -> Result<Command> {
    in_folder(project, "node", &[CHROMIUM])
}

fn in_folder(project: &Project, program: &str, needed: &[Program]) -> Result<Command> {
    let mut command = Command::new(program);
    for one in needed {
        command.env(one.variable, one.ensure()?);
    }
    ensure_packages(project)?;
    command.current_dir(project.browser_tests());
    Ok(command)
}

impl Program {
    /// Finds it, or installs it where that is possible without asking.
    fn ensure(&self) -> Result<PathBuf> {
        if let Some(found) = self.find() {
            return Ok(found);
        }
        let (name, packages) = (self.name, self.packages.join(" "));
        ensure!(
            is_root() && Command::new("apt-get").arg("--version").answers(),
            "no {name} found: install it with your package manager (on Debian: sudo apt-get install {packages}), or \
             set {} to its path",
            self.variable
        );
        println!("installing {name}");
        apt_get(&["update", "--quiet"])?;
        apt_get(&[&["install", "--quiet", "--yes"], self.packages].concat())?;
        self.find()
            .with_context(|| format!("{name} was installed, but is not where it should be"))
    }

    fn find(&self) -> Option<PathBuf> {
        if let Some(named) = env::var_os(self.variable) {
            return Some(named.into());
        }
        let mut places = self.usual_places.iter().map(Path::new);
        places.find(|place| place.is_file()).map(Path::to_owned)
    }
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
