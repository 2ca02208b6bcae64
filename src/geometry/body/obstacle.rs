//! Parts bolted near the tire: a rounded bar between two points stands in for each.

use crate::field::{Bound, Field, Quantity};
use crate::side::Side;
use crate::space::Vec3;

/// A part near the tire, modeled as all points within `radius` of the segment from `from` to `to`.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// What it is: shock, spring, tailpipe, filler neck, bump stop, ...
    pub name: String,
    /// The side it is on.
    pub side: Side,
    /// One end: x forward, y counted outboard from the car's center plane, z up, mm.
    pub from: Vec3,
    /// The other end, the same way.
    pub to: Vec3,
    /// Its radius, mm.
    pub radius: f64,
}

impl Obstacle {
    /// What the radius may be.
    pub const RADIUS: Bound = Bound {
        key: "radius",
        label: "Radius",
        help: "Half as much as the part is across, of the rounded bar that stands in for it.",
        quantity: Quantity::Length,
        least: 0.5,
        most: 300.0,
        usual: None,
    };
}

macro_rules! obstacle_fields {
    ($( $end:ident.$axis:ident, $label:literal, $help:literal; )*) => {
        /// The numbers of a part, one end after the other; `bound.key` is the key inside the part's table.
        pub const OBSTACLE_FIELDS: &[Field<Obstacle>] = &[
            $( Field {
                bound: Bound {
                    key: stringify!($end),
                    label: $label,
                    help: $help,
                    ..Bound::COORDINATE
                },
                get: |part| part.$end.$axis,
                set: |part, value| part.$end.$axis = value,
            }, )*
            Field {
                bound: Obstacle::RADIUS,
                get: |part| part.radius,
                set: |part, value| part.radius = value,
            },
        ];
    };
}

obstacle_fields! {
    from.x, "One end, ahead", "Ahead of the axle's center; behind it is negative.";
    from.y, "One end, out", "Outward from the car's center plane, to the middle of the part.";
    from.z, "One end, up", "Up from the axle's center at ride height; below it is negative.";
    to.x, "Other end, ahead", "Ahead of the axle's center; behind it is negative.";
    to.y, "Other end, out", "Outward from the car's center plane, to the middle of the part.";
    to.z, "Other end, up", "Up from the axle's center at ride height; below it is negative.";
}
