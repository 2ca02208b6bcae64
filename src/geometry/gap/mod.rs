//! The certified gap: an interval that holds the least distance between tire and metal over all poses.
//!
//! # The bound
//!
//! Let `f(q)` be the signed distance of a point `q` of the axle's frame from one revolved convex body,
//! and let `q = turn(u, v) p - shift(u, v)` be where the body point `p` stands when the wheels are at
//! `(u, v)`. Freeze the plane that touches the body nearest to some reference point: normal `n`,
//! offset `h`.
//!
//! 1. *The plane never exceeds the distance.* In the meridian plane `f` is the greatest of `m . q - h(m)`
//!    over all normals, so it is at least that for the frozen one, at the radius `|(q_x, q_z)|`. Where the normal's
//!    radial part is not negative, that radius is at least the component along any fixed direction. Where it is
//!    negative (lower sidewall), the radius is at most `a + b^2 / 2a`, with `a` the component along a direction and `b`
//!    the one across; so the *hoop term* `|n_r| b^2 / 2a` is taken off, at its greatest over the box.
//! 2. *The plane's distance is a known function of the pose.* Its power series about the middle of a
//!    box of poses is exact up to the second degree; the third-degree coefficients are enclosed over the
//!    whole box by interval arithmetic, which is Taylor's remainder. The quadratic part is minimized
//!    exactly over the box (cut by the roll limit), and the remainder is taken off at its greatest.
//! 3. *It is least at a corner of the face.* On a flat face, where the radial part is not negative, one direction serves
//!    all of the face and the function is affine in `p`. Where it is negative, the function is concave in `p` itself,
//!    so each corner takes a direction of its own. Either way the least of the corners' bounds is one for the face.
//! 4. *Along a curved patch the plane turns with the sheet.* A tire's room is nearly round, so a plane that turned with
//!    the angle would lose nothing if the axle stood still; what it loses as the axle moves is bounded by the second
//!    derivative along the angle and taken off (proved where it is computed, in `stance.rs`). Across, a patch is straight.
//! 5. *Planes mix.* Any mixture of two such planes is one again, and where two sides of the tire are equally near
//!    only a mixture bounds well.
//!
//! Branch and bound splits whichever loses more, the face or the box of poses, until the least bound
//! is within the accuracy of the least distance found. Sideways give along the axle is exact and free:
//! it widens the section ([`crate::chain::Chain::widened`]).
//!
//! The interval arithmetic rounds to nearest; [`ROUNDING`] covers that many times over.

mod face;
mod four;
mod patch;
mod plane;
mod poses;
mod quadratic;
mod search;
mod stance;

use crate::space::Vec3;
use crate::travel::Pose;

pub use face::Face;
pub use patch::Patch;
pub use poses::{PoseDomain, Poses};
pub use search::{
    Above, Beside, Limits, Meeting, certify, certify_above, certify_below, certify_least,
};

/// Taken off every bound, mm: the rounding of a few hundred operations on numbers below 1e4 mm stays
/// below 1e-9.
pub const ROUNDING: f64 = 1e-9;

/// Which of the wheel's two solids comes nearest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The tire.
    Tire,
    /// The wheel.
    Wheel,
}

/// Where a gap is attained.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Witness {
    /// The pose in which it happens.
    pub pose: Pose,
    /// The point on the body, car frame, mm.
    pub at_body: Vec3,
    /// The nearest point of the tire or wheel in that pose, car frame, mm.
    pub at_tire: Vec3,
    /// Which of the two it is.
    pub part: Part,
}

impl Witness {
    /// Where round the wheel the body's point is: from straight up about the measured axle's line, radians, positive
    /// toward the front.
    #[must_use]
    pub fn angle(&self) -> f64 {
        crate::math::atan2(self.at_body.x, self.at_body.z)
    }
}

/// A gap between tire and metal, mm, negative where they overlap: the true least gap lies in
/// `[low, high]`, and `high` is attained at the witness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Never above the true gap.
    pub low: f64,
    /// Attained at the witness.
    pub high: f64,
    /// Where.
    pub witness: Witness,
}
