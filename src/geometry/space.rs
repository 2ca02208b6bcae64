//! Points and vectors in the plane and in the car's frame.

use std::ops::{Add, Mul, Neg, Sub};

use crate::math;

/// A point or vector in a plane, in millimeters. Each use says which plane: the rear view takes
/// `(out, up)`, the tire's meridian plane `(axial, radial)`, the side view `(forward, up)`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vec2 {
    /// First coordinate.
    pub x: f64,
    /// Second coordinate.
    pub y: f64,
}

/// Shorthand for a plane vector.
#[must_use]
pub const fn vec2(x: f64, y: f64) -> Vec2 {
    Vec2 { x, y }
}

impl Vec2 {
    /// The unit vector at `angle` radians from the first axis.
    #[must_use]
    pub fn at_angle(angle: f64) -> Self {
        vec2(math::cos(angle), math::sin(angle))
    }

    /// Dot product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Cross product, positive when `other` lies counter-clockwise of `self`.
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Length.
    #[must_use]
    pub fn length(self) -> f64 {
        math::hypot(self.x, self.y)
    }

    /// Angle from the first axis, in (-pi, pi].
    #[must_use]
    pub fn angle(self) -> f64 {
        math::atan2(self.y, self.x)
    }

    /// The point a share `t` of the way to `other`.
    #[must_use]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        self + (other - self) * t
    }

    /// Whether both coordinates are finite.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Add for Vec2 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        vec2(self.x + o.x, self.y + o.y)
    }
}

impl Sub for Vec2 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        vec2(self.x - o.x, self.y - o.y)
    }
}

impl Mul<f64> for Vec2 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        vec2(self.x * k, self.y * k)
    }
}

impl Neg for Vec2 {
    type Output = Self;
    fn neg(self) -> Self {
        vec2(-self.x, -self.y)
    }
}

/// A point or vector in the car's frame (x forward, y left, z up) or in an axle's frame that is
/// parallel to it at ride height, in millimeters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vec3 {
    /// Forward.
    pub x: f64,
    /// To the left.
    pub y: f64,
    /// Up.
    pub z: f64,
}

/// Shorthand for a space vector.
#[must_use]
pub const fn vec3(x: f64, y: f64, z: f64) -> Vec3 {
    Vec3 { x, y, z }
}

impl Vec3 {
    /// Dot product.
    #[must_use]
    pub fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }

    /// Length.
    #[must_use]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The point a share `t` of the way to `other`.
    #[must_use]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        self + (other - self) * t
    }

    /// Whether all coordinates are finite.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite() && self.z.is_finite()
    }
}

impl Add for Vec3 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        vec3(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl Sub for Vec3 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        vec3(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f64> for Vec3 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        vec3(self.x * k, self.y * k, self.z * k)
    }
}

impl Neg for Vec3 {
    type Output = Self;
    fn neg(self) -> Self {
        vec3(-self.x, -self.y, -self.z)
    }
}
