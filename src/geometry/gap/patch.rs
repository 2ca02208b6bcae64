//! A curved piece of wheelhouse between two stations.

use crate::math;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// The sheet between two stations' spans: at each angle between them a straight span, whose ends run evenly in
/// `(out, radius)` with the angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    side: Side,
    angles: [f64; 2],
    /// The unit vectors `(forward, up)` at either angle.
    bearings: [Vec2; 2],
    first: [Vec2; 2],
    second: [Vec2; 2],
}

impl Patch {
    /// The patch between two stations' spans on `side`: their angles from straight up, radians, positive toward the
    /// front, and the span's first and its second end at either angle, `(out, radius)`, mm.
    #[must_use]
    pub fn new(side: Side, angles: [f64; 2], first: [Vec2; 2], second: [Vec2; 2]) -> Self {
        Self {
            side,
            angles,
            bearings: angles.map(bearing),
            first,
            second,
        }
    }

    /// The point a share `around` of the way from one angle to the other, and a share `across` from first to second end.
    #[must_use]
    pub fn at(&self, around: f64, across: f64) -> Vec3 {
        let angle = self.angles[0] + (self.angles[1] - self.angles[0]) * around;
        self.on(bearing(angle), around, across)
    }

    /// The same where the bearing at that share is known.
    fn on(&self, bearing: Vec2, around: f64, across: f64) -> Vec3 {
        let first = self.first[0].lerp(self.first[1], around);
        let second = self.second[0].lerp(self.second[1], around);
        self.place(bearing, first.lerp(second, across))
    }

    fn place(&self, bearing: Vec2, p: Vec2) -> Vec3 {
        vec3(p.y * bearing.x, self.side.sign() * p.x, p.y * bearing.y)
    }

    /// Its four corners.
    #[must_use]
    pub fn corners(&self) -> [Vec3; 4] {
        let at = |end: usize, p: Vec2| self.place(self.bearings[end], p);
        [
            at(0, self.first[0]),
            at(1, self.first[1]),
            at(1, self.second[1]),
            at(0, self.second[0]),
        ]
    }

    /// The unit vectors `(forward, up)` from the measured axle's line to its four corners.
    #[must_use]
    pub fn bearings(&self) -> [Vec2; 4] {
        let [rear, front] = self.bearings;
        [rear, front, front, rear]
    }

    /// How far it turns from one angle to the other, radians.
    #[must_use]
    pub fn turn(&self) -> f64 {
        (self.angles[1] - self.angles[0]).abs()
    }

    /// The most by which a point of it lies outside the hull of its corners, mm.
    ///
    /// Along the angle, at one share across, the point is `r(s) e(angle(s))` with both even in `s`; its second
    /// derivative is at most `2 |r'| turn + r turn^2`, and a curve strays from its chord by an eighth of that. Across,
    /// the patch is straight, so its chords lie in the hull.
    #[must_use]
    pub fn sagitta(&self) -> f64 {
        let turn = self.turn();
        (2.0 * self.stretch() * turn + self.radius() * turn * turn) / 8.0
    }

    /// The greatest length of its way round the axle between the two angles, mm: not less than that of any point's way.
    #[must_use]
    pub fn sweep(&self) -> f64 {
        self.stretch() + self.radius() * self.turn()
    }

    /// The most by which its ends differ along the axle between the two angles, mm.
    #[must_use]
    pub fn slant(&self) -> f64 {
        let change = |ends: &[Vec2; 2]| (ends[1].x - ends[0].x).abs();
        change(&self.first).max(change(&self.second))
    }

    fn stretch(&self) -> f64 {
        let change = |ends: &[Vec2; 2]| (ends[1].y - ends[0].y).abs();
        change(&self.first).max(change(&self.second))
    }

    fn radius(&self) -> f64 {
        let greatest = |ends: &[Vec2; 2]| ends[0].y.abs().max(ends[1].y.abs());
        greatest(&self.first).max(greatest(&self.second))
    }

