//! Lower bounds by support planes, alone and mixed.
//!
//! Two planes that never exceed the distance may be mixed in any proportion and still never exceed it.
//! Deep inside a tire, where the crown is as near as the bead, no single plane bounds the distance well and
//! the right mixture does: it is what keeps the search short there.

use super::face::Face;
use super::four::Four;
use super::stance::Stance;
use crate::normals::Normals;
use crate::solid::{Revolved, Support};
use crate::space::{Vec2, Vec3, vec2};

/// Any direction will do where there is no radial part.
const UP: Vec2 = vec2(0.0, 1.0);

/// A mixture of support planes of one solid: `across q.y + radial |(q.x, q.z)| - offset` in the axle's frame never
/// exceeds the distance, for the planes are mixed in the meridian plane, where the solid is convex.
///
/// Where `radial` is not negative, the radius is at least the component along `direction`; where it is negative, the
/// hoop term is taken off. Mixing first lets the crown's outward and the bead's inward normal cancel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plane {
    across: f64,
    radial: f64,
    offset: f64,
    /// Direction `(forward, up)` of the meridian plane against the face's bearing; no longer than 1, and of length 1
    /// where `radial` is negative.
    direction: Vec2,
    /// The normals of what was mixed, in the meridian plane whose first axis is positive to the left.
    pub normals: Normals,
}

/// What a plane says of a face over a region.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bound {
    /// Never above the distance of any point of the face in any pose of the region.
    pub least: f64,
    /// What was taken off for the radius exceeding its component along the plane's direction, mm.
    pub hoop: f64,
    /// What was taken off for the bend of the face, mm.
    pub stray: f64,
    /// The corner where it is least.
    pub corner: Vec3,
    /// The pose where it is least.
    pub pose: Vec2,
    /// The wheel along whose travel the bound loses more: 0 left, 1 right.
    pub axis: usize,
}

impl Plane {
    /// The plane of a support, found where the axle's frame has the body point `at` of a face.
    pub fn of(support: &Support, face: &Face, at: Vec3) -> Self {
        let bearing = face.bearing(at);
        Self {
            across: support.normal.y,
            radial: support.radial,
            offset: support.offset,
            direction: turned_back(support.meridian, bearing),
            normals: Normals::of(vec2(support.normal.y, support.radial)),
        }
    }

    /// The plane across the axle that touches a solid on the side on which a support does.
    pub fn sideways(body: &Revolved, support: &Support) -> Self {
        let across = if support.normal.y < 0.0 { -1.0 } else { 1.0 };
        let outboard = body.side.sign() * across;
        Self {
            across,
            radial: 0.0,
            offset: body.chain.support(vec2(outboard, 0.0)) + outboard * body.center_plane,
            direction: UP,
            normals: Normals::of(vec2(across, 0.0)),
        }
    }

    /// Mixed with `other`, which has the weight `share`.
    fn mixed(&self, other: &Self, share: f64) -> Self {
        let mix = |a: f64, b: f64| a + (b - a) * share;
        let (ours, theirs) = ((1.0 - share) * self.radial, share * other.radial);
        let radial = ours + theirs;
        let direction = if ours >= 0.0 && theirs >= 0.0 && radial > 0.0 {
            self.direction * (ours / radial) + other.direction * (theirs / radial)
        } else if ours * radial > theirs * radial {
            self.direction
        } else {
            other.direction
        };
        Self {
            across: mix(self.across, other.across),
            radial,
            offset: mix(self.offset, other.offset),
            direction,
            normals: self.normals.and(other.normals),
        }
    }

    /// The direction at each corner of the face.
    ///
    /// On a patch it turns with the sheet. On a flat face one direction serves all of it, unless the radial part is
    /// negative: then the distance is a concave function, least at a corner, and each corner has its own.
    fn directions(&self, stance: &Stance, pose: Vec2) -> [Four; 2] {
        if self.radial < 0.0 && stance.face.patch().is_none() {
            let [x, _, z] = stance.corners_at(pose);
            let radius = (x * x + z * z).sqrt();
            let (x, z) = (x / radius, z / radius);
            // A corner on the axle's line has no direction of its own: any will do.
            let known = |own: Four, other: f64| {
                Four(own.0.map(|own| if own.is_finite() { own } else { other }))
            };
            return [known(x, self.direction.x), known(z, self.direction.y)];
        }
        let bearings = stance.face.bearings();
        let (sin, cos) = (Four(bearings.map(|b| b.x)), Four(bearings.map(|b| b.y)));
        let Vec2 { x, y } = self.direction;
        [cos * x + sin * y, cos * y - sin * x]
    }

    fn at(&self, q: Vec3) -> f64 {
        self.across * q.y + self.radial * vec2(q.x, q.z).length() - self.offset
    }

    /// The plane's least over the corners of the face in one pose, without the hoop term.
    pub fn least_at(&self, stance: &Stance, pose: Vec2) -> f64 {
        let [along, up] = self.directions(stance, pose);
        let [x, y, z] = stance.corners_at(pose);
        let radius = along * x + up * z;
        let values = y * self.across + radius * self.radial;
        values.least().1 - self.offset
    }

