//! Reads numbers as a builder writes them: `7 5/8 in`, `7-5/8"`, `1' 3 1/2"`, `19.3cm`, `-1/4`.

use super::scan::{Cursor, TextFault};
use super::{KG_PER_POUND, KPA_PER_PSI, LengthUnit, MM_PER_INCH, radians};

/// Reads a length in millimeters; a number without a unit is in `bare`.
///
/// Feet and inches, whole numbers with a fraction (with a space or a hyphen between), decimals with a
/// point or a comma, ready-made fraction characters and prime marks are all read. `1,500` is refused:
/// it may mean one and a half or fifteen hundred.
///
/// ```
/// use geometry::units::{LengthUnit, parse_length};
/// assert_eq!(parse_length("7 1/2 in", LengthUnit::Millimeter), Ok(190.5));
/// assert_eq!(parse_length("1' 3 1/2\"", LengthUnit::Millimeter), Ok(393.7));
/// assert_eq!(parse_length("193 mm", LengthUnit::Inch), Ok(193.0));
/// assert_eq!(parse_length("7 5/0", LengthUnit::Inch).unwrap_err().at, 4);
/// ```
///
/// # Errors
/// What was not understood, at which character, and what would be accepted there.
pub fn parse_length(text: &str, bare: LengthUnit) -> Result<f64, TextFault> {
    let mut cursor = Cursor::new(text);
    cursor.eat_spaces();
    let sign = eat_sign(&mut cursor);
    let first = expect_number(&mut cursor, LENGTH)?;
    let before_unit = cursor.clone();
    cursor.eat_spaces();
    let value = match eat_unit(&mut cursor) {
        None if cursor.is_done() => first * bare.millimeters(),
        None => {
            return Err(cursor.fault("a unit: in, ft, mm, cm or m, or a mark for inches or feet"));
        }
        Some(FOOT) => (first * 12.0 + inches_after_feet(&mut cursor)?) * MM_PER_INCH,
        Some(unit) => first * unit,
    };
    finish(cursor, &before_unit, sign * value)
}

/// Reads an angle in radians from degrees: `2.5`, `2.5°`, `2 1/2 deg`.
///
/// # Errors
/// What was not understood, at which character, and what would be accepted there.
pub fn parse_angle(text: &str) -> Result<f64, TextFault> {
    let unit =
        |word: &str| matches!(word, "" | "\u{b0}" | "deg" | "degree" | "degrees").then_some(1.0);
    parse_with(text, "an angle in degrees, such as 2.5 or 2 1/2 deg", unit).map(radians)
}

/// Reads a mass in kilograms: `400 kg`, `880 lb`. A bare number is pounds where a bare length would be `bare` inches, and
/// kilograms where it would be millimeters.
///
/// # Errors
/// What was not understood, at which character, and what would be accepted there.
pub fn parse_mass(text: &str, bare: LengthUnit) -> Result<f64, TextFault> {
    let unit = |word: &str| match (word, bare) {
        ("kg", _) | ("", LengthUnit::Millimeter) => Some(1.0),
        ("lb" | "lbs" | "pounds", _) | ("", LengthUnit::Inch) => Some(KG_PER_POUND),
        _ => None,
    };
    parse_with(text, "a mass such as 400 kg or 880 lb", unit)
}

/// Reads a pressure in kilopascals: `200 kPa`, `29 psi`, `2 bar`. A bare number is psi where a bare length would be `bare`
/// inches, and kilopascals where it would be millimeters. Pounds are pounds per square inch.
///
/// # Errors
/// What was not understood, at which character, and what would be accepted there.
pub fn parse_pressure(text: &str, bare: LengthUnit) -> Result<f64, TextFault> {
    let unit = |word: &str| match (word, bare) {
        ("kpa", _) | ("", LengthUnit::Millimeter) => Some(1.0),
        ("psi" | "lb" | "lbs" | "pounds", _) | ("", LengthUnit::Inch) => Some(KPA_PER_PSI),
        ("bar", _) => Some(100.0),
        _ => None,
    };
    parse_with(text, "a pressure such as 200 kPa, 29 psi or 2 bar", unit)
}

