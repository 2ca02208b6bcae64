//! Lower bounds by support planes, alone and mixed.
//!
//! Two planes that never exceed the distance may be mixed in any proportion and still never exceed it.
//! Deep inside a tire, where the crown is as near as the bead, no single plane bounds the distance well and
//! the right mixture does: it is what keeps the search short there.

use super::face::Face;
use super::poses::Region;
use super::quadratic::Quadratic;
use crate::motion::Placement;
use crate::solid::{Revolved, Support};
use crate::space::{Vec2, Vec3, vec2, vec3};

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
    /// Direction `(forward, up)` of the meridian plane; no longer than 1, and of length 1 where `radial` is negative.
    direction: Vec2,
}

/// What a plane says of a face over a region.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bound {
    /// Never above the distance of any point of the face in any pose of the region.
    pub least: f64,
    /// The same without the hoop term.
    pub flat: f64,
    /// The corner where it is least.
    pub corner: Vec3,
    /// The pose where it is least.
    pub pose: Vec2,
    /// The pose that the losses are told from.
    pub reference: Vec2,
    /// The wheel along whose travel the bound loses more: 0 left, 1 right.
    pub axis: usize,
}

impl From<Support> for Plane {
    fn from(support: Support) -> Self {
        let Support {
            normal,
            offset,
            radial,
            meridian,
        } = support;
        Self {
            across: normal.y,
            radial,
            offset,
            direction: meridian,
        }
    }
}

impl Plane {
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
        }
    }

    /// The plane's least over the corners of `face` in one placement of the axle, without the hoop term.
    pub fn least_at(&self, placement: &Placement<f64>, face: &Face) -> f64 {
        let normal = self.normal();
        let at = |&corner: &Vec3| normal.dot(placement.axle_from_body(corner)) - self.offset;
        face.corners().iter().map(at).fold(f64::INFINITY, f64::min)
    }

    fn normal(&self) -> Vec3 {
        vec3(
            self.radial * self.direction.x,
            self.across,
            self.radial * self.direction.y,
        )
    }

    fn at(&self, q: Vec3) -> f64 {
        self.across * q.y + self.radial * vec2(q.x, q.z).length() - self.offset
    }

    /// The plane's least over the face and the region.
    pub fn bound(&self, region: &Region, face: &Face, pose: Vec2) -> Bound {
        let form = region.affine(self.normal());
        let mut bound = Bound {
            least: f64::INFINITY,
            flat: f64::INFINITY,
            corner: face.middle(),
            pose,
            reference: pose,
            axis: region.longer_axis(),
        };
        let reference = pose - region.middle;
        for &corner in face.corners() {
            let (quadratic, remainder) = form.of(corner, region.half);
            let (least, at) = quadratic.least_over(&region.polygon);
            let flat = least - remainder.x - remainder.y - self.offset;
            // What is no number bounds nothing.
            let flat = if flat.is_nan() {
                f64::NEG_INFINITY
            } else {
                flat
            };
            if flat < bound.flat {
                let fall = |p: Vec2| quadratic.at(reference) - quadratic.at(p);
                let loss = [
                    remainder.x
                        + fall(Vec2 {
                            x: at.x,
                            ..reference
                        }),
                    remainder.y
                        + fall(Vec2 {
                            y: at.y,
                            ..reference
                        }),
                ];
                let axis = match loss[0].total_cmp(&loss[1]) {
                    std::cmp::Ordering::Equal => region.longer_axis(),
                    order => usize::from(order.is_lt()),
                };
                bound = Bound {
                    flat,
                    corner,
                    pose: region.middle + at,
                    axis,
                    ..bound
                };
            }
        }
        bound.least = bound.flat - self.hoop(region, face);
        bound
    }

    /// What is taken off for the radius exceeding its component along the direction, mm: `b^2 / 2a` at its greatest,
    /// with `a` the component along and `b` the one across; endless where `a` can vanish.
    fn hoop(&self, region: &Region, face: &Face) -> f64 {
        if self.radial >= 0.0 {
            return 0.0;
        }
        let along = region.affine(vec3(self.direction.x, 0.0, self.direction.y));
        let across = region.affine(vec3(self.direction.y, 0.0, -self.direction.x));
        let (mut least_along, mut most_across) = (f64::INFINITY, 0.0_f64);
        for &corner in face.corners() {
            let (a, a_around) = spread(along.of(corner, region.half), region.half);
            let (b, b_around) = spread(across.of(corner, region.half), region.half);
            least_along = least_along.min(a - a_around);
            most_across = most_across.max(b.abs() + b_around);
        }
        if least_along > 0.0 {
            -self.radial * most_across * most_across / (2.0 * least_along)
        } else {
            f64::INFINITY
        }
    }

    /// The mixture with `other` that bounds best, and its bound; `bound` is this plane's own. It stops where no more
    /// than `worth` is to be gained.
    ///
    /// But for the hoop term the bound is a concave function of the share, for it is the least of functions that are
    /// straight in it. So it lies below its tangents, and the two tangents' meeting point is the next share to try.
    pub fn best_with(
        &self,
        bound: Bound,
        other: &Self,
        (region, face): (&Region, &Face),
        worth: f64,
    ) -> (Self, Bound) {
        /// Shares tried between the two ends.
        const SHARES: usize = 4;
        let slope = |bound: &Bound| {
            let q = region.axle_from_body(bound.corner, bound.pose);
            other.at(q) - self.at(q)
        };
        let mut best = (*self, bound);
        let (mut low, mut low_slope) = ((0.0, bound), slope(&bound));
        if low_slope <= worth {
            return best;
        }
        let end = other.bound(region, face, bound.reference);
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
            if from + low_slope * (share - low.0) <= best.1.least + worth {
                break;
            }
            if !share.is_finite() {
                break;
            }
            let mixture = self.mixed(other, share);
            let found = mixture.bound(region, face, bound.reference);
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
pub(super) fn within_reach(region: &Region, body: &Revolved, face: &Face, pose: Vec2) -> f64 {
    let axes = [
        vec3(1.0, 0.0, 0.0),
        vec3(0.0, 1.0, 0.0),
        vec3(0.0, 0.0, 1.0),
    ]
    .map(|axis| region.affine(axis));
    let reference = region.axle_from_body(face.middle(), pose);
    let from = [reference.x, reference.y, reference.z];
    let reach_of = |&corner: &Vec3| {
        let most = |i: usize| {
            let (value, around) = spread(axes[i].of(corner, region.half), region.half);
            (value - from[i]).abs() + around
        };
        vec3(most(0), most(1), most(2)).length()
    };
    body.distance(reference) - face.corners().iter().map(reach_of).fold(0.0, f64::max)
}

/// A function's value in the middle of its region, and the most by which it differs anywhere in it.
fn spread((quadratic, remainder): (Quadratic, Vec2), half: Vec2) -> (f64, f64) {
    let [c0, cu, cv, cuu, cuv, cvv] = quadratic.0;
    let (a, b) = (half.x, half.y);
    let linear = cu.abs() * a + cv.abs() * b;
    let bend = cuu.abs() * a * a + cuv.abs() * a * b + cvv.abs() * b * b;
    (c0, linear + bend + remainder.x + remainder.y)
}