    /// The plane's least over the face and the region; the losses are told from `pose`.
    pub fn bound(&self, stance: &Stance, pose: Vec2) -> Bound {
        let region = stance.region;
        let directions = self.directions(stance, pose);
        let [along, up] = directions;
        let form = stance.form([
            along * self.radial,
            Four::all(self.across),
            up * self.radial,
        ]);
        let [by_left, by_right] = form.remainder;
        let flat = form.quadratics.least_over(&region.polygon) - by_left - by_right;
        // What is no number bounds nothing.
        let flat = Four(flat.0.map(|flat| {
            if flat.is_nan() {
                f64::NEG_INFINITY
            } else {
                flat
            }
        }));
        let (lane, flat) = flat.least();

        let quadratic = form.quadratics.lane(lane);
        let (_, at) = quadratic.least_over(&region.polygon);
        let reference = pose - region.middle;
        let fall = |p: Vec2| quadratic.at(reference) - quadratic.at(p);
        let losses = [
            by_left.0[lane] + fall(vec2(at.x, reference.y)),
            by_right.0[lane] + fall(vec2(reference.x, at.y)),
        ];
        let axis = match losses[0].total_cmp(&losses[1]) {
            std::cmp::Ordering::Equal => region.longer_axis(),
            order => usize::from(order.is_lt()),
        };

        let stray =
            self.radial.abs() * stance.stray.radial + self.across.abs() * stance.stray.across;
        let hoop = self.hoop(stance, directions);
        let least = flat - self.offset - stray - hoop;
        Bound {
            least: if least.is_nan() {
                f64::NEG_INFINITY
            } else {
                least
            },
            hoop,
            stray,
            corner: stance.face.corner(lane),
            pose: region.middle + at,
            axis,
        }
    }

    /// What is taken off for the radius exceeding its component along the direction, mm: `b^2 / 2a` at its greatest,
    /// with `a` the component along and `b` the one across; endless where `a` can vanish.
    fn hoop(&self, stance: &Stance, [along, up]: [Four; 2]) -> f64 {
        if self.radial >= 0.0 {
            return 0.0;
        }
        let half = stance.region.half;
        let zero = Four::all(0.0);
        let (a, a_around) = stance.form([along, zero, up]).spread(half);
        let (b, b_around) = stance.form([up, zero, zero - along]).spread(half);
        let bend = Four::all(stance.stray.radial);
        let (a, b) = (a - a_around - bend, b.abs() + b_around + bend);
        let (_, least_along) = a.least();
        if least_along > 0.0 {
            // Own directions go with their own corners; along a patch the greatest goes with the least.
            let most = if stance.face.patch().is_some() {
                b.greatest() * b.greatest() / least_along
            } else {
                (b * b / a).greatest()
            };
            -self.radial * most / 2.0
        } else {
            f64::INFINITY
        }
    }

    /// The mixture with `other` that bounds best, and its bound; `bound` is this plane's own. It stops where no more
    /// than `worth` is to be gained. The losses are told from `pose`.
    ///
    /// But for the hoop term the bound is a concave function of the share, for it is the least of functions that are
    /// straight in it. So it lies below its tangents, and the two tangents' meeting point is the next share to try.
    pub fn best_with(
        &self,
        bound: Bound,
        other: &Self,
        (stance, pose): (&Stance, Vec2),
        worth: f64,
    ) -> (Self, Bound) {
        /// Shares tried between the two ends.
        const SHARES: usize = 4;
        let slope = |bound: &Bound| {
            let q = stance.region.axle_from_body(bound.corner, bound.pose);
            other.at(q) - self.at(q)
        };
        let mut best = (*self, bound);
        let (mut low, mut low_slope) = ((0.0, bound), slope(&bound));
        if low_slope <= worth {
            return best;
        }
        let end = other.bound(stance, pose);
        let (mut high, mut high_slope) = ((1.0, end), slope(&end));
        if end.least > best.1.least {
            best = (*other, end);
        }
        for _ in 0..SHARES {
            if high_slope >= 0.0 {
                break;
            }
            let (from, to) = (low.1.least, high.1.least);
            let share =
                (to - from + low_slope * low.0 - high_slope * high.0) / (low_slope - high_slope);
            if from + low_slope * (share - low.0) <= best.1.least + worth || !share.is_finite() {
                break;
            }
            let mixture = self.mixed(other, share);
            let found = mixture.bound(stance, pose);
            let found_slope = slope(&found);
            if found.least > best.1.least {
                best = (mixture, found);
            }
            if found_slope > 0.0 {
                (low, low_slope) = ((share, found), found_slope);
            } else {
                (high, high_slope) = ((share, found), found_slope);
            }
        }
        best
    }
}

/// A bound by the distance alone: it changes by no more than a point moves.
pub(super) fn within_reach(stance: &Stance, body: &Revolved, pose: Vec2) -> f64 {
    let reference = stance.region.axle_from_body(stance.face.middle(), pose);
    body.distance(reference) - stance.reach_from(reference)
}

/// A direction `(forward, up)` told from another.
fn turned_back(direction: Vec2, from: Vec2) -> Vec2 {
    vec2(
        direction.x * from.y - direction.y * from.x,
        direction.y * from.y + direction.x * from.x,
    )
}