const LENGTH: &str = "a length such as 7 5/8 in, 7.625, 1' 3 1/2\" or 193 mm";
const FOOT: f64 = 12.0 * MM_PER_INCH;

fn parse_with(
    text: &str,
    accepted: &str,
    unit: impl Fn(&str) -> Option<f64>,
) -> Result<f64, TextFault> {
    let mut cursor = Cursor::new(text);
    cursor.eat_spaces();
    let sign = eat_sign(&mut cursor);
    let value = expect_number(&mut cursor, accepted)?;
    cursor.eat_spaces();
    let before_unit = cursor.clone();
    let word = cursor
        .eat_while(|c| c.is_alphabetic() || c == '\u{b0}')
        .to_ascii_lowercase();
    match unit(&word) {
        Some(factor) => finish(cursor, &before_unit, sign * value * factor),
        None => Err(before_unit.fault(accepted)),
    }
}

/// Nothing but spaces may follow, and the number must be one that arithmetic can hold.
fn finish(mut cursor: Cursor, number_end: &Cursor, value: f64) -> Result<f64, TextFault> {
    cursor.eat_spaces();
    if !cursor.is_done() {
        return Err(cursor.fault("nothing more after the unit"));
    }
    if !value.is_finite() {
        return Err(TextFault {
            found: "a number with too many digits".to_owned(),
            ..number_end.fault("a number that a tape could show")
        });
    }
    // -0 would be shown with a sign of its own.
    Ok(value + 0.0)
}

fn inches_after_feet(cursor: &mut Cursor) -> Result<f64, TextFault> {
    cursor.eat_spaces();
    // 1'-3 1/2" is how drawings write it.
    let dashed = cursor.eat_any(&['-', '\u{2013}']).is_some();
    cursor.eat_spaces();
    if cursor.is_done() && !dashed {
        return Ok(0.0);
    }
    let inches = expect_number(cursor, "inches after the feet, such as 3 1/2\"")?;
    cursor.eat_spaces();
    let before_unit = cursor.clone();
    match eat_unit(cursor) {
        Some(MM_PER_INCH) => Ok(inches),
        None if cursor.is_done() => Ok(inches),
        _ => Err(before_unit.fault("in or a mark for inches")),
    }
}

fn eat_sign(cursor: &mut Cursor) -> f64 {
    let sign = cursor.eat_any(&['-', '\u{2212}', '\u{2013}', '+']);
    cursor.eat_spaces();
    if matches!(sign, None | Some('+')) {
        1.0
    } else {
        -1.0
    }
}

/// Millimeters in the unit that stands here.
fn eat_unit(cursor: &mut Cursor) -> Option<f64> {
    let mut ahead = cursor.clone();
    let unit = match ahead.eat_any(&['\'', '"', '\u{2032}', '\u{2033}', '\u{2019}', '\u{201d}']) {
        // Two single marks are a double one.
        Some('\'') if ahead.eat_any(&['\'']).is_some() => MM_PER_INCH,
        Some('\u{2032}') if ahead.eat_any(&['\u{2032}']).is_some() => MM_PER_INCH,
        Some('\'' | '\u{2032}' | '\u{2019}') => FOOT,
        Some(_) => MM_PER_INCH,
        None => match ahead
            .eat_while(char::is_alphabetic)
            .to_ascii_lowercase()
            .as_str()
        {
            "in" | "inch" | "inches" => MM_PER_INCH,
            "ft" | "foot" | "feet" => FOOT,
            "mm" => 1.0,
            "cm" => 10.0,
            "m" => 1000.0,
            _ => return None,
        },
    };
    // "in." with its period, but not the beginning of ".5".
    let mut dotted = ahead.clone();
    if dotted.eat_any(&['.']).is_some() && !dotted.peek().is_some_and(|c| c.is_ascii_digit()) {
        ahead = dotted;
    }
    *cursor = ahead;
    Some(unit)
}

