//! The dials of the page: what a slider moves, from where to where, and on which marks it lands.

use geometry::car::{Car, Lever, fields};
use geometry::field::{Bound, Quantity};
use geometry::side::{Side, Sides};
use geometry::units::{self, Notation};

/// What one slider with its number box moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dial {
    /// A lever of the whole car.
    Lever(Lever),
    /// The seam of one side, once the sides are moved apart.
    Seam(Side),
}

impl Dial {
    /// Name, bound and help.
    pub fn bound(self) -> Bound {
        match self {
            Dial::Lever(lever) => lever.bound(),
            Dial::Seam(Side::Left) => fields::LEFT_SEAM_MOVE.bound,
            Dial::Seam(Side::Right) => fields::RIGHT_SEAM_MOVE.bound,
        }
    }

    /// The dial's value on this car.
    pub fn get(self, car: &Car) -> f64 {
        match self {
            Dial::Lever(lever) => lever.get(car),
            Dial::Seam(side) => car.sides.get(side).seam_move,
        }
    }

    /// Sets it, held to its bound.
    pub fn set(self, car: &mut Car, value: f64) {
        let value = self.bound().clamp(value);
        match self {
            Dial::Lever(lever) => lever.set(car, value),
            Dial::Seam(side) => car.sides.get_mut(side).seam_move = value,
        }
    }

    /// A name for use in ids.
    pub fn slug(self) -> &'static str {
        match self {
            Dial::Lever(Lever::SeamMove) => "seam",
            Dial::Lever(Lever::Backspacing) => "backspacing",
            Dial::Lever(Lever::TrackWidth) => "track",
            Dial::Lever(Lever::SectionWidth) => "section-width",
            Dial::Lever(Lever::RimWidth) => "rim-width",
            Dial::Lever(Lever::OverallDiameter) => "diameter",
            Dial::Lever(Lever::Bump) => "bump",
            Dial::Lever(Lever::Droop) => "droop",
            Dial::Lever(Lever::Roll) => "roll",
            Dial::Lever(Lever::RideHeight) => "ride-height",
            Dial::Seam(Side::Left) => "seam-left",
            Dial::Seam(Side::Right) => "seam-right",
        }
    }

    /// How far below and above its opened value a builder sensibly tries it, mm or radians.
    fn reach(self) -> (f64, f64) {
        match self {
            Dial::Lever(Lever::SeamMove) | Dial::Seam(_) => (400.0, 127.0),
            Dial::Lever(Lever::Backspacing | Lever::RideHeight) => (76.2, 76.2),
            Dial::Lever(Lever::TrackWidth) => (203.2, 101.6),
            Dial::Lever(Lever::SectionWidth | Lever::OverallDiameter) => (76.2, 101.6),
            Dial::Lever(Lever::RimWidth) => (50.8, 101.6),
            Dial::Lever(Lever::Bump | Lever::Droop) => (127.0, 50.8),
            Dial::Lever(Lever::Roll) => (1.0, 1.0),
        }
    }

    /// Where the car itself ends the slider: the seam at the rail. It asks how far the seams can go only if it must
    /// know, since whoever tells it has to look at the model.
    pub fn limit(self, seams: impl FnOnce() -> Option<Sides<f64>>) -> Option<f64> {
        match self {
            Dial::Lever(Lever::SeamMove) => seams().map(|seams| seams.left.min(seams.right)),
            Dial::Seam(side) => seams().map(|seams| *seams.get(side)),
            Dial::Lever(_) => None,
        }
    }

    /// The marks of the slider for a car that was opened at `opened` and stands at `present`.
    pub fn scale(self, opened: f64, present: f64, limit: Option<f64>, notation: Notation) -> Scale {
        let bound = self.bound();
        let (below, above) = self.reach();
        let mark = mark(bound.quantity, notation);
        let least = bound.clamp((opened - below).min(present));
        let most = bound.clamp(limit.unwrap_or(opened + above).max(present).max(least));
        Scale::inside(mark, least, most)
    }
}

/// Whether the two seams were moved by different amounts, or at least by amounts that a tape can tell.
pub fn seams_differ(car: &Car) -> bool {
    let [left, right] = Side::BOTH.map(|side| Dial::Seam(side).get(car));
    (left - right).abs() > 0.01
}

/// A value this share of a mark away from it stands on it: the rest of a division in binary.
const SNAP: f64 = 1e-6;

