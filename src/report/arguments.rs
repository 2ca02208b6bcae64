//! What was asked for on the command line.

use std::ffi::OsString;
use std::path::PathBuf;

use drawing::sheets::{Kind, Paper, SheetOptions};
use geometry::side::Side;
use geometry::units::{Notation, radians};
use lexopt::prelude::*;

use crate::sheet::{Format, SheetOrder};

/// How the command is used.
pub(crate) const USAGE: &str = "\
lip-to-rail check CAR.toml [--json]
    Each surface's least gap, all round the wheel, at ride height and through travel.
lip-to-rail answers CAR.toml [--json]
    What each lever alone would take to bring every surface to its target, or what says no and
    how much is missing; then the mix that cuts least, in steps that a shop can buy or set.
lip-to-rail picture CAR.toml [--view rear|side|map|mount] [--angle DEGREES] [--side left|right]
                    [--share SHARE] [-o FILE.svg] [--width PIXELS]
    A picture of the car as SVG, to a file or to the terminal: from behind, cut at an angle from
    straight up (positive toward the front); from one side (the left, if not told); one side's
    wheelhouse unrolled; or one side's wheel on its way past the lip and onto the studs, at a share of
    it from 0, outside, to 1, on the flange.
lip-to-rail link CAR.toml [--page ADDRESS]
    The car as a link to the page at that address; without one, what stands behind a page's address.
    A link can stand wherever a CAR.toml does.
lip-to-rail sheet tape|order|mock-up|cut|strip|weld CAR.toml -o FILE.svg|FILE.dxf|FILE.csv
                  [--paper letter|a4] [--units in|decimal|mm] [--date TEXT]
    A sheet for the shop floor: as pages of paper (FILE-1.svg, FILE-2.svg and so on where there are
    several), as a pattern in millimeters for a cutting machine (strip and weld), or as tables.

Exit codes: 0 everything clears, 1 something hits or is tight, 2 bad input.";

/// A command with all it needs.
#[derive(Debug, PartialEq)]
pub(crate) enum Command {
    /// Say how the command is used.
    Help,
    /// List the gaps.
    Check { file: PathBuf, json: bool },
    /// Say what would make the tire fit.
    Answers { file: PathBuf, json: bool },
    /// Make a link.
    Link { file: PathBuf, page: String },
    /// Draw a picture.
    Picture(Picture),
    /// Write a sheet.
    Sheet(SheetOrder),
}

/// Which picture of a car is drawn, and where it goes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Picture {
    pub file: PathBuf,
    pub view: View,
    /// Of the rear view's section, radians from straight up.
    pub angle: f64,
    pub side: Side,
    /// Of the wheel's way onto its flange.
    pub share: f64,
    pub output: Option<PathBuf>,
    pub width: f64,
}

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum View {
    Rear,
    Side,
    Map,
    Mount,
}

/// Reads the arguments, or says what is wrong with them.
pub(crate) fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, String> {
    let words: Vec<OsString> = arguments.into_iter().collect();
    let mut parser = lexopt::Parser::from_args(words);
    let command = match parser.next().map_err(said)? {
        None => {
            return Err(
                "nothing was asked for; check, answers, picture, sheet or link would be accepted"
                    .to_owned(),
            );
        }
        Some(Short('h') | Long("help")) => return Ok(Command::Help),
        Some(Value(word)) => word.to_string_lossy().into_owned(),
        Some(other) => return Err(said(other.unexpected())),
    };
    match command.as_str() {
        "check" => list(&mut parser, |file, json| Command::Check { file, json }),
        "answers" => list(&mut parser, |file, json| Command::Answers { file, json }),
        "picture" => picture(&mut parser),
        "sheet" => sheet(&mut parser),
        "link" => link(&mut parser),
        _ => Err(format!(
            "{command} is no command; check, answers, picture, sheet or link would be accepted"
        )),
    }
}

/// The narrowest and the widest picture, CSS pixels.
const WIDTH: (f64, f64) = (200.0, 8000.0);
/// How far the section may be swung, degrees: from straight back to straight ahead.
const ANGLE: (f64, f64) = (-90.0, 90.0);

