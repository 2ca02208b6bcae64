//! What the fuzzer kept, asked again: for each question the inputs that reach into every corner of it, and beside them,
//! named by what they showed, those that ever failed.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use toml::Table;

/// A test for each question, so that they run side by side, and a list of them.
macro_rules! replayed {
    ($($question:ident)*) => {
        const REPLAYED: &[&str] = &[$(stringify!($question)),*];
        $(
            #[test]
            fn $question() {
                replay(stringify!($question));
            }
        )*
    };
}

replayed! { tire quantity car_file upgrade stations link address kept gaps work pictures }

#[test]
fn every_question_is_replayed_and_has_its_target() {
    let asked: BTreeSet<&str> = questions::ALL.iter().map(|one| one.name).collect();
    assert_eq!(
        asked,
        REPLAYED.iter().copied().collect(),
        "the tests of this file"
    );
    let manifest =
        fs::read_to_string(fuzz().join("Cargo.toml")).expect("the fuzz package's manifest");
    let manifest: Table = manifest.parse().expect("it is TOML");
    let targets = manifest["bin"].as_array().into_iter().flatten();
    let targets: BTreeSet<&str> = targets
        .filter_map(|target| target["name"].as_str())
        .collect();
    assert_eq!(asked, targets, "the targets of the fuzz package");
    // Targets ask, and know nothing of what they ask of.
    let named = manifest["dependencies"].as_table().map(Table::keys);
    let named: Vec<&String> = named.into_iter().flatten().collect();
    assert_eq!(named, ["libfuzzer-sys", "questions"]);
    for name in asked {
        let target = fs::read_to_string(fuzz().join("targets").join(name).with_extension("rs"));
        let target = target.unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(
            target.contains(&format!("ask(\"{name}\"")),
            "{name} asks another question"
        );
    }
}

#[track_caller]
fn replay(question: &str) {
    let paths = inputs(question);
    assert!(!paths.is_empty(), "the corpus of {question} is empty");
    let fails = |path: &&PathBuf| {
        let input = fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        std::panic::catch_unwind(|| questions::ask(question, &input)).is_err()
    };
    let failed: Vec<&PathBuf> = paths.iter().filter(fails).collect();
    assert!(
        failed.is_empty(),
        "{failed:#?} fail; the reasons stand above"
    );
    let (took, what) = questions::slowest();
    println!(
        "{question}: {} inputs; slowest step so far {took:?}, {what}",
        paths.len()
    );
}

/// The files of a question's corpus; a folder that is missing fails.
fn inputs(question: &str) -> Vec<PathBuf> {
    let folder = fuzz().join("corpus").join(question);
    let entries =
        fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry of the folder").path())
        .collect();
    paths.sort();
    paths
}

fn fuzz() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz")
}
