//! Numbers that the axle's motion is computed in: plain values, values with their rate, intervals, and power series.
//!
//! The motion needs only `+ - * /` and the square root, so one formula serves the picture (values), the envelope
//! (rates) and the proof (series of values and of intervals).

use std::ops::{Add, Div, Mul, Sub};

/// A kind of number that the motion can be computed in.
pub trait Real:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self>
{
    /// The constant `value`.
    fn constant(value: f64) -> Self;
    /// The square root; not a number where there is none.
    #[must_use]
    fn sqrt(self) -> Self;
    /// Half of it.
    #[must_use]
    fn half(self) -> Self {
        self * Self::constant(0.5)
    }
}

impl Real for f64 {
    fn constant(value: f64) -> Self {
        value
    }
    fn sqrt(self) -> Self {
        f64::sqrt(self)
    }
}

/// A value with its rate of change along one way of moving.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// The value.
    pub value: f64,
    /// How fast it changes.
    pub rate: f64,
}

impl Add for Rate {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self {
            value: self.value + o.value,
            rate: self.rate + o.rate,
        }
    }
}

impl Sub for Rate {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self {
            value: self.value - o.value,
            rate: self.rate - o.rate,
        }
    }
}

impl Mul for Rate {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        Self {
            value: self.value * o.value,
            rate: self.rate * o.value + self.value * o.rate,
        }
    }
}

impl Div for Rate {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        let value = self.value / o.value;
        Self {
            value,
            rate: (self.rate - value * o.rate) / o.value,
        }
    }
}

impl Real for Rate {
    fn constant(value: f64) -> Self {
        Self { value, rate: 0.0 }
    }
    fn sqrt(self) -> Self {
        let value = self.value.sqrt();
        Self {
            value,
            rate: self.rate / (2.0 * value),
        }
    }
}

/// All numbers from `low` to `high`. Rounding is not directed: whoever uses it allows for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// The least.
    pub low: f64,
    /// The greatest.
    pub high: f64,
}

impl Interval {
    /// From `low` to `high`.
    #[must_use]
    pub const fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    /// The greatest absolute value in it.
    #[must_use]
    pub fn magnitude(self) -> f64 {
        self.low.abs().max(self.high.abs())
    }
}

impl Add for Interval {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.low + o.low, self.high + o.high)
    }
}

impl Sub for Interval {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.low - o.high, self.high - o.low)
    }
}

impl Mul for Interval {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        let products = [
            self.low * o.low,
            self.low * o.high,
            self.high * o.low,
            self.high * o.high,
        ];
        Self::new(
            products.iter().copied().fold(f64::INFINITY, f64::min),
            products.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        )
    }
}

impl Div for Interval {
    type Output = Self;
    /// All of the line where the divisor holds zero.
    fn div(self, o: Self) -> Self {
        if o.low <= 0.0 && o.high >= 0.0 {
            return Self::new(f64::NEG_INFINITY, f64::INFINITY);
        }
        self * Self::new(1.0 / o.high, 1.0 / o.low)
    }
}

impl Real for Interval {
    fn constant(value: f64) -> Self {
        Self::new(value, value)
    }
    fn sqrt(self) -> Self {
        Self::new(self.low.max(0.0).sqrt(), self.high.max(0.0).sqrt())
    }
}

/// How many coefficients a series has: every power of two variables up to the third degree.
pub const TERMS: usize = 10;

/// The powers `(of the first, of the second)` of each coefficient.
pub const POWERS: [(usize, usize); TERMS] = [
    (0, 0),
    (1, 0),
    (0, 1),
    (2, 0),
    (1, 1),
    (0, 2),
    (3, 0),
    (2, 1),
    (1, 2),
    (0, 3),
];

/// `AT[i][j]` is the place of the coefficient of the powers `(i, j)`, `i + j <= 3`.
const AT: [[usize; 4]; 4] = [[0, 2, 5, 9], [1, 4, 8, 0], [3, 7, 0, 0], [6, 0, 0, 0]];

/// A power series in two variables, cut after the third degree.
///
/// Over a box of intervals the coefficients of the third degree enclose those at every point of the
/// box, which is Taylor's remainder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Series<S>(pub [S; TERMS]);

impl<S: Real> Series<S> {
    /// The first variable about `value`.
    pub fn first(value: S) -> Self {
        Self::variable(value, 1)
    }

    /// The second variable about `value`.
    pub fn second(value: S) -> Self {
        Self::variable(value, 2)
    }

    fn variable(value: S, place: usize) -> Self {
        let mut c = [S::constant(0.0); TERMS];
        c[0] = value;
        c[place] = S::constant(1.0);
        Self(c)
    }

