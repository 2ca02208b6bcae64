//! What was asked for on the command line.

use std::ffi::OsString;
use std::path::PathBuf;

use lexopt::prelude::*;

/// How the command is used.
pub(crate) const USAGE: &str = "\
lip-to-rail check CAR.toml [--json]
    Each surface's least gap, all round the wheel, at ride height and through travel.
lip-to-rail picture CAR.toml [--view rear] [-o FILE.svg] [--width PIXELS]
    A picture of the car as SVG, to a file or to the terminal.

Exit codes: 0 everything clears, 1 something hits or is tight, 2 bad input.";

/// A command with all it needs.
#[derive(Debug, PartialEq)]
pub(crate) enum Command {
    /// Say how the command is used.
    Help,
    /// List the gaps.
    Check { file: PathBuf, json: bool },
    /// Draw the rear view.
    Picture {
        file: PathBuf,
        output: Option<PathBuf>,
        width: f64,
    },
}

/// Reads the arguments, or says what is wrong with them.
pub(crate) fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, String> {
    let words: Vec<OsString> = arguments.into_iter().collect();
    let mut parser = lexopt::Parser::from_args(words);
    let command = match parser.next().map_err(said)? {
        None => return Err("nothing was asked for; check or picture would be accepted".to_owned()),
        Some(Short('h') | Long("help")) => return Ok(Command::Help),
        Some(Value(word)) => word.to_string_lossy().into_owned(),
        Some(other) => return Err(said(other.unexpected())),
    };
    match command.as_str() {
        "check" => check(&mut parser),
        "picture" => picture(&mut parser),
        _ => Err(format!(
            "{command} is no command; check or picture would be accepted"
        )),
    }
}

/// The narrowest and the widest picture, CSS pixels.
const WIDTH: (f64, f64) = (200.0, 8000.0);

fn check(parser: &mut lexopt::Parser) -> Result<Command, String> {
    let (mut file, mut json) = (None, false);
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("json") => json = true,
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    Ok(Command::Check {
        file: file.ok_or_else(no_file)?,
        json,
    })
}

fn picture(parser: &mut lexopt::Parser) -> Result<Command, String> {
    let (mut file, mut output, mut width) = (None, None, 1100.0);
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("view") => {
                let view = parser.value().map_err(said)?;
                if view != "rear" {
                    return Err(format!(
                        "{} is no view; rear would be accepted",
                        view.to_string_lossy()
                    ));
                }
            }
            Short('o') | Long("output") => output = Some(parser.value().map_err(said)?.into()),
            Long("width") => {
                width = parser
                    .value()
                    .and_then(|value| value.parse())
                    .map_err(said)?;
                if !(WIDTH.0..=WIDTH.1).contains(&width) {
                    return Err(format!(
                        "--width is {width}; {} to {} pixels would be accepted",
                        WIDTH.0, WIDTH.1
                    ));
                }
            }
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    Ok(Command::Picture {
        file: file.ok_or_else(no_file)?,
        output,
        width,
    })
}

fn no_file() -> String {
    "no car file was named; a path such as scenarios/coupe.toml would be accepted".to_owned()
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "it stands behind map_err, which gives the error away"
)]
fn said(error: lexopt::Error) -> String {
    error.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &str, expected: Result<Command, &str>) {
        let found = parse(words.split_whitespace().map(OsString::from));
        match (found, expected) {
            (Ok(found), Ok(expected)) => assert_eq!(found, expected),
            (Err(found), Err(part)) => assert!(found.contains(part), "{found}"),
            (found, expected) => panic!("{found:?}, not {expected:?}"),
        }
    }

    #[test]
    fn commands_are_read_and_slips_are_told() {
        let file = || PathBuf::from("a.toml");
        check(
            "check a.toml",
            Ok(Command::Check {
                file: file(),
                json: false,
            }),
        );
        check(
            "check --json a.toml",
            Ok(Command::Check {
                file: file(),
                json: true,
            }),
        );
        check(
            "picture a.toml --view rear -o b.svg --width 800",
            Ok(Command::Picture {
                file: file(),
                output: Some("b.svg".into()),
                width: 800.0,
            }),
        );
        check("picture -h", Ok(Command::Help));
        check("", Err("check or picture would be accepted"));
        check("paint a.toml", Err("paint is no command"));
        check("check", Err("no car file was named"));
        check("check a.toml b.toml", Err("b.toml"));
        check("check a.toml --jso", Err("--jso"));
        check("picture a.toml --view side", Err("rear would be accepted"));
        check("picture a.toml --width NaN", Err("--width is NaN"));
        check("picture a.toml --width wide", Err("wide"));
    }
}
