//! Gaps and angles in the words that all drawings share.

use geometry::check::Verdict;
use geometry::units::{Notation, degrees, format_length, shown, step};
use geometry::warnings::Warning;

use crate::rear::capital;

/// A gap and its verdict: `3/8 in, tight`.
#[must_use]
pub fn gap_words(gap: f64, verdict: Verdict, notation: Notation) -> String {
    let length = format_length(gap.abs(), notation);
    match verdict {
        Verdict::Hits if shown(gap, notation) == 0.0 => "just hits".to_owned(),
        Verdict::Hits if gap < 0.0 => format!("hits by {length}"),
        _ => format!("{length}, {}", verdict.word()),
    }
}

/// An angle round the wheel in whole degrees: `35° behind`, `20° ahead`, `straight up`.
#[must_use]
pub fn bearing(angle: f64) -> String {
    let whole = degrees(angle).round();
    if whole == 0.0 || !whole.is_finite() {
        return "straight up".to_owned();
    }
    let word = if whole > 0.0 { "ahead" } else { "behind" };
    format!("{:.0}\u{b0} {word}", whole.abs())
}

/// From one angle round the wheel to another: `90° to 35° behind`, `35° behind to 20° ahead`.
#[must_use]
pub fn bearings([from, to]: [f64; 2]) -> String {
    let (first, last) = (bearing(from), bearing(to));
    match (first.split_once(' '), last.split_once(' ')) {
        _ if first == last => first,
        (Some((start, way)), Some((_, other))) if way == other && start.ends_with('\u{b0}') => {
            format!("{start} to {last}")
        }
        _ => format!("{first} to {last}"),
    }
}

/// How much is missing: never nothing, for something is.
#[must_use]
pub fn missing_words(short: f64, notation: Notation) -> String {
    if shown(short, notation) > 0.0 {
        format_length(short, notation)
    } else {
        format!("less than {}", format_length(step(notation), notation))
    }
}

/// A warning: what it is about, and its words with their caution.
pub(crate) fn warning_words(warning: &Warning, notation: Notation) -> (String, String) {
    let topic = warning.topic;
    (
        capital(topic.label()),
        format!("{} {}", warning.words(notation), topic.caution()),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_angles_share_their_word() {
        assert_eq!(bearings([-1.571, -0.61]), "90\u{b0} to 35\u{b0} behind");
        assert_eq!(bearings([-0.61, 0.35]), "35\u{b0} behind to 20\u{b0} ahead");
        assert_eq!(bearings([0.0, 0.35]), "straight up to 20\u{b0} ahead");
        assert_eq!(bearings([0.35, 0.35]), "20\u{b0} ahead");
    }

    #[test]
    fn what_is_missing_is_never_nothing() {
        let words = |short| missing_words(short, Notation::InchFractions);
        assert_eq!(words(0.4), "less than 1/16 in");
        assert_eq!(words(1.6), "1/16 in");
        assert_eq!(missing_words(0.4, Notation::Millimeters), "0.4 mm");
    }

    #[test]
    fn angles_say_which_way() {
        assert_eq!(bearing(-0.61), "35\u{b0} behind");
        assert_eq!(bearing(0.35), "20\u{b0} ahead");
        assert_eq!(bearing(-0.001), "straight up");
        assert_eq!(bearing(f64::NAN), "straight up");
    }

    #[test]
    fn gaps_say_what_they_are() {
        let words = |gap, target| gap_words(gap, Verdict::of(gap, target), Notation::InchFractions);
        assert_eq!(words(-12.7, 6.0), "hits by 1/2 in");
        assert_eq!(words(-0.1, 6.0), "just hits");
        assert_eq!(words(3.175, 6.0), "1/8 in, tight");
    }
}
