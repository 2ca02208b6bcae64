//! What a wider or narrower track does to where the axle stands while the wheels' heights are held.

use super::Motion;
use crate::locator::{Locator, PivotOn};

impl Motion {
    /// The most that a body point moves in the axle's frame for each millimeter that the track is narrower, down to
    /// this motion's own, while the wheels are held at their heights, mm.
    ///
    /// `reach` is how far the point is from the car frame's origin at most, mm; `heights` are the lowest and the highest
    /// that a wheel goes; `sin` is the greatest sine of the axle's tilt that this motion is asked for. Endless where the
    /// locator does not reach.
    ///
    /// Held wheels `u` and `v` give `sin roll = (u - v) / T`, and the track `T` enters nowhere else. So a place `q` of
    /// the axle's frame changes with `T` by `-(sin / T) dq / d sin`, which a narrower track only makes larger. With `q =
    /// turn (p - c)` the tilt turns `q` about the axle's forward line, by no more than `|p| + |c|` for each unit of the
    /// angle, and the locator shifts `c` sideways.
    #[must_use]
    pub fn track_drift(&self, reach: f64, heights: [f64; 2], sin: f64) -> f64 {
        let sin = sin.abs().min(1.0);
        let cos = (1.0 - sin * sin).sqrt();
        let rises = heights.map(|height| height + self.ride);
        let [sideways, by_sin] = self.sideways_bounds(rises, sin, cos);
        let rise = rises[0].abs().max(rises[1].abs());
        let center = self.ahead.abs() + sideways + rise;
        let drift = sin / self.track_width * ((reach + center) / cos + by_sin);
        if drift.is_finite() {
            drift
        } else {
            f64::INFINITY
        }
    }

    /// How far sideways the axle's center stands at most, mm, and the most that changes for each unit of the tilt's sine.
    fn sideways_bounds(&self, rises: [f64; 2], sin: f64, cos: f64) -> [f64; 2] {
        let off = |height: f64| {
            let [low, high] = rises.map(|rise| (rise - height).abs());
            low.max(high)
        };
        match self.locator {
            // The shift is what the axle's end of the bar strays, and what the bar's own run strays from its length at
            // rest: `|a^2 - b^2| / (a + b)` of its squares, which differ by those of its rise.
            Locator::TrackBar { axle_end, body_end } => {
                let bar = axle_end - body_end;
                let turned = axle_end.y.abs() * (1.0 - cos);
                let up = axle_end.x.abs() * sin + turned + off(body_end.y - axle_end.y);
                let run = (bar.dot(bar) - up * up).sqrt();
                let end = axle_end.x.abs() * (1.0 - cos) + axle_end.y.abs() * sin;
                let bent = (bar.y * bar.y).max(up * up) / (run + bar.x.abs());
                [end + bent, axle_end.length() * (1.0 + up / run) / cos]
            }
            Locator::WattLink {
                height,
                pivot_on: PivotOn::Body,
            } => {
                let arm = off(height);
                [arm * sin / cos, arm / (cos * cos * cos)]
            }
            Locator::WattLink {
                height,
                pivot_on: PivotOn::Axle,
            }
            | Locator::AngledLinks { height }
            | Locator::LeafSprings { height } => [height.abs() * sin, height.abs()],
        }
    }
}
