//! What holds the axle sideways, as a choice of kinds.

use geometry::locator::{Locator, PivotOn};
use geometry::space::vec2;

use super::settings::Choice;

/// A kind of locator.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A bar from the axle to the body.
    TrackBar,
    /// A Watt link with its pivot on the axle.
    WattOnAxle,
    /// A Watt link with its pivot on the body.
    WattOnBody,
    /// Angled links.
    AngledLinks,
    /// Leaf springs.
    LeafSprings,
}

/// The kinds to choose from.
pub const KINDS: [Choice<Kind>; 5] = [
    ("leaf-springs", "Leaf springs", Kind::LeafSprings),
    ("track-bar", "Track bar", Kind::TrackBar),
    ("angled-links", "Angled links", Kind::AngledLinks),
    (
        "watt-axle",
        "Watt link, pivot on the axle",
        Kind::WattOnAxle,
    ),
    (
        "watt-body",
        "Watt link, pivot on the body",
        Kind::WattOnBody,
    ),
];

/// Half the length of a track bar to begin with, mm: some 35 in from end to end is common practice, no source.
const HALF_BAR: f64 = 444.5;

/// The kind of a locator.
pub fn kind(locator: &Locator) -> Kind {
    match locator {
        Locator::TrackBar { .. } => Kind::TrackBar,
        Locator::WattLink {
            pivot_on: PivotOn::Axle,
            ..
        } => Kind::WattOnAxle,
        Locator::WattLink {
            pivot_on: PivotOn::Body,
            ..
        } => Kind::WattOnBody,
        Locator::AngledLinks { .. } => Kind::AngledLinks,
        Locator::LeafSprings { .. } => Kind::LeafSprings,
    }
}

/// Another kind in a locator's place: the axle rolls about the same height. A bar begins level.
pub fn exchanged(present: &Locator, kind: Kind) -> Locator {
    let height = roll_height(present);
    match kind {
        Kind::TrackBar => Locator::TrackBar {
            axle_end: vec2(HALF_BAR, height),
            body_end: vec2(-HALF_BAR, height),
        },
        Kind::WattOnAxle | Kind::WattOnBody => Locator::WattLink {
            height,
            pivot_on: if kind == Kind::WattOnAxle {
                PivotOn::Axle
            } else {
                PivotOn::Body
            },
        },
        Kind::AngledLinks => Locator::AngledLinks { height },
        Kind::LeafSprings => Locator::LeafSprings { height },
    }
}

/// How high above its center the axle rolls: for a bar, where it crosses the car's center plane.
fn roll_height(locator: &Locator) -> f64 {
    match *locator {
        Locator::TrackBar { axle_end, body_end } => {
            let across = axle_end.x - body_end.x;
            let share = if across == 0.0 {
                0.5
            } else {
                (axle_end.x / across).clamp(0.0, 1.0)
            };
            let height = axle_end.y + (body_end.y - axle_end.y) * share;
            Locator::HEIGHT.clamp(height)
        }
        Locator::WattLink { height, .. }
        | Locator::AngledLinks { height }
        | Locator::LeafSprings { height } => height,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_turns_into_every_other_and_rolls_at_the_same_height() {
        let first = Locator::LeafSprings { height: -50.0 };
        for (_, _, one) in KINDS {
            let from = exchanged(&first, one);
            assert_eq!(kind(&from), one);
            for (_, _, other) in KINDS {
                let to = exchanged(&from, other);
                assert_eq!(kind(&to), other);
                assert!((roll_height(&to) + 50.0).abs() < 1e-12, "{to:?}");
            }
        }
    }

    #[test]
    fn a_sloped_bar_rolls_where_it_crosses_the_center_plane() {
        let bar = Locator::TrackBar {
            axle_end: vec2(300.0, 10.0),
            body_end: vec2(-600.0, 100.0),
        };
        assert!((roll_height(&bar) - 40.0).abs() < 1e-12);
    }
}
