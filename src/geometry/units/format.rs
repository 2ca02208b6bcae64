//! Shows lengths: as a tape reads, in decimals, in millimeters, and as a screen reader says them.

use super::{MM_PER_INCH, Notation};

/// Sixteenths of an inch are what a tape's marks can be read to.
const MARKS: f64 = 16.0;

/// A length in millimeters as text with its unit. The minus is a real one (U+2212), which
/// [`parse_length`](super::parse_length) reads back.
///
/// ```
/// use geometry::units::{Notation, format_length};
/// assert_eq!(format_length(277.6, Notation::InchFractions), "10 15/16 in");
/// assert_eq!(format_length(277.6, Notation::InchDecimals), "10.929 in");
/// assert_eq!(format_length(277.6, Notation::Millimeters), "277.6 mm");
/// ```
#[must_use]
pub fn format_length(millimeters: f64, notation: Notation) -> String {
    let shown = shown(millimeters, notation);
    if !shown.is_finite() {
        return "\u{2014}".to_owned();
    }
    let size = shown.abs();
    let sign = if shown < 0.0 { "\u{2212}" } else { "" };
    match notation {
        Notation::InchFractions => {
            let (whole, over, under) = tape_marks(size);
            match (whole, over) {
                (_, 0) => format!("{sign}{whole:.0} in"),
                (0.0, _) => format!("{sign}{over}/{under} in"),
                _ => format!("{sign}{whole:.0} {over}/{under} in"),
            }
        }
        Notation::InchDecimals => format!("{sign}{:.3} in", size / MM_PER_INCH),
        Notation::Millimeters => format!("{sign}{size:.1} mm"),
    }
}

/// A length as a tape reads it and in millimeters, for whoever may use either.
///
/// ```
/// assert_eq!(geometry::units::in_both(277.6), "10 15/16 in (277.6 mm)");
/// ```
#[must_use]
pub fn in_both(millimeters: f64) -> String {
    let [inches, metric] = [Notation::InchFractions, Notation::Millimeters]
        .map(|notation| format_length(millimeters, notation));
    format!("{inches} ({metric})")
}

/// The same length in words, for `aria-valuetext`.
///
/// ```
/// use geometry::units::{Notation, speak_length};
/// assert_eq!(speak_length(277.6, Notation::InchFractions), "10 and 15 sixteenths inches");
/// assert_eq!(speak_length(-12.7, Notation::InchFractions), "minus 1 half inch");
/// ```
#[must_use]
pub fn speak_length(millimeters: f64, notation: Notation) -> String {
    let shown = shown(millimeters, notation);
    if !shown.is_finite() {
        return "no number".to_owned();
    }
    let size = shown.abs();
    let sign = if shown < 0.0 { "minus " } else { "" };
    let words = match notation {
        Notation::InchFractions => speak_tape(size),
        Notation::InchDecimals => {
            let number = trimmed(format!("{:.3}", size / MM_PER_INCH));
            let unit = if number == "1" { "inch" } else { "inches" };
            format!("{number} {unit}")
        }
        Notation::Millimeters => {
            let number = trimmed(format!("{size:.1}"));
            let unit = if number == "1" {
                "millimeter"
            } else {
                "millimeters"
            };
            format!("{number} {unit}")
        }
    };
    format!("{sign}{words}")
}

/// The length that the text of [`format_length`] stands for, mm.
#[must_use]
pub fn shown(millimeters: f64, notation: Notation) -> f64 {
    let (unit, parts) = match notation {
        Notation::InchFractions => (MM_PER_INCH, MARKS),
        Notation::InchDecimals => (MM_PER_INCH, 1000.0),
        Notation::Millimeters => (1.0, 10.0),
    };
    // Zero is added because a length that rounds to nothing must not keep its minus.
    (millimeters / unit * parts).round() / parts * unit + 0.0
}

/// How much the shown length is more than the true one, mm.
#[must_use]
pub fn rounding_error(millimeters: f64, notation: Notation) -> f64 {
    shown(millimeters, notation) - millimeters
}

/// The step of a slider whose lengths are shown this way, mm: a mark of the tape, a hundredth of an
/// inch, a millimeter.
#[must_use]
pub fn step(notation: Notation) -> f64 {
    match notation {
        Notation::InchFractions => MM_PER_INCH / MARKS,
        Notation::InchDecimals => MM_PER_INCH / 100.0,
        Notation::Millimeters => 1.0,
    }
}

