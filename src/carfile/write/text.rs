//! Lengths, decimals and texts as a car file has them.

use std::fmt::Write as _;

use geometry::units::{LengthUnit, MM_PER_INCH, Notation};

/// A length, mm, in the notation's unit and without its symbol, to [`LENGTH_KEPT`].
pub(super) fn length(millimeters: f64, notation: Notation) -> String {
    let inches = millimeters / MM_PER_INCH;
    match notation {
        Notation::Millimeters => decimal(millimeters, 10),
        Notation::InchDecimals => decimal(inches, 12),
        Notation::InchFractions => fraction(inches).unwrap_or_else(|| decimal(inches, 12)),
    }
}

/// How much a length may change by being written and read, mm.
pub(super) const LENGTH_KEPT: f64 = 1e-10;

/// The finest fraction that is written, parts of an inch.
const FINEST: u32 = 64;

/// A whole number and a fraction in quotes, if the length is one: `"7 5/8"`.
fn fraction(inches: f64) -> Option<String> {
    let parts = inches.abs() * f64::from(FINEST);
    let whole = (parts.round() / f64::from(FINEST)).floor();
    let rest = parts.round() - whole * f64::from(FINEST);
    let is_fraction = (parts - parts.round()).abs() * MM_PER_INCH <= LENGTH_KEPT;
    let over = (1..FINEST).find(|over| (f64::from(*over) - rest).abs() < 0.5)?;
    if !is_fraction {
        return None;
    }
    let shrink = 1 << over.trailing_zeros();
    let sign = if inches < 0.0 { "-" } else { "" };
    let before = if whole > 0.0 {
        format!("{whole:.0} ")
    } else {
        String::new()
    };
    Some(format!(
        "\"{sign}{before}{}/{}\"",
        over / shrink,
        FINEST / shrink
    ))
}

/// The shortest way to say a length, mm, that reads back to the very same number: bare in `unit`, or with the
/// other unit.
pub(super) fn exact_length(millimeters: f64, unit: LengthUnit) -> String {
    let say = |of: LengthUnit| {
        let number = exact(millimeters, of.millimeters())?;
        Some(if of == unit {
            number
        } else {
            format!("\"{number} {}\"", of.symbol())
        })
    };
    let ways = [LengthUnit::Inch, LengthUnit::Millimeter].map(say);
    let shortest = ways.into_iter().flatten().min_by_key(String::len);
    shortest.unwrap_or_else(|| decimal(millimeters, PLACES))
}

/// More decimal places than any number here has digits.
const PLACES: usize = 20;

/// The number with the fewest places that, times `factor`, is `value` to its last digit, if there is one.
#[expect(clippy::float_cmp, reason = "to the last digit is what is asked for")]
pub(super) fn exact(value: f64, factor: f64) -> Option<String> {
    let is_it = |text: &String| {
        let read = text.parse().map(|number: f64| number * factor);
        read.is_ok_and(|read| read == value)
    };
    (0..=PLACES)
        .map(|places| decimal(value / factor, places))
        .find(is_it)
}

/// The number to so many places, without the zeros behind it.
pub(super) fn decimal(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return "nan".to_owned();
    }
    let text = format!("{value:.places$}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

/// Text in quotes, with whatever TOML does not take as it stands written as its number.
pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::with_capacity(text.len() + 2);
    quoted.push('"');
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            c if c.is_control() => {
                // Writing to a string cannot fail.
                let _ = write!(quoted, "\\u{:04X}", u32::from(c));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_fractions_where_they_are_fractions() {
        assert_eq!(
            length(7.625 * MM_PER_INCH, Notation::InchFractions),
            "\"7 5/8\""
        );
        assert_eq!(
            length(-0.25 * MM_PER_INCH, Notation::InchFractions),
            "\"-1/4\""
        );
        assert_eq!(length(10.0 * MM_PER_INCH, Notation::InchFractions), "10");
        assert_eq!(length(-0.0, Notation::InchFractions), "0");
        assert_eq!(length(7.63 * MM_PER_INCH, Notation::InchFractions), "7.63");
        assert_eq!(
            length(7.625 * MM_PER_INCH, Notation::Millimeters),
            "193.675"
        );
        assert_eq!(length(f64::NAN, Notation::Millimeters), "nan");
    }

    #[test]
    fn exact_lengths_are_short_and_read_back_the_same() {
        for (millimeters, unit, text) in [
            (7.625 * MM_PER_INCH, LengthUnit::Inch, "7.625"),
            (7.625 * MM_PER_INCH, LengthUnit::Millimeter, "\"7.625 in\""),
            (193.675, LengthUnit::Millimeter, "193.675"),
            (187.3, LengthUnit::Inch, "\"187.3 mm\""),
            (3.0 * MM_PER_INCH, LengthUnit::Millimeter, "\"3 in\""),
            (0.1 + 0.2, LengthUnit::Millimeter, "0.30000000000000004"),
            (-0.0, LengthUnit::Inch, "0"),
        ] {
            assert_eq!(exact_length(millimeters, unit), text);
        }
        assert_eq!(exact_length(f64::NAN, LengthUnit::Inch), "nan");
    }

    #[test]
    fn any_text_can_be_quoted() {
        assert_eq!(
            quoted("a \"b\" \\ c\n\u{7f}\u{e4}"),
            "\"a \\\"b\\\" \\\\ c\\u000A\\u007F\u{e4}\""
        );
    }
}