fn list(
    parser: &mut lexopt::Parser,
    command: impl Fn(PathBuf, bool) -> Command,
) -> Result<Command, String> {
    let (mut file, mut json) = (None, false);
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("json") => json = true,
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    Ok(command(file.ok_or_else(no_file)?, json))
}

fn link(parser: &mut lexopt::Parser) -> Result<Command, String> {
    let (mut file, mut page) = (None, String::new());
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("page") => page = parser.value().map_err(said)?.to_string_lossy().into_owned(),
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    let file = file.ok_or_else(no_file)?;
    Ok(Command::Link { file, page })
}

fn picture(parser: &mut lexopt::Parser) -> Result<Command, String> {
    let mut file = None;
    let mut picture = Picture {
        file: PathBuf::new(),
        view: View::Rear,
        angle: 0.0,
        side: Side::Left,
        share: 0.5,
        output: None,
        width: 1100.0,
    };
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("view") => picture.view = view(&parser.value().map_err(said)?)?,
            Long("angle") => {
                let angle = number(parser, "angle", ANGLE, "degrees from straight up")?;
                picture.angle = radians(angle);
            }
            Long("share") => {
                picture.share = number(parser, "share", (0.0, 1.0), "of the way")?;
            }
            Long("side") => picture.side = side(&parser.value().map_err(said)?)?,
            Short('o') | Long("output") => {
                picture.output = Some(parser.value().map_err(said)?.into());
            }
            Long("width") => picture.width = number(parser, "width", WIDTH, "pixels")?,
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    picture.file = file.ok_or_else(no_file)?;
    Ok(Command::Picture(picture))
}

fn sheet(parser: &mut lexopt::Parser) -> Result<Command, String> {
    let (mut kind, mut file, mut output) = (None, None, None);
    let mut options = SheetOptions::default();
    while let Some(argument) = parser.next().map_err(said)? {
        match argument {
            Long("paper") => options.paper = paper(&parser.value().map_err(said)?)?,
            Long("units") => options.notation = notation(&parser.value().map_err(said)?)?,
            Long("date") => {
                options.date = parser.value().map_err(said)?.to_string_lossy().into_owned();
            }
            Short('o') | Long("output") => {
                output = Some(PathBuf::from(parser.value().map_err(said)?));
            }
            Short('h') | Long("help") => return Ok(Command::Help),
            Value(word) if kind.is_none() => kind = Some(sheet_kind(&word)?),
            Value(path) if file.is_none() => file = Some(path.into()),
            other => return Err(said(other.unexpected())),
        }
    }
    let words = || {
        let words: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
        words.join(", ")
    };
    let kind =
        kind.ok_or_else(|| format!("no sheet was named; one of {} would be accepted", words()))?;
    let file = file.ok_or_else(no_file)?;
    let output = output.ok_or_else(|| {
        "no file was named to write to; -o with a name that ends in .svg, .dxf or .csv would be accepted".to_owned()
    })?;
    let format = Format::of(&output).ok_or_else(|| {
        format!(
            "{} does not say what is to be written; a name that ends in .svg, .dxf or .csv would be accepted",
            output.display()
        )
    })?;
    Ok(Command::Sheet(SheetOrder {
        kind,
        file,
        output,
        format,
        options,
    }))
}

fn sheet_kind(word: &OsString) -> Result<Kind, String> {
    let said = word.to_string_lossy();
    let found = Kind::ALL.into_iter().find(|kind| kind.word() == said);
    found.ok_or_else(|| {
        format!("{said} is no sheet; tape, order, mock-up, cut, strip or weld would be accepted")
    })
}

fn paper(word: &OsString) -> Result<Paper, String> {
    let said = word.to_string_lossy().to_ascii_lowercase();
    let found = Paper::ALL.into_iter().find(|paper| paper.word() == said);
    found.ok_or_else(|| format!("{said} is no paper; letter or a4 would be accepted"))
}

fn notation(word: &OsString) -> Result<Notation, String> {
    match word.to_string_lossy().as_ref() {
        "in" => Ok(Notation::InchFractions),
        "decimal" => Ok(Notation::InchDecimals),
        "mm" => Ok(Notation::Millimeters),
        other => Err(format!(
            "{other} is no unit; in, decimal or mm would be accepted"
        )),
    }
}

