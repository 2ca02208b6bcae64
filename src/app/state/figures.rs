//! Numbers as the reader sees, hears and types them.

use geometry::field::{Bound, Quantity};
use geometry::units::{self, KG_PER_POUND, KPA_PER_PSI, LengthUnit, Notation, TextFault};

/// A number as it stands in a number box.
pub fn shown(value: f64, quantity: Quantity, notation: Notation) -> String {
    match quantity {
        Quantity::Length => units::format_length(value, notation),
        Quantity::Angle => format!("{}°", decimals(units::degrees(value), 1)),
        Quantity::Ratio => decimals(value, 2),
        Quantity::RimCode => decimals(value, 1),
        Quantity::Mass | Quantity::Pressure => {
            let (size, unit, _) = measured(value, quantity, notation);
            format!("{} {unit}", decimals(size, 0))
        }
    }
}

/// A number as a screen reader says it.
pub fn spoken(value: f64, quantity: Quantity, notation: Notation) -> String {
    match quantity {
        Quantity::Length => units::speak_length(value, notation),
        Quantity::Angle => format!(
            "{} degrees",
            decimals(units::degrees(value), 1).replace(MINUS, "minus ")
        ),
        Quantity::Mass | Quantity::Pressure => {
            let (size, _, word) = measured(value, quantity, notation);
            format!("{} {word}", decimals(size, 0))
        }
        Quantity::Ratio | Quantity::RimCode => shown(value, quantity, notation),
    }
}

/// A mass or a pressure in the units that go with the lengths, with their short and their spoken name.
fn measured(
    value: f64,
    quantity: Quantity,
    notation: Notation,
) -> (f64, &'static str, &'static str) {
    match (quantity, notation.unit()) {
        (Quantity::Mass, LengthUnit::Inch) => (value / KG_PER_POUND, "lb", "pounds"),
        (Quantity::Mass, LengthUnit::Millimeter) => (value, "kg", "kilograms"),
        (_, LengthUnit::Inch) => (value / KPA_PER_PSI, "psi", "pounds per square inch"),
        (_, LengthUnit::Millimeter) => (value, "kPa", "kilopascals"),
    }
}

/// A length with its sign said as a direction: `1/2 in up`, `3 mm down`, `0 in`.
pub fn directed(value: f64, (plus, minus): (&str, &str), notation: Notation) -> String {
    let size = units::format_length(value.abs(), notation);
    // What is shown as nothing has no direction.
    match units::shown(value, notation) {
        shown if shown > 0.0 => format!("{size} {plus}"),
        shown if shown < 0.0 => format!("{size} {minus}"),
        _ => size,
    }
}

/// The number that `text` stands for, or what was not understood and what would be accepted.
///
/// # Errors
/// One or two sentences for the reader.
pub fn understood(text: &str, bound: &Bound, notation: Notation) -> Result<f64, String> {
    if text.trim().is_empty() {
        return Err(format!(
            "Nothing is typed here. Type {}.",
            wanted(bound, notation)
        ));
    }
    let value = parse(text, bound.quantity, notation).map_err(|fault| said(text, &fault))?;
    if bound.admits(value) {
        return Ok(value);
    }
    // A number written down from its own bound is that bound: showing it rounded must not refuse it.
    let nearest = bound.clamp(value);
    if shown(nearest, bound.quantity, notation) == shown(value, bound.quantity, notation) {
        return Ok(nearest);
    }
    let found = shown(value, bound.quantity, notation);
    Err(format!(
        "{found} is out of range. Type {}.",
        wanted(bound, notation)
    ))
}

/// What a number box accepts, as a phrase.
pub fn wanted(bound: &Bound, notation: Notation) -> String {
    let [least, most] =
        [bound.least, bound.most].map(|value| shown(value, bound.quantity, notation));
    let example = match bound.quantity {
        Quantity::Length => ", such as 7 5/8, 7.625 in or 193 mm",
        Quantity::Mass => ", in kg or lb",
        Quantity::Pressure => ", in kPa, psi or bar",
        Quantity::Angle | Quantity::Ratio | Quantity::RimCode => "",
    };
    format!("{least} to {most}{example}")
}

fn parse(text: &str, quantity: Quantity, notation: Notation) -> Result<f64, TextFault> {
    match quantity {
        Quantity::Length => units::parse_length(text, notation.unit()),
        Quantity::Angle => units::parse_angle(text),
        Quantity::Mass => units::parse_mass(text, notation.unit()),
        Quantity::Pressure => units::parse_pressure(text, notation.unit()),
        Quantity::Ratio | Quantity::RimCode => match text.trim().parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(value),
            _ => Err(TextFault {
                at: 0,
                found: format!("“{}”", text.trim()),
                accepted: "a plain number".to_owned(),
            }),
        },
    }
}

