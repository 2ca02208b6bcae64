//! How the axle moves: a rigid axle whose wheels rise and fall on their own, held sideways by a locator.
//!
//! # The pose as a rigid motion
//!
//! A pose gives each wheel's height, `u` (left) and `v` (right). With the track width `T` between the
//! wheels, the axle's roll is `sin roll = (u - v) / T` and its center has risen by `(u + v) / 2`; both
//! are exact for a rigid axle, at any yaw. The locator adds the sideways shift.

pub mod real;
mod track;

use crate::locator::{Locator, PivotOn};
use crate::math;
use crate::space::{Vec2, Vec3, vec3};
use crate::travel::Pose;
use real::Real;

/// The sideways-bound motion of one axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Between the two wheels, mm.
    pub track_width: f64,
    /// Height of the axle's center above the measured ride height in the pose of ride height, mm.
    pub ride: f64,
    /// How far ahead of its measured station the axle sits, mm.
    pub ahead: f64,
    /// Sideways give taken up along the axle, mm, positive to the left.
    pub slide: f64,
    /// Sine and cosine of the axle's yaw.
    yaw: Vec2,
    /// What holds the axle sideways.
    locator: Locator,
}

/// A rigid motion: `point_in_axle = turn * point_in_body - shift`, in any kind of number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placement<R> {
    /// Rotation from body to axle, by rows.
    pub turn: [[R; 3]; 3],
    /// Where the axle's center lies, turned into the axle's frame.
    pub shift: [R; 3],
}

impl Motion {
    /// The motion of an axle with this track width, ride height (mm above the measured one), place
    /// ahead of its station and yaw (radians).
    #[must_use]
    pub fn new(locator: Locator, track_width: f64, ride: f64, ahead: f64, yaw: f64) -> Self {
        Self {
            track_width,
            ride,
            ahead,
            slide: 0.0,
            yaw: Vec2 {
                x: math::sin(yaw),
                y: math::cos(yaw),
            },
            locator,
        }
    }

    /// The same with so much sideways give taken up along the axle, mm, positive to the left.
    #[must_use]
    pub fn sliding(&self, slide: f64) -> Self {
        Self { slide, ..*self }
    }

    /// The motion of the car's mirror image.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let flip = |p: Vec2| Vec2 { x: -p.x, ..p };
        let locator = match self.locator {
            Locator::TrackBar { axle_end, body_end } => Locator::TrackBar {
                axle_end: flip(axle_end),
                body_end: flip(body_end),
            },
            other => other,
        };
        Self {
            yaw: flip(self.yaw),
            locator,
            slide: -self.slide,
            ..*self
        }
    }

    /// The placement for the wheels' heights `left` and `right` above ride height.
    pub fn placement<R: Real>(&self, left: R, right: R) -> Placement<R> {
        let constant = R::constant;
        let sin = (left - right) / constant(self.track_width);
        let cos = (constant(1.0) - sin * sin).sqrt();
        let rise = (left + right).half() + constant(self.ride);
        let shift = self.sideways(sin, cos, rise);
        let (sin_yaw, cos_yaw) = (constant(self.yaw.x), constant(self.yaw.y));
        let turn = [
            [cos_yaw, sin_yaw, constant(0.0)],
            [constant(0.0) - cos * sin_yaw, cos * cos_yaw, sin],
            [sin * sin_yaw, constant(0.0) - sin * cos_yaw, cos],
        ];
        let center = [constant(self.ahead), shift, rise];
        let turned = |row: &[R; 3]| row[0] * center[0] + row[1] * center[1] + row[2] * center[2];
        Placement {
            shift: [
                turned(&turn[0]),
                turned(&turn[1]) + constant(self.slide),
                turned(&turn[2]),
            ],
            turn,
        }
    }

    /// The placement of a pose, its sideways give included.
    #[must_use]
    pub fn at(&self, pose: Pose) -> Placement<f64> {
        Self {
            slide: pose.give,
            ..*self
        }
        .placement(pose.left, pose.right)
    }

    /// Sideways shift of the axle's center, mm, positive to the left.
    ///
    /// Where the pivot of a link stays on the body, the axle's own upright line passes through it;
    /// where it stays on the axle, it stays on the car's center plane (Heisler, "Advanced Vehicle
    /// Technology", fig. 10.28: roll centers by kind of locator).
    fn sideways<R: Real>(&self, sin: R, cos: R, rise: R) -> R {
        let constant = R::constant;
        match self.locator {
            Locator::TrackBar { axle_end, body_end } => {
                let across = constant(axle_end.x) * cos - constant(axle_end.y) * sin;
                let up = constant(axle_end.x) * sin + constant(axle_end.y) * cos + rise
                    - constant(body_end.y);
                let bar = axle_end - body_end;
                let reach = (constant(bar.dot(bar)) - up * up).sqrt();
                let from_body = if bar.x < 0.0 {
                    constant(0.0) - reach
                } else {
                    reach
                };
                constant(body_end.x) - across + from_body
            }
            Locator::WattLink {
                height,
                pivot_on: PivotOn::Body,
            } => (constant(height) - rise) * (sin / cos),
            Locator::WattLink {
                height,
                pivot_on: PivotOn::Axle,
            }
            | Locator::AngledLinks { height }
            | Locator::LeafSprings { height } => constant(height) * sin,
        }
    }
}

