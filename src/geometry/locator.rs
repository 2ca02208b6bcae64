//! What holds the axle sideways: track bar, Watt link, angled links or leaf springs.

use crate::space::Vec2;

/// What a pivot is fixed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PivotOn {
    /// It rises and tilts with the axle.
    Axle,
    /// It stays with the body.
    Body,
}

/// The axle's sideways locator. Points are `(left, up)` in the car's frame at ride height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Locator {
    /// A rigid bar from the axle to the body.
    TrackBar {
        /// The end on the axle.
        axle_end: Vec2,
        /// The end on the body.
        body_end: Vec2,
    },
    /// A Watt link: its pivot stays on the car's center plane.
    WattLink {
        /// Height of the pivot above the axle's center at ride height, mm.
        height: f64,
        /// What the pivot is bolted to.
        pivot_on: PivotOn,
    },
    /// Angled links whose lines meet, in plan, at a point of the axle.
    AngledLinks {
        /// Height of that point above the axle's center, mm.
        height: f64,
    },
    /// Leaf springs: the axle rolls about the height of their seats.
    LeafSprings {
        /// Height of the spring seats above the axle's center, mm.
        height: f64,
    },
}
