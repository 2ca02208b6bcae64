//! Four numbers at a time: a face's corners side by side.
//!
//! Plain arrays, added and multiplied lane by lane. A compiler that may use vector instructions (SSE2 on x86-64,
//! `simd128` in WebAssembly) makes them of it, one that may not makes scalar code; both do the same operations in the
//! same order, so both give the same bits.

use std::ops::{Add, Div, Mul, Sub};

/// Four lanes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Four(pub [f64; 4]);

impl Four {
    /// The same number in all lanes.
    #[inline]
    pub const fn all(value: f64) -> Self {
        Self([value; 4])
    }

    #[inline]
    fn with(self, o: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        let ([a, b, c, d], [p, q, r, s]) = (self.0, o.0);
        Self([f(a, p), f(b, q), f(c, r), f(d, s)])
    }

    /// The lesser of each two; the other's where either is no number.
    #[inline]
    pub fn min(self, o: Self) -> Self {
        self.with(o, |a, b| if a < b { a } else { b })
    }

    /// The greater of each two; the other's where either is no number.
    #[inline]
    pub fn max(self, o: Self) -> Self {
        self.with(o, |a, b| if a > b { a } else { b })
    }

    /// Without its sign.
    #[inline]
    pub fn abs(self) -> Self {
        Self(self.0.map(f64::abs))
    }

    /// The square root.
    #[inline]
    pub fn sqrt(self) -> Self {
        Self(self.0.map(f64::sqrt))
    }

    /// `self` where `sign` is positive, zero elsewhere.
    #[inline]
    pub fn where_positive(self, sign: Self) -> Self {
        self.with(sign, |value, sign| if sign > 0.0 { value } else { 0.0 })
    }

    /// The lane with the least number, and the number.
    #[inline]
    pub fn least(self) -> (usize, f64) {
        let mut least = (0, self.0[0]);
        for (lane, &value) in self.0.iter().enumerate().skip(1) {
            if value < least.1 {
                least = (lane, value);
            }
        }
        least
    }

    /// The greatest number of all lanes.
    #[inline]
    pub fn greatest(self) -> f64 {
        self.0.into_iter().fold(f64::NEG_INFINITY, f64::max)
    }
}

impl Add for Four {
    type Output = Self;
    #[inline]
    fn add(self, o: Self) -> Self {
        self.with(o, |a, b| a + b)
    }
}

impl Sub for Four {
    type Output = Self;
    #[inline]
    fn sub(self, o: Self) -> Self {
        self.with(o, |a, b| a - b)
    }
}

impl Mul for Four {
    type Output = Self;
    #[inline]
    fn mul(self, o: Self) -> Self {
        self.with(o, |a, b| a * b)
    }
}

impl Mul<f64> for Four {
    type Output = Self;
    #[inline]
    fn mul(self, k: f64) -> Self {
        Self(self.0.map(|a| a * k))
    }
}

impl Div for Four {
    type Output = Self;
    #[inline]
    fn div(self, o: Self) -> Self {
        self.with(o, |a, b| a / b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lanes_do_not_mix() {
        let (a, b) = (Four([1.0, 2.0, 3.0, 4.0]), Four([4.0, 3.0, 2.0, 1.0]));
        assert_eq!(a + b, Four::all(5.0));
        assert_eq!(a - b, Four([-3.0, -1.0, 1.0, 3.0]));
        assert_eq!(a * b, Four([4.0, 6.0, 6.0, 4.0]));
        assert_eq!(a / b, Four([0.25, 2.0 / 3.0, 1.5, 4.0]));
        assert_eq!(a.min(b), Four([1.0, 2.0, 2.0, 1.0]));
        assert_eq!(a.max(b), Four([4.0, 3.0, 3.0, 4.0]));
        assert_eq!(a.where_positive(b - a), Four([1.0, 2.0, 0.0, 0.0]));
        assert_eq!((b.least(), a.greatest()), ((3, 1.0), 4.0));
    }
}