impl Placement<f64> {
    /// A body point in the axle's frame.
    #[must_use]
    pub fn axle_from_body(&self, point: Vec3) -> Vec3 {
        let row = |i: usize| {
            self.turn[i][0] * point.x + self.turn[i][1] * point.y + self.turn[i][2] * point.z
                - self.shift[i]
        };
        vec3(row(0), row(1), row(2))
    }

    /// An axle point in the body's frame.
    #[must_use]
    pub fn body_from_axle(&self, point: Vec3) -> Vec3 {
        let p = [
            point.x + self.shift[0],
            point.y + self.shift[1],
            point.z + self.shift[2],
        ];
        let column =
            |j: usize| self.turn[0][j] * p[0] + self.turn[1][j] * p[1] + self.turn[2][j] * p[2];
        vec3(column(0), column(1), column(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::space::vec2;

    const LEAF: Locator = Locator::LeafSprings { height: 120.0 };

    #[test]
    fn both_ways_through_a_placement_meet() {
        let motion = Motion::new(LEAF, 1500.0, 12.0, 5.0, 0.01);
        let placement = motion.at(Pose {
            left: 70.0,
            right: -30.0,
            give: 2.0,
        });
        let p = vec3(20.0, 740.0, 310.0);
        assert!((placement.body_from_axle(placement.axle_from_body(p)) - p).length() < 1e-10);
    }

    #[test]
    fn the_wheels_stand_where_the_pose_says() {
        let motion = Motion::new(LEAF, 1500.0, 0.0, 0.0, 0.02);
        let placement = motion.at(Pose {
            left: 70.0,
            right: -30.0,
            give: 0.0,
        });
        assert!((placement.body_from_axle(vec3(0.0, 750.0, 0.0)).z - 70.0).abs() < 1e-10);
        assert!((placement.body_from_axle(vec3(0.0, -750.0, 0.0)).z + 30.0).abs() < 1e-10);
    }

    #[test]
    fn a_track_bar_keeps_its_length() {
        let (axle_end, body_end) = (vec2(-420.0, 30.0), vec2(450.0, 60.0));
        let motion = Motion::new(
            Locator::TrackBar { axle_end, body_end },
            1500.0,
            0.0,
            0.0,
            0.0,
        );
        for (left, right) in [(0.0, 0.0), (90.0, 90.0), (90.0, -90.0), (-80.0, 40.0)] {
            let end = motion
                .at(Pose {
                    left,
                    right,
                    give: 0.0,
                })
                .body_from_axle(vec3(0.0, axle_end.x, axle_end.y));
            let length = (vec2(end.y, end.z) - body_end).length();
            assert!((length - (axle_end - body_end).length()).abs() < 1e-9);
        }
    }
}
