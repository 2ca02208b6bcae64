//! Reads a printed tire size from left to right.

use super::{Class, Construction, Designation, DesignationFault, SizeSystem};
use crate::units::scan::Cursor;

/// See [`Designation::parse`].
pub(super) fn designation(text: &str) -> Result<Designation, DesignationFault> {
    let mut cursor = Cursor::new(text);
    cursor.eat_spaces();
    let prefix = eat_class(&mut cursor);
    let (printed, construction) = expect_size(&mut cursor)?;
    let rim_code = expect_within(&mut cursor, RIM_CODE, "a rim diameter code")?;
    let mut spaced = cursor.eat_spaces();
    let suffix = eat_class(&mut cursor);
    spaced |= suffix.is_some();
    if !cursor.is_done() && !spaced {
        return Err(
            cursor.fault("the end of the size, or a space before load index and speed symbol")
        );
    }
    let service = expect_service(&mut cursor)?;
    let class = prefix.or(suffix).unwrap_or(Class::Unmarked);
    let system = printed.system(class);
    if let SizeSystem::Flotation { diameter, .. } | SizeSystem::Dragstrip { diameter, .. } = system
        && diameter < rim_code + LEAST_TIRE
    {
        return Err(DesignationFault {
            at: text.chars().take_while(|c| c.is_whitespace()).count(),
            found: format!("a {diameter} in tire on a {rim_code} in rim"),
            accepted: format!("a diameter at least {LEAST_TIRE} in over the rim's"),
        });
    }
    Ok(Designation {
        text: text.trim().to_owned(),
        class,
        system,
        construction,
        rim_code,
        service,
    })
}

/// Least and most of each number; wider than any tire made, narrower than any slip of the finger.
type Range = (f64, f64);
const METRIC_WIDTH: Range = (80.0, 500.0);
const ASPECT: Range = (20.0, 100.0);
const RIM_CODE: Range = (8.0, 30.0);
const INCH_DIAMETER: Range = (15.0, 60.0);
const INCH_WIDTH: Range = (3.0, 25.0);
/// A tire stands at least this much over its rim, in, both sidewalls together.
const LEAST_TIRE: f64 = 2.0;

const SIZES: &str =
    "a size such as 275/60R15, P275/60R15 107T, 31x10.50R15LT, 28x10.5-15 or 7.75-14";

/// The numbers before the construction letter.
enum Printed {
    Metric { section_width: f64, aspect: f64 },
    Inches { diameter: f64, width: f64 },
    Width(f64),
}

impl Printed {
    /// Only the LT after it tells a flotation size from a dragstrip size.
    fn system(self, class: Class) -> SizeSystem {
        match self {
            Printed::Metric {
                section_width,
                aspect,
            } => SizeSystem::Metric {
                section_width,
                aspect,
            },
            Printed::Inches { diameter, width } if class == Class::LightTruck => {
                SizeSystem::Flotation { diameter, width }
            }
            Printed::Inches { diameter, width } => SizeSystem::Dragstrip { diameter, width },
            Printed::Width(width) => SizeSystem::Numeric { width },
        }
    }
}

fn eat_class(cursor: &mut Cursor) -> Option<Class> {
    let mut ahead = cursor.clone();
    let class = match ahead.eat_while(|c| c.is_ascii_alphabetic()) {
        word if word.eq_ignore_ascii_case("P") => Class::Passenger,
        word if word.eq_ignore_ascii_case("LT") => Class::LightTruck,
        _ => return None,
    };
    ahead.eat_spaces();
    *cursor = ahead;
    Some(class)
}