    /// The sum of `self`'s and `other`'s products of powers `(i, j)`, without the two terms that hold
    /// `self`'s or `other`'s own coefficient of `(i, j)` where `inner` is set.
    fn convolved(&self, other: &Self, i: usize, j: usize, inner: bool) -> S {
        let mut sum = S::constant(0.0);
        for a in 0..=i {
            for b in 0..=j {
                let outermost = (a == 0 && b == 0) || (a == i && b == j);
                if !(inner && outermost) {
                    sum = sum + self.0[AT[a][b]] * other.0[AT[i - a][j - b]];
                }
            }
        }
        sum
    }
}

impl<S: Real> Add for Series<S> {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self(std::array::from_fn(|k| self.0[k] + o.0[k]))
    }
}

impl<S: Real> Sub for Series<S> {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self(std::array::from_fn(|k| self.0[k] - o.0[k]))
    }
}

impl<S: Real> Mul for Series<S> {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        Self(std::array::from_fn(|k| {
            self.convolved(&o, POWERS[k].0, POWERS[k].1, false)
        }))
    }
}

impl<S: Real> Div for Series<S> {
    type Output = Self;
    /// Term by term from `quotient * divisor = dividend`.
    fn div(self, o: Self) -> Self {
        let mut q = Self([S::constant(0.0); TERMS]);
        q.0[0] = self.0[0] / o.0[0];
        for (k, &(i, j)) in POWERS.iter().enumerate().skip(1) {
            let known = q.convolved(&o, i, j, true) + q.0[0] * o.0[k];
            q.0[k] = (self.0[k] - known) / o.0[0];
        }
        q
    }
}

impl<S: Real> Real for Series<S> {
    fn constant(value: f64) -> Self {
        let mut c = [S::constant(0.0); TERMS];
        c[0] = S::constant(value);
        Self(c)
    }

    /// Term by term from `root * root = self`.
    fn sqrt(self) -> Self {
        let mut root = Self([S::constant(0.0); TERMS]);
        root.0[0] = self.0[0].sqrt();
        let twice = root.0[0] + root.0[0];
        for (k, &(i, j)) in POWERS.iter().enumerate().skip(1) {
            root.0[k] = (self.0[k] - root.convolved(&root, i, j, true)) / twice;
        }
        root
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_series_follows_its_function() {
        let f = |u: f64, v: f64| {
            (900.0 + 0.3 * u * u - 0.2 * u * v + 3.0 * v).sqrt() / (2.0 + 0.01 * u)
        };
        let constant = Series::<f64>::constant;
        let (u0, v0) = (4.0, -3.0);
        let (u, v) = (Series::first(u0), Series::second(v0));
        let series = (constant(900.0) + constant(0.3) * u * u - constant(0.2) * u * v
            + constant(3.0) * v)
            .sqrt()
            / (constant(2.0) + constant(0.01) * u);
        // Halving the step must shrink the error by 2^4, as a cubic series promises.
        let error = |h: f64| {
            let (du, dv) = (0.8 * h, 0.6 * h);
            let sum: f64 = POWERS
                .iter()
                .zip(series.0)
                .map(|(&(i, j), c)| {
                    c * (0..i).fold(1.0, |p, _| p * du) * (0..j).fold(1.0, |p, _| p * dv)
                })
                .sum();
            (sum - f(u0 + du, v0 + dv)).abs()
        };
        let ratio = error(1.0) / error(0.5);
        assert!((12.0..20.0).contains(&ratio), "error shrinks by {ratio}");
    }

    #[test]
    fn a_rate_is_the_first_term_of_the_series() {
        let f = |x: Rate| (Rate::constant(7.0) + x * x).sqrt() / (Rate::constant(3.0) - x);
        let g =
            |x: Series<f64>| (Series::constant(7.0) + x * x).sqrt() / (Series::constant(3.0) - x);
        let (rate, series) = (
            f(Rate {
                value: 0.6,
                rate: 1.0,
            }),
            g(Series::first(0.6)),
        );
        assert!(
            (rate.value - series.0[0]).abs() < 1e-15 && (rate.rate - series.0[1]).abs() < 1e-15
        );
    }

    #[test]
    fn an_interval_holds_what_its_numbers_give() {
        let a = Interval::new(-2.0, 3.0);
        let b = Interval::new(1.0, 4.0);
        for x in [-2.0, 0.5, 3.0] {
            for y in [1.0, 2.5, 4.0] {
                let inside = |i: Interval, v: f64| assert!(i.low <= v && v <= i.high);
                inside(a + b, x + y);
                inside(a - b, x - y);
                inside(a * b, x * y);
                inside(a / b, x / y);
                inside(b.sqrt(), y.sqrt());
            }
        }
        assert_eq!(b / a, Interval::new(f64::NEG_INFINITY, f64::INFINITY));
    }
}
