//! Published wheel dimensions, and units to the last mark of the tape.

use geometry::tire::size::nominal_rim_diameter;
use geometry::units::{
    LengthUnit, MM_PER_INCH, Notation, format_length, parse_length, rounding_error,
};
use geometry::wheel::WheelSpec;

#[track_caller]
fn check(name: &str, found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{name}: {found}, not {expected}"
    );
}

/// A wheel with a J flange: about 13 mm thick, taken as half an inch, and 17.3 mm high.
fn wheel(rim_inches: f64, backspacing: f64) -> WheelSpec {
    WheelSpec {
        rim_width: rim_inches * MM_PER_INCH,
        backspacing,
        flange_thickness: 12.7,
        flange_height: 17.3,
        run_out: 3.175,
    }
}

#[test]
fn overall_width_is_an_inch_more_than_the_rim() {
    // W1: ISO 4000-2 / ETRTO (memory).
    for rim in [7.0, 8.0, 10.0, 12.0] {
        check(
            "overall width",
            wheel(rim, 100.0).overall_width(),
            (rim + 1.0) * MM_PER_INCH,
            1e-9,
        );
    }
}

#[test]
fn backspacing_and_offset_tell_the_same() {
    // W2: derived from W1, for a 10 in rim.
    for (offset, inches) in [(0.0, 5.5), (-25.4, 4.5)] {
        let backspacing = wheel(10.0, 0.0).backspacing_for(offset);
        check("backspacing", backspacing / MM_PER_INCH, inches, 1e-12);
        check("offset", wheel(10.0, backspacing).offset(), offset, 1e-9);
    }
}

#[test]
fn a_rims_nominal_diameter_stands_for_its_bead_seat() {
    // W3: 5-degree bead-seat diameters, ETRTO (memory). We use the nominal diameter (T7), which has to
    // stay near the seat the bead sits on: within 6 mm.
    for (code, seat) in [(15.0, 380.2), (17.0, 436.6), (18.0, 462.0), (20.0, 512.8)] {
        check("bead seat", nominal_rim_diameter(code), seat, 6.0);
    }
}

#[test]
fn an_inch_is_exact() {
    // U1: NIST SP 811 (memory).
    assert_eq!(parse_length("1 in", LengthUnit::Millimeter), Ok(25.4));
    check("inch", MM_PER_INCH, 25.4, 0.0);
}

#[test]
fn a_tape_reads_to_the_nearest_mark() {
    // U3: derived.
    assert_eq!(format_length(277.6, Notation::InchFractions), "10 15/16 in");
    check(
        "rounding",
        rounding_error(277.6, Notation::InchFractions),
        0.212,
        0.000_6,
    );
}