fn expect_size(cursor: &mut Cursor) -> Result<(Printed, Construction), DesignationFault> {
    let start = cursor.clone();
    let Some(first) = cursor.eat_decimal() else {
        return Err(cursor.fault(SIZES));
    };
    cursor.eat_spaces();
    let behind = cursor.clone();
    let mark = cursor.eat_any(&['/', 'x', 'X', '\u{d7}']);
    let printed = if mark.is_some_and(|mark| mark != '/' || first < INCH_DIAMETER.1) {
        within(first, INCH_DIAMETER, "a diameter in inches", &start)?;
        Printed::Inches {
            diameter: first,
            width: expect_within(cursor, INCH_WIDTH, "a width in inches")?,
        }
    } else if first >= METRIC_WIDTH.0 {
        within(
            first,
            METRIC_WIDTH,
            "a section width in millimeters",
            &start,
        )?;
        if mark.is_none() {
            return Err(behind.fault("a / and an aspect ratio from 20 to 100, as in 275/60R15"));
        }
        let aspect = expect_within(cursor, ASPECT, "an aspect ratio")?;
        let printed = Printed::Metric {
            section_width: first,
            aspect,
        };
        // Said without its letter, as in 275/60/15, a metric size is a radial's (common practice, no source).
        cursor.eat_spaces();
        if cursor.eat_any(&['/']).is_some() {
            return Ok((printed, Construction::Radial));
        }
        printed
    } else {
        within(first, INCH_WIDTH, "a width in inches", &start)?;
        Printed::Width(first)
    };
    Ok((printed, expect_construction(cursor)?))
}

/// `R`, `ZR`, `-R`, `B`, `D` or `-`.
fn expect_construction(cursor: &mut Cursor) -> Result<Construction, DesignationFault> {
    cursor.eat_spaces();
    let start = cursor.clone();
    let dashed = cursor.eat_any(&['-', '\u{2010}', '\u{2013}']).is_some();
    let letters = cursor
        .eat_while(|c| c.is_ascii_alphabetic())
        .to_ascii_uppercase();
    cursor.eat_spaces();
    match letters.as_str() {
        "R" | "ZR" | "HR" | "VR" | "SR" => Ok(Construction::Radial),
        "B" => Ok(Construction::Belted),
        "D" => Ok(Construction::Bias),
        "" if dashed => Ok(Construction::Bias),
        _ => Err(start.fault("R for radial, - or D for bias, B for belted, then the rim diameter")),
    }
}

fn expect_within(cursor: &mut Cursor, range: Range, what: &str) -> Result<f64, DesignationFault> {
    cursor.eat_spaces();
    let start = cursor.clone();
    match cursor.eat_decimal() {
        Some(value) => within(value, range, what, &start).map(|()| value),
        None => Err(cursor.fault(format!("{what} from {} to {}", range.0, range.1))),
    }
}

fn within(value: f64, range: Range, what: &str, at: &Cursor) -> Result<(), DesignationFault> {
    if value >= range.0 && value <= range.1 {
        Ok(())
    } else {
        Err(at.fault(format!("{what} from {} to {}", range.0, range.1)))
    }
}

fn expect_service(cursor: &mut Cursor) -> Result<String, DesignationFault> {
    let mut words = Vec::new();
    while !cursor.is_done() {
        let start = cursor.clone();
        let word = cursor.eat_while(|c| !c.is_whitespace());
        if !is_service(word) {
            return Err(start.fault(
                "a load index with its speed symbol such as 107T, a load range, XL, or nothing",
            ));
        }
        words.push(word);
        cursor.eat_spaces();
    }
    Ok(words.join(" "))
}