/// A fault as a sentence; where it stands is said only when something before it was understood.
pub fn said(text: &str, fault: &TextFault) -> String {
    let start: String = text.chars().take(fault.at).collect();
    let found = &fault.found;
    let wanted = &fault.accepted;
    if start.trim().is_empty() {
        format!("Not understood: {found}. Type {wanted}.")
    } else {
        format!(
            "Not understood after “{}”: {found}. Type {wanted}.",
            start.trim()
        )
    }
}

const MINUS: &str = "\u{2212}";

/// A number with up to so many decimals, without trailing zeros, its minus a real one.
pub fn decimals(value: f64, most: usize) -> String {
    if !value.is_finite() {
        return "\u{2014}".to_owned();
    }
    let mut text = format!("{value:.most$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    match text.strip_prefix('-') {
        Some("0") => "0".to_owned(),
        Some(size) => format!("{MINUS}{size}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use geometry::car::{Lever, fields};

    use super::*;

    const INCHES: Notation = Notation::InchFractions;

    #[track_caller]
    fn check(text: &str, bound: &Bound, notation: Notation, expected: f64) {
        let value = understood(text, bound, notation).expect(text);
        assert!((value - expected).abs() < 1e-9, "{text}: {value}");
    }

    #[test]
    fn a_number_is_read_in_any_unit() {
        let bound = Lever::Backspacing.bound();
        for text in ["7 5/8", "7-5/8 in", "7.625", "193.675 mm", " 7 5/8\" "] {
            check(text, &bound, INCHES, 193.675);
        }
        check("193.675", &bound, Notation::Millimeters, 193.675);
        check("2.5", &Lever::Roll.bound(), INCHES, units::radians(2.5));
        check(
            "880 lb",
            &fields::LOAD.bound,
            INCHES,
            880.0 * units::KG_PER_POUND,
        );
        check(
            "880",
            &fields::LOAD.bound,
            INCHES,
            880.0 * units::KG_PER_POUND,
        );
        check("400", &fields::LOAD.bound, Notation::Millimeters, 400.0);
        check("0.45", &fields::WIDEST_AT.bound, INCHES, 0.45);
    }

    #[test]
    fn nonsense_is_told_in_words() {
        let bound = Lever::Backspacing.bound();
        for text in [
            "",
            "  ",
            "wide",
            "7 5/0",
            "7 5/8 furlongs",
            "NaN",
            "inf",
            "1e999",
            "-3",
            "999 in",
        ] {
            let words = understood(text, &bound, INCHES).expect_err(text);
            assert!(
                words.contains("Type ") && words.ends_with('.'),
                "{text}: {words}"
            );
        }
        let words = understood("999 in", &bound, INCHES).unwrap_err();
        assert!(words.starts_with("999 in is out of range"), "{words}");
        for text in ["NaN", "inf", "x"] {
            assert!(
                understood(text, &fields::WIDEST_AT.bound, INCHES).is_err(),
                "{text}"
            );
        }
    }

    #[test]
    fn what_is_shown_of_a_bound_is_accepted() {
        for notation in Notation::ALL {
            for bound in Lever::ALL
                .map(Lever::bound)
                .iter()
                .chain(fields::CAR_FIELDS.iter().map(|field| &field.bound))
            {
                for value in [bound.least, bound.most] {
                    let text = shown(value, bound.quantity, notation);
                    assert_eq!(
                        understood(&text, bound, notation),
                        Ok(bound.clamp(understood(&text, bound, notation).unwrap()))
                    );
                }
            }
        }
    }

    #[test]
    fn directions_are_said_unless_there_is_none() {
        assert_eq!(directed(12.7, ("up", "down"), INCHES), "1/2 in up");
        assert_eq!(directed(-25.4, ("up", "down"), INCHES), "1 in down");
        assert_eq!(directed(-0.1, ("up", "down"), INCHES), "0 in");
    }

    #[test]
    fn decimals_are_trimmed_and_the_minus_is_real() {
        assert_eq!(
            (decimals(2.50, 2).as_str(), decimals(-1.0, 1).as_str()),
            ("2.5", "\u{2212}1")
        );
        assert_eq!(
            (decimals(-0.001, 1).as_str(), decimals(100.0, 0).as_str()),
            ("0", "100")
        );
    }
}
