//! Where a wheel stands while it is fed, and the bound of how far it moves between two places.

use crate::math;
use crate::model::{Model, Solids};
use crate::motion::Placement;
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, vec2};
use crate::travel::Pose;

/// A place of the wheel against where it sits on the axle: along the axle, and in the plane of the rear view.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// How far outboard, mm.
    pub sideways: f64,
    /// How far up, mm.
    pub up: f64,
    /// How far its top leans outboard, radians.
    pub tilt: f64,
}

impl Place {
    /// The place a share `t` of the way to `other`; the tilt turns evenly about the wheel's center.
    #[must_use]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        let between = |a: f64, b: f64| a + (b - a) * t;
        Self {
            sideways: between(self.sideways, other.sideways),
            up: between(self.up, other.up),
            tilt: between(self.tilt, other.tilt),
        }
    }

    /// The same place counted from another seat, which lies at `seat`.
    pub(super) fn counted_from(self, seat: Vec2) -> Self {
        Self {
            sideways: self.sideways - seat.x,
            up: self.up - seat.y,
            tilt: self.tilt,
        }
    }
}

/// The axle as it hangs, and the wheel's center plane on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Hanging {
    pub side: Side,
    /// From the body's frame to the axle's, both wheels at full droop.
    pub axle: Placement<f64>,
    /// The wheel's center plane, out from the axle's center, mm.
    pub center: f64,
    /// No point of tire or wheel is further from the fore-aft line through the wheel's center, mm.
    pub reach: f64,
}

impl Hanging {
    /// The axle `extra` mm below full droop.
    pub fn new(model: &Model, side: Side, extra: f64) -> Self {
        let axle = model
            .motion
            .at(Pose::heave(-model.car.travel.droop - extra));
        let Solids { tire, wheel, .. } = model.solids.get(side);
        let far = |body: &Revolved| {
            let arcs = body.chain.arcs().iter();
            arcs.map(|arc| arc.center.length() + arc.radius)
                .fold(0.0, f64::max)
        };
        Self {
            side,
            axle,
            center: tire.center_plane,
            reach: far(tire).max(far(wheel)),
        }
    }

    /// Whether the locator lets the axle hang so low.
    pub fn is_there(&self) -> bool {
        self.axle.shift.iter().all(|part| part.is_finite())
    }

    /// Where this axle's wheel seat lies from another's, `(outboard, up)`, mm. Both axles hang level, so the one is
    /// the other shifted.
    pub fn seat_from(&self, other: &Self) -> Vec2 {
        let by = |row: usize| self.axle.shift[row] - other.axle.shift[row];
        vec2(self.side.sign() * by(1), by(2))
    }

    /// From the body's frame to that of an axle whose wheel is at `place` where this one's would sit.
    pub fn placed(&self, place: Place) -> Placement<f64> {
        let (sin, cos) = (
            self.side.sign() * math::sin(place.tilt),
            math::cos(place.tilt),
        );
        let center = self.side.sign() * self.center;
        let [ahead, across, up] = self.axle.turn;
        let mix = |a: f64, b: f64| [0, 1, 2].map(|k| across[k] * a + up[k] * b);
        let shift_across = self.axle.shift[1] + center + self.side.sign() * place.sideways;
        let shift_up = self.axle.shift[2] + place.up;
        Placement {
            turn: [ahead, mix(cos, -sin), mix(sin, cos)],
            shift: [
                self.axle.shift[0],
                cos * shift_across - sin * shift_up - center,
                sin * shift_across + cos * shift_up,
            ],
        }
    }

    /// The most that any point of tire and wheel moves between two places and everywhere on the way, mm: as far as the
    /// center does, and as the turn carries the farthest point about it.
    ///
    /// A distance to a body that moves changes by no more than the body's points do; so does the depth inside it, for
    /// its skin moves no further either.
    pub fn moved(&self, a: Place, b: Place) -> f64 {
        math::hypot(b.sideways - a.sideways, b.up - a.up) + (b.tilt - a.tilt).abs() * self.reach
    }
}

/// How far inboard of its center tire and wheel reach at a tilt, mm.
pub(super) fn inboard(solids: &[Revolved; 2], tilt: f64) -> f64 {
    let toward = vec2(-math::cos(tilt), math::sin(tilt).abs());
    let reach = |body: &Revolved| body.chain.support(toward);
    solids.iter().map(reach).fold(f64::NEG_INFINITY, f64::max)
}