/// A number with its fraction, if it has one: `7`, `7.625`, `5/8`, `7 5/8`, `7-5/8`, `7⅝`.
fn expect_number(cursor: &mut Cursor, accepted: &str) -> Result<f64, TextFault> {
    if let Some(fraction) = eat_ready_fraction(cursor) {
        return Ok(fraction);
    }
    let start = cursor.clone();
    let Some(whole) = cursor.eat_decimal() else {
        return Err(cursor.fault(accepted));
    };
    if cursor.peek() == Some(',') {
        return Err(TextFault {
            found: "a comma that may part thousands or decimals".to_owned(),
            ..cursor.fault("a decimal point")
        });
    }
    if cursor.peek().is_some_and(is_slash) {
        *cursor = start;
        return expect_fraction(cursor);
    }
    let mut ahead = cursor.clone();
    let parted = ahead.eat_spaces() || ahead.eat_any(&['-', '\u{2013}']).is_some();
    if let Some(fraction) = eat_ready_fraction(&mut ahead) {
        *cursor = ahead;
        return Ok(whole + fraction);
    }
    if !parted || !ahead.peek().is_some_and(|c| c.is_ascii_digit()) {
        return Ok(whole);
    }
    let fraction_start = ahead.clone();
    let fraction = expect_fraction(&mut ahead)?;
    if fraction >= 1.0 || whole % 1.0 != 0.0 {
        return Err(
            fraction_start.fault("a whole number with a fraction smaller than one, such as 7 5/8")
        );
    }
    *cursor = ahead;
    Ok(whole + fraction)
}

fn expect_fraction(cursor: &mut Cursor) -> Result<f64, TextFault> {
    let accepted = "a fraction such as 5/8";
    let numerator = expect_whole(cursor, accepted)?;
    if !cursor.peek().is_some_and(is_slash) {
        return Err(cursor.fault(accepted));
    }
    cursor.eat_while(is_slash);
    let denominator_start = cursor.clone();
    let denominator = expect_whole(cursor, accepted)?;
    if denominator == 0.0 {
        return Err(denominator_start.fault("a number other than zero under the fraction bar"));
    }
    Ok(numerator / denominator)
}

fn expect_whole(cursor: &mut Cursor, accepted: &str) -> Result<f64, TextFault> {
    let start = cursor.clone();
    let digits = cursor.eat_while(|c| c.is_ascii_digit());
    digits.parse().map_err(|_| start.fault(accepted))
}

fn is_slash(c: char) -> bool {
    matches!(c, '/' | '\u{2044}' | '\u{2215}')
}

fn eat_ready_fraction(cursor: &mut Cursor) -> Option<f64> {
    let next = cursor.peek()?;
    let (_, over, under) = READY_FRACTIONS.iter().find(|(mark, ..)| *mark == next)?;
    cursor.eat_any(&[next]);
    Some(f64::from(*over) / f64::from(*under))
}