/// Whole inches and the fraction in its lowest terms, of a length that lies on a mark.
fn tape_marks(size: f64) -> (f64, u8, u8) {
    let marks = (size / MM_PER_INCH * MARKS).round();
    let whole = (marks / MARKS).floor();
    let rest = marks - whole * MARKS;
    let over = (1..16_u8)
        .find(|over| (f64::from(*over) - rest).abs() < 0.5)
        .unwrap_or(0);
    let shrink = if over == 0 {
        1
    } else {
        1 << over.trailing_zeros()
    };
    (whole, over / shrink, 16 / shrink)
}

fn speak_tape(size: f64) -> String {
    let (whole, over, under) = tape_marks(size);
    let part = match under {
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        _ => "sixteenth",
    };
    let plural = if over == 1 { "" } else { "s" };
    match (whole, over) {
        (1.0, 0) => "1 inch".to_owned(),
        (_, 0) => format!("{whole:.0} inches"),
        (0.0, 1) if under == 2 => "1 half inch".to_owned(),
        (0.0, _) => format!("{over} {part}{plural} of an inch"),
        _ => format!("{whole:.0} and {over} {part}{plural} inches"),
    }
}

fn trimmed(decimal: String) -> String {
    if decimal.contains('.') {
        decimal
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        decimal
    }
}

#[cfg(test)]
mod tests {
    use super::super::parse_length;
    use super::*;

    #[track_caller]
    fn check(millimeters: f64, notation: Notation, text: &str, spoken: &str) {
        assert_eq!(format_length(millimeters, notation), text);
        assert_eq!(speak_length(millimeters, notation), spoken);
    }

    #[test]
    fn reads_as_a_tape_reads() {
        let tape = Notation::InchFractions;
        check(277.6, tape, "10 15/16 in", "10 and 15 sixteenths inches");
        check(25.3, tape, "1 in", "1 inch"); // carried over from 16/16
        check(0.0, tape, "0 in", "0 inches");
        check(-0.2, tape, "0 in", "0 inches");
        check(-6.35, tape, "\u{2212}1/4 in", "minus 1 quarter of an inch");
        check(9.525, tape, "3/8 in", "3 eighths of an inch");
        check(MM_PER_INCH * 2.5, tape, "2 1/2 in", "2 and 1 half inches");
        check(f64::NAN, tape, "\u{2014}", "no number");
        check(f64::INFINITY, tape, "\u{2014}", "no number");
    }

    #[test]
    fn decimals_keep_their_places_and_speech_drops_the_zeros() {
        check(MM_PER_INCH, Notation::InchDecimals, "1.000 in", "1 inch");
        check(
            -MM_PER_INCH * 1.25,
            Notation::InchDecimals,
            "\u{2212}1.250 in",
            "minus 1.25 inches",
        );
        check(19.04, Notation::Millimeters, "19.0 mm", "19 millimeters");
        check(-0.04, Notation::Millimeters, "0.0 mm", "0 millimeters");
        check(f64::MAX, Notation::Millimeters, "\u{2014}", "no number");
    }

    #[test]
    fn what_is_shown_is_read_back() {
        for notation in Notation::ALL {
            for k in -4000..4000 {
                let millimeters = f64::from(k) * 0.173;
                let text = format_length(millimeters, notation);
                let read = parse_length(&text, notation.unit())
                    .unwrap_or_else(|fault| panic!("{text}: {fault}"));
                assert!((read - shown(millimeters, notation)).abs() < 1e-9, "{text}");
                let half_a_place = match notation {
                    Notation::InchFractions => MM_PER_INCH / 32.0,
                    Notation::InchDecimals => MM_PER_INCH / 2000.0,
                    Notation::Millimeters => 0.05,
                };
                assert!(
                    rounding_error(millimeters, notation).abs() <= half_a_place + 1e-9,
                    "{text}"
                );
            }
        }
    }

    #[test]
    fn steps_are_the_marks_that_are_shown() {
        for notation in Notation::ALL {
            assert!(rounding_error(7.0 * step(notation), notation).abs() < 1e-9);
        }
    }
}