/// `107T`, `121/118Q`, `(107Y)`, `107`, or one of the short marks that stand beside it.
fn is_service(word: &str) -> bool {
    if ["XL", "RF", "SL", "TL", "M+S", "B", "C", "D", "E", "F"]
        .contains(&word.to_ascii_uppercase().as_str())
    {
        return true;
    }
    let word = word.trim_start_matches('(').trim_end_matches(')');
    let indexes = word.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    word.len() - indexes.len() <= 1
        && indexes.split('/').count() <= 2
        && indexes
            .split('/')
            .all(|index| matches!(index.len(), 2 | 3) && index.bytes().all(|b| b.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(
        text: &str,
        system: SizeSystem,
        construction: Construction,
        rim_code: f64,
        service: &str,
    ) {
        let read = Designation::parse(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert_eq!(
            (
                read.system,
                read.construction,
                read.rim_code,
                read.service.as_str()
            ),
            (system, construction, rim_code, service),
            "{text}"
        );
    }

    #[track_caller]
    fn check_fault(text: &str, at: usize, accepted: &str) {
        let fault = Designation::parse(text).expect_err(text);
        assert_eq!(fault.at, at, "{text}: {fault}");
        assert!(fault.accepted.contains(accepted), "{text}: {fault}");
    }

    #[test]
    fn reads_metric_sizes() {
        use Construction::{Belted, Bias, Radial};
        let metric = |section_width, aspect| SizeSystem::Metric {
            section_width,
            aspect,
        };
        check("275/60R15", metric(275.0, 60.0), Radial, 15.0, "");
        check(
            " p275/60zr15  107T ",
            metric(275.0, 60.0),
            Radial,
            15.0,
            "107T",
        );
        check(
            "LT235/75R15 104/101S C",
            metric(235.0, 75.0),
            Radial,
            15.0,
            "104/101S C",
        );
        check("275 / 60 R 15", metric(275.0, 60.0), Radial, 15.0, "");
        check("275/60/15", metric(275.0, 60.0), Radial, 15.0, "");
        check("225/70-15", metric(225.0, 70.0), Bias, 15.0, "");
        check("225/70D15", metric(225.0, 70.0), Bias, 15.0, "");
        check("225/70B15", metric(225.0, 70.0), Belted, 15.0, "");
        check(
            "305/35ZR20 (107Y) XL",
            metric(305.0, 35.0),
            Radial,
            20.0,
            "(107Y) XL",
        );
        check(
            "8.75-16.5",
            SizeSystem::Numeric { width: 8.75 },
            Bias,
            16.5,
            "",
        );
    }

    #[test]
    fn reads_inch_sizes() {
        use Construction::{Bias, Radial};
        let flotation = SizeSystem::Flotation {
            diameter: 31.0,
            width: 10.5,
        };
        check("31x10.50R15LT", flotation, Radial, 15.0, "");
        check("31X10.50R15 LT 109Q", flotation, Radial, 15.0, "109Q");
        check("LT31\u{d7}10.50-15", flotation, Bias, 15.0, "");
        let slick = SizeSystem::Dragstrip {
            diameter: 28.0,
            width: 10.5,
        };
        check("28x10.5-15", slick, Bias, 15.0, "");
        check("28.0/10.5-15", slick, Bias, 15.0, "");
        check("28x10.5R15", slick, Radial, 15.0, "");
        check(
            "7.75-14",
            SizeSystem::Numeric { width: 7.75 },
            Bias,
            14.0,
            "",
        );
    }

    #[test]
    fn says_what_was_not_understood_and_where() {
        check_fault("", 0, "a size such as");
        check_fault("very wide", 0, "a size such as");
        check_fault("L60-15", 0, "a size such as");
        check_fault("275/60X15", 6, "R for radial");
        check_fault("275/600R15", 4, "an aspect ratio from 20 to 100");
        check_fault("275", 3, "an aspect ratio");
        check_fault("275-60-15", 3, "a / and an aspect ratio");
        check_fault("28/10.5/15", 7, "R for radial");
        check_fault("2750/60R15", 0, "a section width in millimeters");
        check_fault("275/60R", 7, "a rim diameter code from 8 to 30");
        check_fault("275/60R99", 7, "a rim diameter code");
        check_fault("275/60R15 banana", 10, "a load index");
        check_fault("275/60R15banana", 9, "a space before");
        check_fault("16x6-15", 0, "at least 2 in over");
        check_fault("-275/60R15", 0, "a size such as");
        check_fault("\u{ff12}\u{ff17}\u{ff15}/60R15", 0, "a size such as");
        check_fault(&"9".repeat(100_000), 0, "a section width");
    }
}