/// The fraction characters of Unicode whose denominators a tape could carry, and thirds, fifths and tenths.
const READY_FRACTIONS: [(char, u8, u8); 16] = [
    ('\u{bc}', 1, 4),
    ('\u{bd}', 1, 2),
    ('\u{be}', 3, 4),
    ('\u{2152}', 1, 10),
    ('\u{2153}', 1, 3),
    ('\u{2154}', 2, 3),
    ('\u{2155}', 1, 5),
    ('\u{2156}', 2, 5),
    ('\u{2157}', 3, 5),
    ('\u{2158}', 4, 5),
    ('\u{2159}', 1, 6),
    ('\u{215a}', 5, 6),
    ('\u{215b}', 1, 8),
    ('\u{215c}', 3, 8),
    ('\u{215d}', 5, 8),
    ('\u{215e}', 7, 8),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, bare: LengthUnit, millimeters: f64) {
        let read = parse_length(text, bare).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert!(
            (read - millimeters).abs() < 1e-9,
            "{text}: {read}, not {millimeters}"
        );
    }

    #[track_caller]
    fn check_fault(text: &str, at: usize, accepted: &str) {
        let fault = parse_length(text, LengthUnit::Inch).expect_err(text);
        assert_eq!(fault.at, at, "{text}: {fault}");
        assert!(fault.accepted.contains(accepted), "{text}: {fault}");
    }

    #[test]
    fn reads_lengths_as_builders_write_them() {
        let inches = |n: f64| n * MM_PER_INCH;
        for text in [
            "7 5/8 in",
            "7-5/8\"",
            "7 5/8",
            "7\u{215d}",
            "7 \u{215d}\u{2033}",
            "7.625",
            "7,6250",
            "7 5\u{2044}8 inches",
        ] {
            check(text, LengthUnit::Inch, inches(7.625));
        }
        for text in [
            "1' 3 1/2\"",
            "1'-3 1/2''",
            "1\u{2032} 3\u{bd}\u{2033}",
            "1 ft 3.5 in.",
            "1.0 FT 3 1/2",
        ] {
            check(text, LengthUnit::Inch, inches(15.5));
        }
        for text in ["193 mm", "193mm", "19.3cm", "19,3 cm", ".193 m", "193"] {
            check(text, LengthUnit::Millimeter, 193.0);
        }
        check("5/8", LengthUnit::Inch, inches(0.625));
        check("-1/4 in", LengthUnit::Millimeter, inches(-0.25));
        check("\u{2212}\u{bc}\"", LengthUnit::Millimeter, inches(-0.25));
        check("  +2 in  ", LengthUnit::Millimeter, inches(2.0));
        check("6'", LengthUnit::Inch, inches(72.0));
    }

    #[test]
    fn says_what_was_not_understood_and_where() {
        check_fault("", 0, "a length such as");
        check_fault("wide", 0, "a length such as");
        check_fault("7 5/0", 4, "other than zero");
        check_fault("7 9/8", 2, "smaller than one");
        check_fault("7.5 1/8", 4, "smaller than one");
        check_fault("7 5", 3, "a fraction such as");
        check_fault("7 furlongs", 2, "a unit");
        check_fault("7 in wide", 5, "nothing more");
        check_fault("1,500 mm", 1, "decimal point");
        check_fault("NaN", 0, "a length such as");
        check_fault("inf", 0, "a length such as");
        check_fault("1e9", 1, "a unit");
        check_fault("1' 2 mm", 5, "a mark for inches");
        check_fault("1'-", 3, "inches after the feet");
        check_fault(&"9".repeat(400), 400, "a tape could show");
    }

    #[test]
    fn reads_other_quantities() {
        assert_eq!(parse_angle("180\u{b0}"), Ok(std::f64::consts::PI));
        assert_eq!(parse_angle("-90 deg"), Ok(-std::f64::consts::FRAC_PI_2));
        let (inch, millimeter) = (LengthUnit::Inch, LengthUnit::Millimeter);
        for bare in [inch, millimeter] {
            assert_eq!(parse_mass("1 lb", bare), Ok(KG_PER_POUND));
            assert_eq!(parse_mass("1 kg", bare), Ok(1.0));
        }
        assert_eq!(parse_mass("1", inch), Ok(KG_PER_POUND));
        assert_eq!(parse_mass("1", millimeter), Ok(1.0));
        assert_eq!(parse_pressure("30", inch), Ok(30.0 * KPA_PER_PSI));
        assert_eq!(parse_pressure("30 lbs", millimeter), Ok(30.0 * KPA_PER_PSI));
        assert_eq!(parse_pressure("200", millimeter), Ok(200.0));
        assert_eq!(parse_pressure("2 bar", inch), Ok(200.0));
        assert_eq!(parse_pressure("30 PSI", millimeter), Ok(30.0 * KPA_PER_PSI));
        assert_eq!(
            parse_mass("4 stone", inch)
                .expect_err("no such unit here")
                .at,
            2
        );
    }
}
