//! What the wheel goes over: axle flange, brake hat and studs as one cylinder, and the wheel's own hollow that takes it.
//!
//! The wheel is hollow inboard of its mounting face, as wide as the rim less its well. Studs and hat may be in that
//! hollow, or the whole wheel outboard of them, and nothing else is allowed: bounds from below, in closed form.

use super::place::{Place, inboard};
use crate::math;
use crate::model::Model;
use crate::side::Side;
use crate::solid::Revolved;

/// How much less than the rim's nominal radius the hollow has, mm: well and metal (common practice, no source).
const WELL: f64 = 25.4;

/// No distance above this is told, mm: what lies so far inboard of the hollow is not looked at.
const FAR: f64 = 20.0;

/// The hub of one side against its wheel, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Hub {
    /// Radius of flange and hat.
    radius: f64,
    /// How far the studs stand out of the mounting face.
    pub studs: f64,
    /// The mounting face, outboard of the wheel's center plane.
    face: f64,
    /// How far inboard of the mounting face tire and wheel reach.
    depth: f64,
    /// Radius of the hollow.
    hollow: f64,
}

impl Hub {
    pub fn new(model: &Model, side: Side) -> Self {
        let car = &model.car;
        let solids = model.solids.get(side);
        let inboard = |body: &Revolved| body.chain.support(crate::space::vec2(-1.0, 0.0));
        let face = car.wheel.offset();
        Self {
            radius: car.axle.flange_diameter / 2.0,
            studs: car.axle.stud_length,
            face,
            depth: face + inboard(&solids.tire).max(inboard(&solids.wheel)),
            hollow: (car.tire.rim_diameter() / 2.0 - WELL).max(0.0),
        }
    }

    /// A bound from below of the distance between hub and wheel at a place, mm; below zero where they may overlap.
    ///
    /// In the wheel's meridian plane the hub's axis is a straight line from the studs' tips inboard. Every point of the
    /// hub is within its radius of the axis, so it is in the hollow where the axis is deeper in it than that; and where
    /// a plane across either axis parts the two, they are as far apart as the plane is from both.
    pub fn clearance(&self, solids: &[Revolved; 2], place: Place) -> f64 {
        let (sin, cos) = (math::sin(place.tilt), math::cos(place.tilt));
        if cos <= 0.0 {
            return f64::NEG_INFINITY;
        }
        // The studs' tips from the wheel's center: along its axis, counted from the mounting face, and across it.
        let (out, up) = (self.face + self.studs - place.sideways, -place.up);
        let (tip, across) = (out * cos - up * sin - self.face, out * sin + up * cos);
        let slant = self.radius * sin.abs();
        let most = tip + slant;
        let length = ((tip + self.depth + slant + FAR) / cos).max(0.0);
        let aside = across.abs().max((across - length * sin).abs());
        let inside = (-most).min(self.hollow - self.radius - aside).min(FAR);
        let beside = -self.depth - most;
        let beyond = place.sideways - inboard(solids, place.tilt) - self.face - self.studs;
        inside.max(beside).max(beyond)
    }
}