fn view(word: &OsString) -> Result<View, String> {
    match word.to_string_lossy().as_ref() {
        "rear" => Ok(View::Rear),
        "side" => Ok(View::Side),
        "map" => Ok(View::Map),
        "mount" => Ok(View::Mount),
        other => Err(format!(
            "{other} is no view; rear, side, map or mount would be accepted"
        )),
    }
}

fn side(word: &OsString) -> Result<Side, String> {
    match word.to_string_lossy().as_ref() {
        "left" => Ok(Side::Left),
        "right" => Ok(Side::Right),
        other => Err(format!(
            "{other} is no side; left or right would be accepted"
        )),
    }
}

fn number(
    parser: &mut lexopt::Parser,
    name: &str,
    (least, most): (f64, f64),
    unit: &str,
) -> Result<f64, String> {
    let value: f64 = parser
        .value()
        .and_then(|value| value.parse())
        .map_err(said)?;
    if (least..=most).contains(&value) {
        Ok(value)
    } else {
        Err(format!(
            "--{name} is {value}; {least} to {most} {unit} would be accepted"
        ))
    }
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
        let plain = Picture {
            file: file(),
            view: View::Rear,
            angle: 0.0,
            side: Side::Left,
            share: 0.5,
            output: None,
            width: 1100.0,
        };
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
            Ok(Command::Picture(Picture {
                output: Some("b.svg".into()),
                width: 800.0,
                ..plain.clone()
            })),
        );
        check(
            "picture a.toml --view map --side right --angle -90",
            Ok(Command::Picture(Picture {
                view: View::Map,
                side: Side::Right,
                angle: radians(-90.0),
                ..plain.clone()
            })),
        );
        check("picture -h", Ok(Command::Help));
        check(
            "picture a.toml --view mount --share 0.25",
            Ok(Command::Picture(Picture {
                view: View::Mount,
                share: 0.25,
                ..plain
            })),
        );
        check("picture a.toml --share 2", Err("0 to 1 of the way"));
        check(
            "answers a.toml --json",
            Ok(Command::Answers {
                file: file(),
                json: true,
            }),
        );
        check("answers", Err("no car file was named"));
        check(
            "link a.toml --page https://club.example/page/",
            Ok(Command::Link {
                file: file(),
                page: "https://club.example/page/".to_owned(),
            }),
        );
        check("link --page", Err("--page"));
        check("link", Err("no car file was named"));
        check(
            "",
            Err("check, answers, picture, sheet or link would be accepted"),
        );
        check("paint a.toml", Err("paint is no command"));
        check("check", Err("no car file was named"));
        check("check a.toml b.toml", Err("b.toml"));
        check("check a.toml --jso", Err("--jso"));
        check(
            "picture a.toml --view top",
            Err("rear, side, map or mount would be accepted"),
        );
        check(
            "picture a.toml --side near",
            Err("left or right would be accepted"),
        );
        check("picture a.toml --angle 91", Err("-90 to 90 degrees"));
        check("picture a.toml --angle NaN", Err("--angle is NaN"));
        check("picture a.toml --width NaN", Err("--width is NaN"));
        check("picture a.toml --width wide", Err("wide"));
    }

    #[test]
    fn sheets_say_what_is_to_be_written_and_where() {
        check(
            "sheet mock-up a.toml -o b.csv --paper a4 --units mm --date today",
            Ok(Command::Sheet(SheetOrder {
                kind: Kind::MockUp,
                file: PathBuf::from("a.toml"),
                output: "b.csv".into(),
                format: Format::Csv,
                options: SheetOptions {
                    paper: Paper::A4,
                    notation: Notation::Millimeters,
                    date: "today".to_owned(),
                },
            })),
        );
        check("sheet a.toml", Err("a.toml is no sheet"));
        check("sheet cut", Err("no car file was named"));
        check("sheet cut a.toml", Err("-o with a name"));
        check("sheet cut a.toml -o b.pdf", Err("b.pdf does not say"));
        check("sheet cut a.toml -o b.svg --paper b5", Err("letter or a4"));
    }
}
