//! Where nobody may cut: patches of the wheelhouse's sheet with structure behind them.

use crate::field::{Bound, Field, Quantity};
use crate::side::Side;

/// A patch of the sheet that must stay: behind it is a belt anchorage, a shock or spring mount, or what
/// holds the quarter panel.
///
/// It is told on the wheelhouse as the factory made it: between two angles round the wheel, and between
/// two distances along the sheet from the seam.
///
/// ```
/// use geometry::body::NoCutZone;
/// use geometry::side::Side;
/// let zone = NoCutZone {
///     name: "shock mount".into(),
///     side: Side::Left,
///     angles: [-0.2, 0.2],
///     along: [150.0, 240.0],
/// };
/// assert!(zone.covers(0.1, 200.0) && !zone.covers(0.3, 200.0));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct NoCutZone {
    /// What is behind the sheet.
    pub name: String,
    /// The side it is on.
    pub side: Side,
    /// From which angle to which: from straight up, radians, positive toward the front, in rising order.
    pub angles: [f64; 2],
    /// From where to where along the sheet: from the factory's seam, mm, positive inboard, in rising order.
    pub along: [f64; 2],
}

impl NoCutZone {
    /// What either angle may be: the ground side has no wheelhouse.
    pub const ANGLE: Bound = Bound {
        key: "no_cut.angles",
        label: "Angle of the no-cut zone",
        help: "From straight up, positive toward the front.",
        quantity: Quantity::Angle,
        least: -170.0 / 180.0 * std::f64::consts::PI,
        most: 170.0 / 180.0 * std::f64::consts::PI,
        usual: None,
    };

    /// What either distance along the sheet may be.
    pub const ALONG: Bound = Bound {
        key: "no_cut.along",
        label: "Distance of the no-cut zone along the sheet",
        help: "From the factory's seam, along the sheet, positive inboard.",
        quantity: Quantity::Length,
        least: -1500.0,
        most: 1500.0,
        usual: None,
    };

    /// Whether the spot at `angle`, `along` mm inboard of the seam, is in the zone; its edges are.
    #[must_use]
    pub fn covers(&self, angle: f64, along: f64) -> bool {
        let within = |[from, to]: [f64; 2], at: f64| (from..=to).contains(&at);
        within(self.angles, angle) && within(self.along, along)
    }
}

macro_rules! no_cut_fields {
    ($( $ends:ident[$end:literal], $bound:ident, $label:literal; )*) => {
        /// The numbers of a zone; `bound.key` is its key in a car file.
        pub const NO_CUT_FIELDS: &[Field<NoCutZone>] = &[ $( Field {
            bound: Bound { label: $label, ..NoCutZone::$bound },
            get: |zone| zone.$ends[$end],
            set: |zone, value| zone.$ends[$end] = value,
        }, )* ];
    };
}

no_cut_fields! {
    angles[0], ANGLE, "From angle";
    angles[1], ANGLE, "To angle";
    along[0], ALONG, "From, along the sheet";
    along[1], ALONG, "To, along the sheet";
}
