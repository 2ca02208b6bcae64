//! What is typed into a box: a tire's printed size, and lengths, angles, masses and pressures.

use geometry::tire::{Designation, DesignationFault, nominal_size};
use geometry::units::{
    LengthUnit, Notation, TextFault, format_length, parse_angle, parse_length, parse_mass,
    parse_pressure, rounding_error, shown, speak_length, step,
};

use crate::clock::timed;

/// Any text as a tire's size: it reads and makes a tire, or says where it is not understood.
pub fn tire(input: &[u8]) {
    let text = String::from_utf8_lossy(input);
    match timed("reading a tire's size", || Designation::parse(&text)) {
        Ok(size) => {
            let again = Designation::parse(&size.text);
            assert_eq!(again.as_ref(), Ok(&size), "its own text reads back");
            let nominal = nominal_size(&size);
            for (number, what) in [
                (nominal.rim_diameter, "rim"),
                (nominal.section_height, "section height"),
                (nominal.overall_diameter, "diameter"),
                (nominal.section_width_on(200.0), "width"),
            ] {
                assert!(
                    number.is_finite() && number > 0.0,
                    "{what} of {size:?}: {number}"
                );
            }
            assert!(
                nominal.overall_diameter > nominal.rim_diameter,
                "{size:?}: {nominal:?}"
            );
        }
        Err(fault) => is_told(&text, &fault),
    }
}

/// Any text as every quantity that is typed.
pub fn quantity(input: &[u8]) {
    let text = String::from_utf8_lossy(input);
    for unit in [LengthUnit::Inch, LengthUnit::Millimeter] {
        match timed("reading a length", || parse_length(&text, unit)) {
            Ok(length) => is_written(length),
            Err(fault) => is_told(&text, &fault),
        }
    }
    let mass = |text: &str| parse_mass(text, LengthUnit::Inch);
    let pressure = |text: &str| parse_pressure(text, LengthUnit::Millimeter);
    for read in [
        &parse_angle as &dyn Fn(&str) -> Result<f64, TextFault>,
        &mass,
        &pressure,
    ] {
        match timed("reading a quantity", || read(&text)) {
            Ok(number) => is_number(number),
            Err(fault) => is_told(&text, &fault),
        }
    }
}

/// A fault that says what was found, what would be accepted, and where in the text.
fn is_told(text: &str, fault: &DesignationFault) {
    let TextFault {
        at,
        found,
        accepted,
    } = fault;
    assert!(*at <= text.chars().count(), "{fault} is outside the text");
    assert!(
        !found.trim().is_empty() && !accepted.trim().is_empty(),
        "{fault:?}"
    );
}

fn is_number(number: f64) {
    assert!(number.is_finite(), "{number} is no number");
    assert!(
        number != 0.0 || number.is_sign_positive(),
        "nothing has no sign"
    );
}

/// A kilometer, mm: no bound of a car reaches as far, so nothing longer is ever shown.
const FAR: f64 = 1e6;

/// A length can be shown, and what is shown is read back as what was shown.
fn is_written(length: f64) {
    is_number(length);
    if length.abs() > FAR {
        return;
    }
    for notation in Notation::ALL {
        assert!(!speak_length(length, notation).is_empty());
        let text = format_length(length, notation);
        let back = parse_length(&text, notation.unit());
        let back = back.unwrap_or_else(|fault| panic!("{length} is written {text}: {fault}"));
        let seen = shown(length, notation);
        // A decimal text is rounded in its own unit, and once more in millimeters.
        let rounding = 4.0 * f64::EPSILON * seen.abs();
        assert!(
            (back - seen).abs() <= rounding,
            "{length}: {text} reads {back}, not {seen}"
        );
        let off = rounding_error(length, notation).abs();
        assert!(
            off <= step(notation) / 2.0 + 4.0 * f64::EPSILON * length.abs(),
            "{length}: {off}"
        );
    }
}
