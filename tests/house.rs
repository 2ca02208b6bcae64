//! The house rules: what the code as a whole promises, held as tests.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use toml::{Table, Value};

/// Which of our crates each may name, as told in DEVELOPERS.md.
const MAY_NAME: [(&str, &[&str]); 9] = [
    ("geometry", &[]),
    ("carfile", &["geometry"]),
    ("drawing", &["geometry"]),
    ("report", &["geometry", "carfile", "drawing"]),
    ("app", &["geometry", "carfile", "drawing"]),
    ("bench", &["geometry", "carfile"]),
    ("xtask", &[]),
    ("questions", &["geometry", "carfile", "drawing"]),
    (
        "tests",
        &["geometry", "carfile", "drawing", "report", "questions"],
    ),
];

/// Our crates that have a module's edge: the page, and the benchmark that is run as one too.
const RUN_IN_WASM: [&str; 2] = ["app", "bench"];

/// Crates that only make sense in a browser.
const WEB: [&str; 4] = ["leptos", "web-sys", "js-sys", "wasm-bindgen"];

/// Crates whose web is overlooked: plotters names it on wasm32 whatever its features, for backends that we
/// do not use; the headless crates compile none of it.
const NAMES_THE_WEB_ANYWAY: [&str; 1] = ["plotters"];

/// Longer than this, a file has more than one purpose.
const LONGEST_FILE: usize = 500;

#[test]
fn our_crates_depend_one_way() {
    let ours: BTreeSet<&str> = MAY_NAME.iter().map(|(name, _)| *name).collect();
    let mut faults = Vec::new();
    for (name, allowed) in MAY_NAME {
        for named in dependencies_of(name) {
            if ours.contains(named.as_str()) && !allowed.contains(&named.as_str()) {
                faults.push(format!("{name} must not depend on {named}"));
            }
        }
    }
    expect_none(&faults);
}

#[test]
fn only_the_page_names_the_web() {
    let locked = locked_dependencies();
    let mut faults = Vec::new();
    for (name, _) in MAY_NAME {
        if RUN_IN_WASM.contains(&name) {
            continue;
        }
        for web in dependencies_of(name).iter().filter(|it| is_web(it)) {
            faults.push(format!("{name} names {web}: only app and bench may"));
        }
    }
    // Not through others either, or the headless crates stop being headless.
    for name in ["geometry", "carfile", "drawing", "report", "questions"] {
        for web in closure(name, &locked).iter().filter(|it| is_web(it)) {
            faults.push(format!("{name} reaches {web} through what it depends on"));
        }
    }
    expect_none(&faults);
}

#[test]
fn what_the_page_computes_with_only_computes() {
    // Each of these fails, or differs, in a browser.
    let outside = [
        "std::env",
        "std::fs",
        "std::io",
        "std::net",
        "std::process",
        "std::thread",
        "std::time",
        "println!",
        "eprintln!",
        "dbg!",
    ];
    let mut faults = Vec::new();
    for name in ["geometry", "carfile", "drawing"] {
        for (path, text) in texts(&root().join("src").join(name), &["rs"]) {
            for (number, line) in code_lines(&text) {
                if let Some(word) = outside.iter().find(|word| line.contains(*word)) {
                    faults.push(format!("{path}:{number} names {word}"));
                }
            }
        }
    }
    expect_none(&faults);
}

#[test]
fn every_rust_file_says_what_it_is_for() {
    let faults: Vec<_> = project_texts(&["rs"])
        .filter(|(_, text)| !text.starts_with("//! "))
        .map(|(path, _)| format!("{path} does not open with a `//!` line"))
        .collect();
    expect_none(&faults);
}

#[test]
fn no_file_is_long() {
    let faults: Vec<_> = project_texts(&["rs", "css", "js"])
        .map(|(path, text)| (path, text.lines().count()))
        .filter(|(_, lines)| *lines > LONGEST_FILE)
        .map(|(path, lines)| format!("{path} has {lines} lines, the most is {LONGEST_FILE}"))
        .collect();
    expect_none(&faults);
}

#[test]
fn nothing_is_left_for_later() {
    expect_nowhere(&[
        concat!("TO", "DO"),
        concat!("FIX", "ME"),
        concat!("XX", "X"),
        concat!("todo", "!("),
        concat!("unimplemented", "!("),
    ]);
}

#[test]
fn no_file_knows_the_machine_it_was_written_on() {
    expect_nowhere(&[
        concat!("/wo", "rk/"),
        concat!("/ro", "ot/"),
        concat!("/ho", "me/"),
        concat!("/Us", "ers/"),
        concat!("registry.", "npm", "js"),
        concat!("pypi", ".org"),
        concat!("static.", "crates", ".io"),
        concat!("index.", "crates", ".io"),
    ]);
}

#[test]
fn every_test_file_is_run() {
    let declared: BTreeSet<String> = manifest("tests")
        .get("test")
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
        .filter_map(|test| Some(test.get("path")?.as_str()?.to_owned()))
        .collect();
    let faults: Vec<_> = files_in(&root().join("tests"))
        .filter(|path| path.extension().is_some_and(|kind| kind == "rs"))
        .map(|path| file_name(&path))
        .filter(|name| !declared.contains(name))
        .map(|name| format!("tests/{name} has no [[test]] entry in tests/Cargo.toml"))
        .collect();
    expect_none(&faults);
}

#[test]
fn every_crate_is_held_to_the_lints() {
    let faults: Vec<_> = MAY_NAME
        .iter()
        .filter(|(name, _)| {
            let lints = manifest(name).get("lints").cloned();
            lints.and_then(|it| it.get("workspace")?.as_bool()) != Some(true)
        })
        .map(|(name, _)| format!("{name} does not take the workspace's lints"))
        .collect();
    expect_none(&faults);
}

