//! An axis of lengths, with round marks: as a tape has them, or decimal.

use std::ops::Range;

use geometry::units::{LengthUnit, Notation};
use plotters::coord::ranged1d::{DefaultFormatting, KeyPointHint, Ranged};

/// An axis with the marks it is given, mm.
pub struct Axis {
    /// Its two ends.
    pub ends: [f64; 2],
    /// Its marks.
    pub marks: Vec<f64>,
}

impl Ranged for Axis {
    type FormatOption = DefaultFormatting;
    type ValueType = f64;

    #[expect(
        clippy::cast_possible_truncation,
        reason = "saturates; a sheet is some thousand pixels wide"
    )]
    fn map(&self, value: &f64, (from, to): (i32, i32)) -> i32 {
        let share = (value - self.ends[0]) / (self.ends[1] - self.ends[0]);
        (f64::from(from) + f64::from(to - from) * share).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, hint: Hint) -> Vec<f64> {
        // plotters asks once more for light lines, of which there are none.
        if hint.weight().allow_light_points() {
            Vec::new()
        } else {
            self.marks.clone()
        }
    }

    fn range(&self) -> Range<f64> {
        self.ends[0]..self.ends[1]
    }
}

/// Multiples of the notation's steps between two lengths, about `count` of them, mm.
pub fn marks(from: f64, to: f64, count: f64, notation: Notation) -> Vec<f64> {
    const TAPE: [f64; 10] = [
        1.0 / 16.0,
        1.0 / 8.0,
        1.0 / 4.0,
        1.0 / 2.0,
        1.0,
        2.0,
        4.0,
        8.0,
        16.0,
        32.0,
    ];
    const DECIMAL: [f64; 10] = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0];
    let unit = notation.unit();
    let steps = match unit {
        LengthUnit::Inch => TAPE,
        LengthUnit::Millimeter => DECIMAL,
    }
    .map(|step| step * unit.millimeters());
    let wanted = (to - from) / count;
    let step = steps
        .into_iter()
        .find(|&step| step >= wanted)
        .unwrap_or(steps[steps.len() - 1]);
    let mut marks = Vec::new();
    let mut mark = (from / step).ceil();
    while mark * step <= to && marks.len() < 64 {
        marks.push(mark * step);
        mark += 1.0;
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(from: f64, to: f64, notation: Notation, expected: &[f64]) {
        assert_eq!(marks(from, to, 5.0, notation), expected);
    }

    #[test]
    fn marks_are_round_in_the_notation() {
        check(-60.0, 80.0, Notation::InchFractions, &[-50.8, 0.0, 50.8]);
        check(-3.0, 11.0, Notation::Millimeters, &[0.0, 5.0, 10.0]);
    }

    #[test]
    fn odd_ranges_give_few_marks() {
        assert!(marks(0.0, f64::INFINITY, 5.0, Notation::Millimeters).len() <= 64);
        assert!(marks(f64::NAN, 1.0, 5.0, Notation::Millimeters).is_empty());
        assert!(marks(1e300, 1e301, 5.0, Notation::Millimeters).len() <= 64);
    }
}
