//! The one door to transcendental functions.
//!
//! `libm` and the square root of `std` give the same bits natively and in WebAssembly; the
//! trigonometry of `std` does not (it differs in the last bit). `clippy.toml` bans the rest.

/// Sine of an angle in radians.
#[must_use]
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians.
#[must_use]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Arc sine in radians; the argument is clamped to its domain.
#[must_use]
pub fn asin(x: f64) -> f64 {
    libm::asin(x.clamp(-1.0, 1.0))
}

/// Arc cosine in radians; the argument is clamped to its domain.
#[must_use]
pub fn acos(x: f64) -> f64 {
    libm::acos(x.clamp(-1.0, 1.0))
}

/// Angle of the vector (x, y) in radians, in (-pi, pi].
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Length of the vector (x, y), by the square root alone: no overflow guard is needed for millimeters.
#[must_use]
pub fn hypot(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}