    /// A point of the patch near `point`: the share across is found at the point's own angle.
    #[must_use]
    pub fn near(&self, point: Vec3) -> Vec3 {
        let turn = self.angles[1] - self.angles[0];
        let place = vec2(point.x, point.z);
        let radius = place.length();
        let start = self.bearings[0];
        // From the first angle on, in the sense of the patch; the far half of the circle counts as before it.
        let ahead = math::atan2(
            place.x * start.y - place.y * start.x,
            place.x * start.x + place.y * start.y,
        );
        let share = if turn == 0.0 { 0.0 } else { ahead / turn };
        let (around, bearing) = if share >= 1.0 {
            (1.0, self.bearings[1])
        } else if share > 0.0 && radius > 0.0 {
            (share, place * (1.0 / radius))
        } else {
            (0.0, start)
        };
        let first = self.first[0].lerp(self.first[1], around);
        let span = self.second[0].lerp(self.second[1], around) - first;
        let from_first = vec2(self.side.sign() * point.y, radius) - first;
        let square = span.dot(span);
        let across = if square > 0.0 {
            (from_first.dot(span) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        self.place(bearing, first + span * across)
    }

    /// Halved along its longer way.
    #[must_use]
    pub fn halves(&self) -> [Self; 2] {
        let [a, b, c, d] = self.corners();
        let around = (a - b).length().max((c - d).length());
        let across = (b - c).length().max((d - a).length());
        if around >= across {
            let angle = f64::midpoint(self.angles[0], self.angles[1]);
            let middle = bearing(angle);
            let (first, second) = (
                self.first[0].lerp(self.first[1], 0.5),
                self.second[0].lerp(self.second[1], 0.5),
            );
            [
                Self {
                    angles: [self.angles[0], angle],
                    bearings: [self.bearings[0], middle],
                    first: [self.first[0], first],
                    second: [self.second[0], second],
                    ..*self
                },
                Self {
                    angles: [angle, self.angles[1]],
                    bearings: [middle, self.bearings[1]],
                    first: [first, self.first[1]],
                    second: [second, self.second[1]],
                    ..*self
                },
            ]
        } else {
            let middle = [
                self.first[0].lerp(self.second[0], 0.5),
                self.first[1].lerp(self.second[1], 0.5),
            ];
            [
                Self {
                    second: middle,
                    ..*self
                },
                Self {
                    first: middle,
                    ..*self
                },
            ]
        }
    }
}

/// The unit vector `(forward, up)` at an angle from straight up.
fn bearing(angle: f64) -> Vec2 {
    vec2(math::sin(angle), math::cos(angle))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn patch() -> Patch {
        Patch::new(
            Side::Right,
            [0.1, 0.4],
            [vec2(700.0, 460.0), vec2(690.0, 430.0)],
            [vec2(640.0, 480.0), vec2(600.0, 470.0)],
        )
    }

    #[test]
    fn no_point_is_further_from_its_chord_than_the_sagitta() {
        let patch = patch();
        let [a, b, c, d] = patch.corners();
        for i in 0..=20 {
            for j in 0..=20 {
                let (s, t) = (f64::from(i) / 20.0, f64::from(j) / 20.0);
                let chord = a.lerp(b, s).lerp(d.lerp(c, s), t);
                assert!((patch.at(s, t) - chord).length() <= patch.sagitta());
            }
        }
    }

    #[test]
    fn halves_cover_the_whole_and_bend_less() {
        let patch = patch();
        let [one, other] = patch.halves();
        assert!(one.sagitta() < patch.sagitta() / 2.0 && other.sagitta() < patch.sagitta() / 2.0);
        assert_eq!(one.at(1.0, 0.3), other.at(0.0, 0.3));
        assert!((one.at(1.0, 0.3) - patch.at(0.5, 0.3)).length() < 1e-9);
    }

    #[test]
    fn a_point_of_the_patch_is_near_itself() {
        let patch = patch();
        for (s, t) in [(0.0, 0.0), (0.3, 0.8), (1.0, 0.5)] {
            let p = patch.at(s, t);
            assert!((patch.near(p) - p).length() < 1e-9);
        }
    }
}