/// From mark to mark: what a tape shows in this notation.
fn mark(quantity: Quantity, notation: Notation) -> f64 {
    match quantity {
        Quantity::Length => units::step(notation),
        Quantity::Angle => units::radians(0.1),
        Quantity::Ratio => 0.01,
        Quantity::RimCode | Quantity::Mass | Quantity::Pressure => 1.0,
    }
}

/// The marks of a slider. Inside it counts marks, so that every one of them is a round number to the reader.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// From mark to mark, mm or radians.
    pub mark: f64,
    /// The first mark, counted from zero.
    pub least: f64,
    /// The last mark.
    pub most: f64,
}

impl Scale {
    /// The marks of a length between two ends.
    pub fn between(least: f64, most: f64, notation: Notation) -> Self {
        Self::inside(units::step(notation), least, most)
    }

    /// The marks between two ends, and none beyond: the slider must not offer what a bound refuses.
    fn inside(mark: f64, least: f64, most: f64) -> Self {
        Self {
            mark,
            least: ((least / mark) - SNAP).ceil(),
            most: ((most / mark) + SNAP).floor(),
        }
    }

    /// Where the slider stands for `value`.
    pub fn position(&self, value: f64) -> f64 {
        (value / self.mark)
            .round()
            .clamp(self.least, self.most.max(self.least))
    }

    /// Where `value` lies between the ends, from 0 to 1.
    pub fn share(&self, value: f64) -> f64 {
        let span = self.most - self.least;
        if span > 0.0 {
            (self.position(value) - self.least) / span
        } else {
            0.0
        }
    }

    /// The value at a place of the slider.
    pub fn value(&self, position: f64) -> f64 {
        position * self.mark
    }
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "marks are whole numbers")]
mod tests {
    use super::*;

    #[test]
    fn a_slider_lands_on_the_marks_of_a_tape() {
        let dial = Dial::Lever(Lever::Backspacing);
        let scale = dial.scale(5.5 * 25.4, 5.5 * 25.4, None, Notation::InchFractions);
        assert_eq!(scale.position(5.5 * 25.4), 88.0);
        assert!((scale.value(89.0) - 5.5625 * 25.4).abs() < 1e-9);
        assert_eq!((scale.least, scale.most), (40.0, 136.0));
    }

    #[test]
    fn a_slider_never_offers_what_the_bound_refuses() {
        for notation in [
            Notation::InchFractions,
            Notation::InchDecimals,
            Notation::Millimeters,
        ] {
            for dial in Lever::ALL
                .map(Dial::Lever)
                .into_iter()
                .chain(Side::BOTH.map(Dial::Seam))
            {
                let bound = dial.bound();
                for share in [0.0, 0.1, 0.5, 1.0] {
                    let opened = bound.least + (bound.most - bound.least) * share;
                    let scale = dial.scale(opened, opened, None, notation);
                    assert!(scale.least <= scale.most, "{dial:?} {notation:?}");
                    for position in [scale.least, scale.most] {
                        let value = scale.value(position);
                        let slack = SNAP * scale.mark;
                        assert!(
                            value >= bound.least - slack && value <= bound.most + slack,
                            "{dial:?} {value}"
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn a_typed_value_outside_the_working_range_widens_it() {
        let dial = Dial::Lever(Lever::TrackWidth);
        let scale = dial.scale(1500.0, 1100.0, None, Notation::Millimeters);
        assert_eq!(scale.position(1100.0), 1100.0);
        assert_eq!(scale.least, 1100.0);
    }

    #[test]
    fn the_rail_ends_the_seam_unless_more_was_typed() {
        let dial = Dial::Lever(Lever::SeamMove);
        assert_eq!(
            dial.scale(0.0, 0.0, Some(60.4), Notation::Millimeters).most,
            60.0
        );
        assert_eq!(
            dial.scale(0.0, 90.0, Some(60.4), Notation::Millimeters)
                .most,
            90.0
        );
        assert_eq!(
            dial.scale(0.0, 0.0, Some(-5.0), Notation::Millimeters).most,
            0.0
        );
    }

    #[test]
    fn every_dial_has_its_own_slug() {
        let mut slugs: Vec<_> = Lever::ALL
            .map(Dial::Lever)
            .into_iter()
            .chain(Side::BOTH.map(Dial::Seam))
            .map(Dial::slug)
            .collect();
        slugs.sort_unstable();
        slugs.dedup();
        assert_eq!(slugs.len(), 12);
    }
}
