//! The headless command: car files in; text, JSON, SVG, DXF and CSV out.
//!
//! All of it but the process itself is here, so that tests see what a terminal sees.

mod answers;
mod arguments;
mod doubts;
mod json;
mod picture;
mod sheet;
mod source;
mod table;

use std::ffi::OsString;
use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;

use arguments::{Command, USAGE};
use geometry::answers::Preferences;
use geometry::check::{ACCURACY, Check, Verdict, check};
use geometry::field::Fault;
use geometry::model::Model;

pub use answers::Answers;
pub use json::to_json;
pub use table::to_text;

/// What the command tells whoever started it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Every surface clears, or the picture is written: 0.
    Clear,
    /// Something hits or is tight: 1.
    NotClear,
    /// The arguments, the file or the car could not be understood, or an output not written: 2.
    BadInput,
}

impl Outcome {
    fn of(check: &Check) -> Self {
        if check.verdict() == Verdict::Clears {
            Outcome::Clear
        } else {
            Outcome::NotClear
        }
    }
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Clear => ExitCode::SUCCESS,
            Outcome::NotClear => ExitCode::from(1),
            Outcome::BadInput => ExitCode::from(2),
        }
    }
}

/// Runs the command on its arguments, without the program's own name.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Outcome {
    let done = arguments::parse(arguments)
        .map_err(|wrong| vec![wrong, USAGE.to_owned()])
        .and_then(|command| obey(&command, out));
    match done {
        Ok(outcome) => outcome,
        Err(lines) => {
            for line in lines {
                // Where errors cannot be told, the exit code still can.
                let _ = writeln!(errors, "{line}");
            }
            Outcome::BadInput
        }
    }
}

/// Does what is asked, or says in lines what is wrong.
fn obey(command: &Command, out: &mut dyn Write) -> Result<Outcome, Vec<String>> {
    match command {
        Command::Help => {
            print(out, USAGE)?;
            Ok(Outcome::Clear)
        }
        Command::Check { file, json } => {
            let (model, check) = checked(file)?;
            print(
                out,
                &if *json {
                    to_json(&model, &check)
                } else {
                    to_text(&model, &check)
                },
            )?;
            Ok(Outcome::of(&check))
        }
        Command::Answers { file, json } => {
            let (model, check) = checked(file)?;
            let answers = Answers::of(&model, &Preferences::default());
            print(
                out,
                &if *json {
                    answers.to_json(&model, &check)
                } else {
                    answers.to_text(&model)
                },
            )?;
            Ok(Outcome::of(&check))
        }
        Command::Link { file, page } => {
            let car = source::car(file)?;
            let in_file = |fault| format!("{}:{fault}", file.display());
            let token = carfile::to_token(&car)
                .map_err(|faults| faults.into_iter().map(in_file).collect::<Vec<_>>())?;
            print(out, &format!("{page}#car={token}"))?;
            Ok(Outcome::Clear)
        }
        Command::Picture(picture) => {
            let drawn = picture::drawn(picture)?;
            match &picture.output {
                Some(path) => {
                    std::fs::write(path, drawn).map_err(|error| vec![told(path, &error)])?;
                }
                None => print(out, &drawn)?,
            }
            Ok(Outcome::Clear)
        }
        Command::Sheet(order) => {
            let names: Vec<String> = sheet::written(order)?
                .iter()
                .map(|path| path.display().to_string())
                .collect();
            print(out, &names.join("\n"))?;
            Ok(Outcome::Clear)
        }
    }
}

fn checked(file: &Path) -> Result<(Model, Check), Vec<String>> {
    let car = source::car(file)?;
    let in_model = |faults: Vec<Fault>| -> Vec<String> {
        let name = file.display();
        let told = faults.iter().map(|fault| format!("{name}: {fault}"));
        told.collect()
    };
    let model = Model::new(&car).map_err(in_model)?;
    let check = check(&model, ACCURACY);
    Ok((model, check))
}

fn print(out: &mut dyn Write, text: &str) -> Result<(), Vec<String>> {
    writeln!(out, "{}", text.trim_end())
        .and_then(|()| out.flush())
        .map_err(|error| vec![format!("the output could not be written: {error}")])
}