#[test]
fn every_car_says_why_it_exists() {
    let cars = texts(&root().join("scenarios"), &["toml"]);
    assert!(!cars.is_empty(), "scenarios/ holds no car");
    let mut faults = Vec::new();
    for (path, text) in cars {
        match text.parse::<Table>() {
            Err(error) => faults.push(format!("{path} cannot be read: {error}")),
            Ok(car) => {
                let purpose = car.get("purpose").and_then(Value::as_str).unwrap_or("");
                if purpose.split_whitespace().count() < 4 || !purpose.trim_end().ends_with('.') {
                    faults.push(format!("{path} has no `purpose` that is a sentence"));
                }
            }
        }
    }
    expect_none(&faults);
}

// What the rules are made of.

#[track_caller]
fn expect_none(faults: &[String]) {
    assert!(faults.is_empty(), "\n  {}\n", faults.join("\n  "));
}

/// Requires that no text of the project holds any of the words.
#[track_caller]
fn expect_nowhere(words: &[&str]) {
    let kinds = [
        "rs", "toml", "md", "css", "js", "html", "json", "svg", "csv", "txt", "lock", "run",
    ];
    let mut faults = Vec::new();
    for (path, text) in project_texts(&kinds) {
        for (index, line) in text.lines().enumerate() {
            if let Some(word) = words.iter().find(|word| line.contains(*word)) {
                faults.push(format!("{path}:{} has {word}", index + 1));
            }
        }
    }
    expect_none(&faults);
}

fn is_web(name: &str) -> bool {
    WEB.contains(&name) || name.starts_with("leptos")
}

/// Lines of code, comments left out, with their numbers.
fn code_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .map(|(index, line)| (index + 1, line.trim_start()))
        .filter(|(_, line)| !line.starts_with("//"))
}

/// Everything one of our crates names in its manifest, for whatever purpose.
fn dependencies_of(name: &str) -> BTreeSet<String> {
    let manifest = manifest(name);
    let targets = manifest
        .get("target")
        .and_then(Value::as_table)
        .into_iter()
        .flat_map(|targets| targets.values().filter_map(Value::as_table));
    let mut named = BTreeSet::new();
    for table in std::iter::once(&manifest).chain(targets) {
        for kind in ["dependencies", "dev-dependencies", "build-dependencies"] {
            if let Some(dependencies) = table.get(kind).and_then(Value::as_table) {
                named.extend(dependencies.keys().cloned());
            }
        }
    }
    named
}

fn manifest(name: &str) -> Table {
    let folder = match name {
        "tests" => name.to_owned(),
        "questions" => format!("tests/{name}"),
        _ => format!("src/{name}"),
    };
    read_toml(&root().join(folder).join("Cargo.toml"))
}

/// Who depends on whom, as cargo resolved it.
fn locked_dependencies() -> BTreeMap<String, BTreeSet<String>> {
    let lock = read_toml(&root().join("Cargo.lock"));
    let mut locked: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for package in lock["package"]
        .as_array()
        .expect("a lock file lists packages")
    {
        let name = package["name"].as_str().expect("a package has a name");
        let named = package.get("dependencies").and_then(Value::as_array);
        // Two releases of one crate share an entry: more is found, not less.
        locked.entry(name.to_owned()).or_default().extend(
            named
                .into_iter()
                .flatten()
                .filter_map(Value::as_str)
                .filter_map(|dependency| dependency.split(' ').next())
                .map(str::to_owned),
        );
    }
    locked
}

/// Everything a crate depends on, through however many others, but for the web that the exempt name.
fn closure(name: &str, locked: &BTreeMap<String, BTreeSet<String>>) -> BTreeSet<String> {
    let mut reached = BTreeSet::new();
    let mut ahead = vec![name.to_owned()];
    while let Some(next) = ahead.pop() {
        let names_the_web = NAMES_THE_WEB_ANYWAY.contains(&next.as_str());
        for dependency in locked.get(&next).into_iter().flatten() {
            if names_the_web && is_web(dependency) {
                continue;
            }
            if reached.insert(dependency.clone()) {
                ahead.push(dependency.clone());
            }
        }
    }
    reached
}

fn read_toml(path: &Path) -> Table {
    let text =
        fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    text.parse()
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests lie one folder below the root")
        .to_owned()
}

/// Every text of the project whose name ends in one of these kinds.
fn project_texts(kinds: &[&str]) -> impl Iterator<Item = (String, String)> {
    texts(&root(), kinds).into_iter()
}

/// Texts below a folder, each with its path from the root.
fn texts(folder: &Path, kinds: &[&str]) -> Vec<(String, String)> {
    // Made by tools, not written here.
    let made = [
        "target",
        "dist",
        "single",
        "node_modules",
        ".git",
        "results",
        "shots",
    ];
    let mut found = Vec::new();
    for path in files_in(folder) {
        let name = file_name(&path);
        if path.is_dir() {
            if !made.contains(&name.as_str()) {
                found.extend(texts(&path, kinds));
            }
        } else if kinds.contains(&name.rsplit('.').next().unwrap_or(&name)) {
            let text = fs::read_to_string(&path)
                .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            let path = path.strip_prefix(root()).expect("below the root");
            found.push((path.display().to_string(), text));
        }
    }
    found
}

/// What lies in a folder, in order; nothing if there is no such folder.
fn files_in(folder: &Path) -> impl Iterator<Item = PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| Some(entry.ok()?.path()))
        .collect();
    paths.sort();
    paths.into_iter()
}

fn file_name(path: &Path) -> String {
    path.file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}
