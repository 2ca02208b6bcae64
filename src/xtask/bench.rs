//! `bench`: the whole model and the room chart timed natively and in wasm, with and without vector lanes, beside two plainer ways to the
//! same answer, in one run.

use std::process::Command;

use anyhow::{Context, Result, ensure};
use wasm_bindgen_cli_support::Bindgen;

use crate::project::Project;
use crate::run::Run;
use crate::wasm::{self, Lanes};

/// A case: its name, its least time, ms, and the numbers that came out of it.
struct Case {
    name: String,
    milliseconds: f64,
    found: String,
}

/// The case that ratios are told against.
const FIRST: &str = "model coupe 0.1";

/// Prints the table and the ratios.
pub fn table(project: &Project) -> Result<()> {
    let native = native(project, &["--release"], &["all"])?;
    let lanes = in_wasm(project, Lanes::With, &["all"])?;
    let plain = in_wasm(project, Lanes::Without, &["all"])?;
    println!("| case | native, ms | wasm with lanes, ms | wasm without, ms |");
    println!("| --- | --- | --- | --- |");
    for Case {
        name, milliseconds, ..
    } in &native
    {
        let (with, without) = (find(&lanes, name)?, find(&plain, name)?);
        println!(
            "| {name} | {milliseconds:.1} | {:.1} | {:.1} |",
            with.milliseconds, without.milliseconds
        );
    }
    println!();
    for (place, cases) in [("native", &native), ("wasm with lanes", &lanes)] {
        let first = find(cases, FIRST)?.milliseconds;
        for case in cases.iter().filter(|case| !is_ours(case)) {
            println!(
                "{place}: {} takes {:.0} times as long as {FIRST}",
                case.name,
                case.milliseconds / first
            );
        }
    }
    println!();
    for case in native.iter().filter(|case| !is_ours(case)) {
        println!("{}: {}", case.name, case.found);
    }
    same_digits(&native, &lanes, &plain)
}

/// Says whether model and room chart give the same digits natively, in wasm with lanes, and in wasm without.
pub fn digits(project: &Project) -> Result<()> {
    // Digits do not hang on the profile, and this one is compiled already.
    let native = native(project, &[], &[])?;
    let lanes = in_wasm(project, Lanes::With, &[])?;
    let plain = in_wasm(project, Lanes::Without, &[])?;
    same_digits(&native, &lanes, &plain)
}

fn same_digits(native: &[Case], lanes: &[Case], plain: &[Case]) -> Result<()> {
    let mut numbers = 0;
    for case in native.iter().filter(|case| is_ours(case)) {
        for (place, cases) in [("wasm with lanes", lanes), ("wasm without", plain)] {
            ensure!(
                find(cases, &case.name)?.found == case.found,
                "{}: {place} gives other digits than native code",
                case.name
            );
        }
        numbers += case.found.split(' ').count();
    }
    ensure!(numbers > 0, "no case was run");
    println!(
        "all {numbers} ends of intervals are the same natively, with lanes and without, to the last digit"
    );
    Ok(())
}

/// Whether a case is of this project's own way to an answer.
fn is_ours(case: &Case) -> bool {
    ["model ", "room "]
        .iter()
        .any(|start| case.name.starts_with(start))
}

fn find<'a>(cases: &'a [Case], name: &str) -> Result<&'a Case> {
    let found = cases.iter().find(|case| case.name == name);
    found.with_context(|| format!("the case {name:?} was not run everywhere"))
}

fn native(project: &Project, profile: &[&str], arguments: &[&str]) -> Result<Vec<Case>> {
    let mut run = project.cargo(["run", "--quiet", "--package", "bench"]);
    read(&run.args(profile).arg("--").args(arguments).output_text()?)
}

fn in_wasm(project: &Project, lanes: Lanes, arguments: &[&str]) -> Result<Vec<Case>> {
    let module = wasm::compile(project, "bench", &["--lib"], lanes)?;
    let folder = project.target.join("bench").join(lanes.word());
    Bindgen::new()
        .input_path(module)
        .nodejs(true)?
        .typescript(false)
        .generate(&folder)
        .context("could not write the script beside the module")?;
    let mut node = Command::new("node");
    node.arg(project.root.join("src/bench/time.mjs"))
        .arg(folder);
    read(&node.args(arguments).output_text()?)
}

/// Reads the lines that the benchmark prints: name, milliseconds, numbers.
fn read(lines: &str) -> Result<Vec<Case>> {
    let case = |line: &str| {
        let mut cells = line.split('\t');
        let (name, milliseconds, found) = (cells.next()?, cells.next()?, cells.next()?);
        Some(Case {
            name: name.to_owned(),
            milliseconds: milliseconds.parse().ok()?,
            found: found.to_owned(),
        })
    };
    let read = |line: &str| case(line).with_context(|| format!("no case: {line}"));
    lines.lines().map(read).collect()
}