fn told(path: &Path, error: &io::Error) -> String {
    format!(
        "{}: {error}; a file that can be read or written there would be accepted",
        path.display()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const CARS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios");

    /// Runs the command; returns its outcome, its output and its errors.
    fn ran(arguments: &[&str]) -> (Outcome, String, String) {
        let (mut out, mut errors) = (Vec::new(), Vec::new());
        let outcome = run(arguments.iter().map(OsString::from), &mut out, &mut errors);
        let text = |bytes| String::from_utf8(bytes).expect("what is printed is text");
        (outcome, text(out), text(errors))
    }

    #[test]
    fn the_table_lists_both_sides_and_says_what_stops_the_tire() {
        let (outcome, out, errors) = ran(&["check", &format!("{CARS}/coupe.toml")]);
        assert_eq!((outcome, errors.as_str()), (Outcome::NotClear, ""));
        assert!(
            out.lines()
                .any(|line| line.starts_with("right") && line.contains("tub wall")),
            "{out}"
        );
        assert!(out.contains("its target"), "{out}");
    }

    #[test]
    fn the_table_says_what_to_doubt() {
        let told = |car: &str, lines: &[&str]| {
            let (_, out, _) = ran(&["check", &format!("{CARS}/{car}.toml")]);
            for line in lines {
                assert!(out.contains(line), "{line} is not in {out}");
            }
        };
        told(
            "coupe",
            &[
                "tire, largest that may arrive: section 312.0 mm, diameter 724.2 mm: hits",
                "warning: The rim, 10 in, is wider than the lists have for this tire: they end at 9 1/2 in.",
            ],
        );
        told(
            "fastback",
            &[
                "measure again: the roof on the left may be off by 1/8 in (1/4 in at worst)",
                "what matters most: Axle center up to roof (left)",
            ],
        );
    }

    #[test]
    fn the_json_has_the_keys_that_programs_rely_on() {
        let (_, out, _) = ran(&["check", "--json", &format!("{CARS}/pickup.toml")]);
        let report: serde_json::Value = serde_json::from_str(&out).expect("it is JSON");
        for side in ["left", "right"] {
            let surfaces = report["sides"][side]["surfaces"]
                .as_array()
                .expect("a list of surfaces");
            assert!(!surfaces.is_empty());
            for surface in surfaces {
                for key in [
                    "surface",
                    "ride_gap_mm",
                    "target_mm",
                    "verdict",
                    "pose",
                    "at_body_mm",
                    "at_tire_mm",
                ] {
                    assert!(!surface[key].is_null(), "{key} in {surface}");
                }
                let gap = &surface["travel_gap_mm"];
                let width = gap["high"]
                    .as_f64()
                    .zip(gap["low"].as_f64())
                    .map(|(high, low)| high - low);
                assert!(
                    width.is_some_and(|width| (0.0..=ACCURACY).contains(&width)),
                    "{surface}"
                );
            }
        }
        for key in ["section_width_mm", "overall_diameter_mm", "center_plane_mm"] {
            assert!(report["tire"][key].is_f64(), "{key}");
        }
    }

    #[test]
    fn the_json_says_what_to_doubt() {
        let report = |car: &str| -> serde_json::Value {
            let (_, out, _) = ran(&["check", "--json", &format!("{CARS}/{car}.toml")]);
            serde_json::from_str(&out).expect("it is JSON")
        };
        let coupe = report("coupe");
        let surfaces = coupe["sides"]["left"]["surfaces"].as_array();
        for surface in surfaces.expect("a list of surfaces") {
            let band = &surface["band"];
            for when in ["ride", "travel"] {
                let of = |what: &str| band[format!("{when}_{what}_mm")].as_f64();
                let (rss, worst) = (of("rss").expect("a number"), of("worst").expect("a number"));
                assert!(0.0 < rss && rss <= worst, "{surface}");
            }
            let most = &band["matters_most"];
            let measurement = most["measurement"].as_str();
            assert!(
                measurement.is_some_and(|at| at.starts_with("left.tape.")),
                "{surface}"
            );
            assert!(
                most["error_mm"].is_f64() && most["rate"].is_f64(),
                "{surface}"
            );
        }
        let warning = &coupe["warnings"][0];
        assert_eq!(
            (&warning["topic"], &warning["side"]),
            (&"wide-rim".into(), &().into())
        );
        assert!(warning["found_mm"].as_f64() > warning["limit_mm"].as_f64());
        for key in ["words", "source", "caution"] {
            assert!(warning[key].is_string(), "{key} in {warning}");
        }
        let tires = coupe["tires"].as_array().expect("a list of tires");
        let names: Vec<_> = tires
            .iter()
            .filter_map(|tire| tire["tire"].as_str())
            .collect();
        assert_eq!(
            names,
            ["nominal", "largest that may arrive"],
            "the coupe's does not grow"
        );
        assert_eq!(tires[0]["verdict"], "hits");

        let roof = &report("fastback")["sides"]["left"]["surfaces"];
        let unsure =
            roof.as_array().expect("surfaces").iter().any(|surface| {
                surface["band"]["could_be"] == serde_json::json!(["tight", "clears"])
            });
        assert!(unsure, "{roof}");
    }

    #[test]
    fn a_tire_that_cannot_be_on_the_rim_is_told_by_how_much() {
        let (outcome, out, errors) = ran(&["check", &format!("{CARS}/low-car.toml")]);
        assert_eq!((outcome, errors.as_str()), (Outcome::NotClear, ""));
        let line = out.lines().find(|line| line.starts_with("tire, largest"));
        let line = line.expect("a line on the largest tire");
        assert!(
            line.contains("there is no such tire on this rim") && line.contains("mm) more than"),
            "{line}"
        );
        let (_, out, _) = ran(&["check", "--json", &format!("{CARS}/low-car.toml")]);
        let report: serde_json::Value = serde_json::from_str(&out).expect("it is JSON");
        let largest = &report["tires"][1];
        assert!(largest["verdict"].is_null(), "{largest}");
        assert!(
            largest["no_such_tire"][0]["accepted"].is_string(),
            "{largest}"
        );
    }

    #[test]
    fn the_answers_tell_each_lever_and_the_mix() {
        let (outcome, out, errors) = ran(&["answers", &format!("{CARS}/fastback.toml")]);
        assert_eq!((outcome, errors.as_str()), (Outcome::NotClear, ""));
        let line = |name: &str| {
            let found = out.lines().find(|line| line.starts_with(name));
            found.unwrap_or_else(|| panic!("no {name} in {out}"))
        };
        assert!(line("Backspacing").contains("4 3/8 in"), "{out}");
        assert!(line("Seam move, left").contains("cannot"), "{out}");
        assert!(
            line("Seam move, left").contains("the quarter lip on the left"),
            "{out}"
        );
        assert!(line("Mix").contains("nothing is cut"), "{out}");
        let (_, out, _) = ran(&["answers", &format!("{CARS}/sedan.toml")]);
        let (_, instead) = out.split_once("instead:").expect("what would");
        assert!(instead.contains("further ahead) would do"), "{out}");
    }

    #[test]
    fn the_answers_have_the_keys_that_programs_rely_on() {
        let (_, out, _) = ran(&["answers", "--json", &format!("{CARS}/coupe.toml")]);
        let report: serde_json::Value = serde_json::from_str(&out).expect("it is JSON");
        let levers = report["levers"].as_array().expect("a list of levers");
        assert_eq!(levers.len(), geometry::answers::Remedy::ALL.len());
        for lever in levers {
            let keys: &[&str] = match lever["outcome"].as_str() {
                Some("works") => &["least_mm", "nothing_within_mm", "rounded_mm", "decides"],
                Some("cannot") => &["best_mm", "missing_mm", "missing_at_least_mm", "says_no"],
                other => panic!("{other:?}"),
            };
            for key in keys.iter().chain(&["lever", "present_mm"]) {
                assert!(!lever[key].is_null(), "{key} in {lever}");
            }
        }
        assert_eq!(report["mix"]["outcome"], "works");
        assert_eq!(report["mix"]["cuts"], true);
        assert!(report["mix"]["changes"][0]["to_mm"].is_f64(), "{out}");
        assert!(report["last"].is_null(), "{out}");
        let (_, out, _) = ran(&["answers", "--json", &format!("{CARS}/sedan.toml")]);
        let report: serde_json::Value = serde_json::from_str(&out).expect("it is JSON");
        assert_eq!(report["mix"]["outcome"], "cannot");
        assert!(report["last"]["besides"].is_array(), "{out}");
        assert_eq!(report["last"]["levers"][0]["lever"], "axle_ahead");
    }

    #[test]
    fn a_picture_goes_to_the_output_when_no_file_is_named() {
        let (outcome, out, _) = ran(&["picture", &format!("{CARS}/coupe.toml"), "--width", "700"]);
        assert_eq!(outcome, Outcome::Clear);
        assert!(out.starts_with("<svg"), "{out}");
    }

    #[test]
    fn every_view_is_drawn() {
        let car = format!("{CARS}/coupe.toml");
        for view in ["rear", "side", "map"] {
            let arguments = [
                "picture", &car, "--view", view, "--angle", "-35", "--side", "right",
            ];
            let (outcome, out, errors) = ran(&arguments);
            assert_eq!((outcome, errors.as_str()), (Outcome::Clear, ""), "{view}");
            assert!(
                out.starts_with("<svg") && out.contains(&format!("class=\"scene {view}\"")),
                "{view}"
            );
        }
    }

    #[test]
    fn a_link_stands_for_its_car() {
        let file = format!("{CARS}/pickup.toml");
        let page = "https://club.example/page/";
        let (outcome, link, errors) = ran(&["link", &file, "--page", page]);
        assert_eq!((outcome, errors.as_str()), (Outcome::Clear, ""));
        assert!(link.starts_with(page), "{link}");
        let link = link.trim_end();
        assert_eq!(ran(&["check", link]), ran(&["check", &file]));
        let (outcome, _, errors) = ran(&["check", &link[..link.len() - 1]]);
        assert_eq!(outcome, Outcome::BadInput);
        assert!(errors.contains("the link is damaged"), "{errors}");
    }

    #[test]
    fn every_sheet_is_written_and_its_files_are_named() {
        let folder = std::env::temp_dir().join(format!("sheets-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let car = format!("{CARS}/coupe.toml");
        for kind in ["tape", "order", "mock-up", "cut", "strip", "weld"] {
            for (ending, opens) in [("svg", "<svg"), ("csv", "")] {
                let output = folder.join(format!("{kind}.{ending}"));
                let output = output.to_string_lossy();
                let (outcome, out, errors) = ran(&["sheet", kind, &car, "-o", &output]);
                assert_eq!((outcome, errors.as_str()), (Outcome::Clear, ""), "{kind}");
                assert!(out.lines().count() > 0);
                for name in out.lines() {
                    let text = std::fs::read_to_string(name).expect("it was written");
                    assert!(text.starts_with(opens), "{name}");
                }
            }
        }
        let pattern = |kind: &str| {
            let output = folder.join(format!("{kind}.dxf"));
            ran(&["sheet", kind, &car, "-o", &output.to_string_lossy()])
        };
        assert_eq!(pattern("weld").0, Outcome::Clear);
        let (outcome, _, errors) = pattern("strip");
        assert_eq!(outcome, Outcome::BadInput);
        assert!(errors.contains("no seam is moved"), "{errors}");
        assert!(pattern("cut").2.contains(".svg or .csv would be accepted"));
        std::fs::remove_dir_all(&folder).expect("it is there");
    }

    #[test]
    fn bad_input_is_told_with_its_place() {
        let (outcome, _, errors) = ran(&["check", "no/such/car.toml"]);
        assert_eq!(outcome, Outcome::BadInput);
        assert!(errors.starts_with("no/such/car.toml: "), "{errors}");
        let not_a_car = concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml");
        let (outcome, _, errors) = ran(&["check", not_a_car]);
        assert_eq!(outcome, Outcome::BadInput);
        assert!(
            errors.contains("Cargo.toml:1:1: format is missing; format = 1 would be accepted"),
            "{errors}"
        );
        let (outcome, _, errors) = ran(&["paint"]);
        assert_eq!(outcome, Outcome::BadInput);
        assert!(errors.contains("Exit codes"), "{errors}");
    }
}
