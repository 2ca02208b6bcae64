//! What holds the axle sideways: track bar, Watt link, angled links or leaf springs.

use crate::field::{Bound, Quantity};
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

impl Locator {
    /// How high the point about which the axle rolls may be.
    pub const HEIGHT: Bound = Bound {
        key: "locator.height",
        label: "Height of the roll point",
        help: "Above the axle's center at ride height: of a Watt link's pivot, of the point where angled links meet, of the leaf springs' seats.",
        quantity: Quantity::Length,
        least: -600.0,
        most: 800.0,
        usual: None,
    };
}

/// A number that some kinds of locator have.
#[derive(Debug, Clone, Copy)]
pub struct LocatorField {
    /// Name and bound.
    pub bound: Bound,
    /// Reads it; `None` where this kind has none.
    pub get: fn(&Locator) -> Option<f64>,
    /// Sets it, where this kind has it, without checking the bound.
    pub set: fn(&mut Locator, f64),
}

macro_rules! bar_field {
    ($end:ident.$axis:ident, $key:literal, $label:literal, $help:literal) => {
        LocatorField {
            bound: Bound {
                key: $key,
                label: $label,
                help: $help,
                ..Bound::COORDINATE
            },
            get: |locator| match locator {
                Locator::TrackBar { $end, .. } => Some($end.$axis),
                _ => None,
            },
            set: |locator, value| {
                if let Locator::TrackBar { $end, .. } = locator {
                    $end.$axis = value;
                }
            },
        }
    };
}

/// The numbers of every kind of locator.
pub const LOCATOR_FIELDS: &[LocatorField] = &[
    bar_field!(
        axle_end.x,
        "locator.axle_end",
        "Axle end, left",
        "From the car's center plane to the bar's end on the axle; right of it is negative."
    ),
    bar_field!(
        axle_end.y,
        "locator.axle_end",
        "Axle end, up",
        "From the axle's center at ride height; below it is negative."
    ),
    bar_field!(
        body_end.x,
        "locator.body_end",
        "Body end, left",
        "From the car's center plane to the bar's end on the body; right of it is negative."
    ),
    bar_field!(
        body_end.y,
        "locator.body_end",
        "Body end, up",
        "From the axle's center at ride height; below it is negative."
    ),
    LocatorField {
        bound: Locator::HEIGHT,
        get: |locator| match *locator {
            Locator::TrackBar { .. } => None,
            Locator::WattLink { height, .. }
            | Locator::AngledLinks { height }
            | Locator::LeafSprings { height } => Some(height),
        },
        set: |locator, value| match locator {
            Locator::TrackBar { .. } => {}
            Locator::WattLink { height, .. }
            | Locator::AngledLinks { height }
            | Locator::LeafSprings { height } => *height = value,
        },
    },
];
