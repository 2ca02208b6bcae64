//! The frame rail: its outboard face over the axle, and how it drops ahead of and behind its kick-up.

use super::tape::Tape;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// How wide a rail is taken to be, mm: only its outboard edges can meet the tire (common practice, no source).
pub const RAIL_WIDTH: f64 = 63.5;

/// How near to the rail a moved tub may be set, mm: room for sheet, sealer and paint (common practice, no source).
pub const RAIL_MARGIN: f64 = 3.0;

/// One side's frame rail; `out` counts from the car's center plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rail {
    /// Outboard face, out, mm.
    pub face: f64,
    /// Bottom over the axle, up from the axle's center, mm.
    pub bottom: f64,
    /// Top over the axle, mm.
    pub top: f64,
    /// How far ahead the rail keeps its height over the axle, mm.
    pub ahead: f64,
    /// How far behind, mm.
    pub behind: f64,
    /// How much lower it runs beyond, mm.
    pub drop: f64,
}

impl Rail {
    /// The rail that the tape readings tell, pulled from a flange face `face` out from the center plane.
    #[must_use]
    pub fn from_tape(tape: &Tape, face: f64) -> Self {
        Self {
            face: face - tape.to_rail.value,
            bottom: tape.rail_bottom_up.value,
            top: tape.rail_top_up.value,
            ahead: tape.kick_ahead.value,
            behind: tape.kick_behind.value,
            drop: tape.kick_drop.value,
        }
    }

    /// Its outline over the axle: `(out, up)`, counter-clockwise from the bottom outboard edge.
    #[must_use]
    pub fn section(&self) -> [Vec2; 4] {
        let inner = self.face - RAIL_WIDTH;
        [
            vec2(self.face, self.bottom),
            vec2(self.face, self.top),
            vec2(inner, self.top),
            vec2(inner, self.bottom),
        ]
    }

    /// The lower edge of its outboard face from front to rear, and how high above it the upper edge runs:
    /// car frame with `y` counted out. Beyond the kick-up the rail drops at 45 degrees.
    #[must_use]
    pub fn profile(&self) -> (Vec<Vec3>, f64) {
        let low = self.bottom - self.drop;
        let at = |x: f64, z: f64| vec3(x, self.face, z);
        let mut edge = vec![at(self.ahead, self.bottom), at(-self.behind, self.bottom)];
        if self.drop > 0.0 {
            edge.insert(0, at(self.ahead + self.drop, low));
            edge.push(at(-self.behind - self.drop, low));
        }
        (edge, self.top - self.bottom)
    }
}
