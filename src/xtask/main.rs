//! The builder's own commands: `cargo xtask build`, `serve`, `test` and more.

mod bench;
mod browser;
mod bundle;
mod check;
mod digest;
mod offline;
mod project;
mod run;
mod serve;
mod single;
mod size;
mod speed;
mod toolchain;
mod tools;
mod wasm;

use std::process::ExitCode;

use anyhow::{Context, Result, bail};
use project::Project;

const USAGE: &str = "\
cargo xtask <command>

  build            make the page in dist/
  single-file      make the page as one file, single/lip-to-rail.html, that opens from a disk
  serve [--port N] make the page and serve it on this machine (default port 8190)
  bench            the model timed, natively and in wasm, beside plainer ways
  speed [--against COMMIT]
                   the page timed in the browser, beside that of a commit
  size             every byte that the page loads, raw and compressed
  test             every check: format, lints, tests, spelling, dependencies, page, browser
  help             this text";

fn main() -> ExitCode {
    match obey() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // What went wrong, without the way there: it is for the builder.
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn obey() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match arguments[..] {
        ["build"] => bundle::build(&Project::find()?),
        ["single-file"] => single::make(&Project::find()?),
        ["serve"] => serve::build_and_serve(&Project::find()?, serve::DEFAULT_PORT),
        ["serve", "--port", port] => {
            let port = port
                .parse()
                .with_context(|| format!("--port wants a number up to 65535, not {port:?}"))?;
            serve::build_and_serve(&Project::find()?, port)
        }
        ["bench"] => bench::table(&Project::find()?),
        ["speed"] => speed::table(&Project::find()?, None),
        ["speed", "--against", commit] => speed::table(&Project::find()?, Some(commit)),
        ["size"] => size::table(&Project::find()?),
        ["test"] => check::all(&Project::find()?),
        [] | ["help" | "--help" | "-h"] => {
            println!("{USAGE}");
            Ok(())
        }
        _ => bail!("not understood: {}\n\n{USAGE}", arguments.join(" ")),
    }
}
