//! The solid that needs room: a tire and a wheel, each a convex chain turned about the axle.
//!
//! A solid of revolution is as far from a point as its meridian section is from the point's place in
//! the meridian plane, so the distance is that of a [`Chain`], exact inside and outside each of them.

use crate::chain::{Chain, Near};
use crate::gap::Part;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// One body of revolution about the axle's line, in the axle's frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Revolved {
    /// What it is.
    pub part: Part,
    /// Its section: `(axial outboard from the center plane, radial)`.
    pub chain: Chain,
    /// The side of the car it is on.
    pub side: Side,
    /// Its center plane, out from the axle's center, mm.
    pub center_plane: f64,
}

/// The plane that touches a revolved body where it is nearest to some point: in the axle's frame,
/// `normal . q - offset`, less the hoop term where `radial < 0`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Unit normal in the axle's frame.
    pub normal: Vec3,
    /// Distance of the plane from the axle's center, mm.
    pub offset: f64,
    /// The radial part of the normal in the meridian plane.
    pub radial: f64,
    /// The direction of the meridian plane: unit vector `(forward, up)`.
    pub meridian: Vec2,
}

impl Revolved {
    /// The place of `q` (axle frame) in the meridian plane, and that plane's direction `(forward, up)`.
    #[must_use]
    pub fn meridian(&self, q: Vec3) -> (Vec2, Vec2) {
        let across = vec2(q.x, q.z);
        let radius = across.length();
        let direction = if radius > 0.0 {
            across * (1.0 / radius)
        } else {
            vec2(0.0, 1.0)
        };
        (
            vec2(self.side.sign() * q.y - self.center_plane, radius),
            direction,
        )
    }

    /// Signed distance of `q` (axle frame), mm, negative inside.
    #[must_use]
    pub fn distance(&self, q: Vec3) -> f64 {
        self.chain.near(self.meridian(q).0).distance
    }

    /// Signed distance of `q` and the plane that touches the body nearest to it.
    #[must_use]
    pub fn near(&self, q: Vec3) -> (f64, Support) {
        let (place, meridian) = self.meridian(q);
        let Near {
            distance, normal, ..
        } = self.chain.near(place);
        let offset = normal.dot(place) - distance + normal.x * self.center_plane;
        let normal3 = vec3(
            normal.y * meridian.x,
            self.side.sign() * normal.x,
            normal.y * meridian.y,
        );
        (
            distance,
            Support {
                normal: normal3,
                offset,
                radial: normal.y,
                meridian,
            },
        )
    }
}
