//! Parts bolted near the tire: a rounded bar between two points stands in for each.

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
