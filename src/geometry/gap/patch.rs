//! A curved piece of wheelhouse between two stations.

use crate::math;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// The sheet between two stations' spans: at each angle between them a straight span, whose ends run evenly in
/// `(out, radius)` with the angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// The side it is on.
    pub side: Side,
    /// The two stations' angles from straight up, radians, positive toward the front.
    pub angles: [f64; 2],
    /// The span's first end at either angle, `(out, radius)`, mm.
    pub first: [Vec2; 2],
    /// The span's second end at either angle.
    pub second: [Vec2; 2],
}

impl Patch {
    /// The point a share `around` of the way from one angle to the other, and a share `across` from first to second end.
    #[must_use]
    pub fn at(&self, around: f64, across: f64) -> Vec3 {
        let angle = self.angles[0] + (self.angles[1] - self.angles[0]) * around;
        let first = self.first[0].lerp(self.first[1], around);
        let second = self.second[0].lerp(self.second[1], around);
        let p = first.lerp(second, across);
        vec3(
            p.y * math::sin(angle),
            self.side.sign() * p.x,
            p.y * math::cos(angle),
        )
    }

    /// Its four corners.
    #[must_use]
    pub fn corners(&self) -> [Vec3; 4] {
        [
            self.at(0.0, 0.0),
            self.at(1.0, 0.0),
            self.at(1.0, 1.0),
            self.at(0.0, 1.0),
        ]
    }

    /// The most by which a point of it lies outside the hull of its corners, mm.
    ///
    /// Along the angle, at one share across, the point is `r(s) e(angle(s))` with both even in `s`; its second
    /// derivative is at most `2 |r'| turn + r turn^2`, and a curve strays from its chord by an eighth of that. Across,
    /// the patch is straight, so its chords lie in the hull.
    #[must_use]
    pub fn sagitta(&self) -> f64 {
        let turn = (self.angles[1] - self.angles[0]).abs();
        let stretch = |ends: &[Vec2; 2]| (ends[1].y - ends[0].y).abs();
        let radius = |ends: &[Vec2; 2]| ends[0].y.abs().max(ends[1].y.abs());
        let stretch = stretch(&self.first).max(stretch(&self.second));
        let radius = radius(&self.first).max(radius(&self.second));
        (2.0 * stretch * turn + radius * turn * turn) / 8.0
    }

    /// A point of the patch near `point`: the share across is found at the point's own angle.
    #[must_use]
    pub fn near(&self, point: Vec3) -> Vec3 {
        let turn = self.angles[1] - self.angles[0];
        let angle = math::atan2(point.x, point.z);
        let around = if turn == 0.0 {
            0.0
        } else {
            ((angle - self.angles[0]) / turn).clamp(0.0, 1.0)
        };
        let first = self.first[0].lerp(self.first[1], around);
        let span = self.second[0].lerp(self.second[1], around) - first;
        let place = vec2(self.side.sign() * point.y, vec2(point.x, point.z).length()) - first;
        let square = span.dot(span);
        let across = if square > 0.0 {
            (place.dot(span) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        self.at(around, across)
    }

    /// Halved along its longer way.
    #[must_use]
    pub fn halves(&self) -> [Self; 2] {
        let [a, b, c, d] = self.corners();
        let around = (a - b).length().max((c - d).length());
        let across = (b - c).length().max((d - a).length());
        if around >= across {
            let middle = f64::midpoint(self.angles[0], self.angles[1]);
            let (first, second) = (
                self.first[0].lerp(self.first[1], 0.5),
                self.second[0].lerp(self.second[1], 0.5),
            );
            [
                Self {
                    angles: [self.angles[0], middle],
                    first: [self.first[0], first],
                    second: [self.second[0], second],
                    ..*self
                },
                Self {
                    angles: [middle, self.angles[1]],
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

#[cfg(test)]
mod tests {
    use super::*;

    fn patch() -> Patch {
        Patch {
            side: Side::Right,
            angles: [0.1, 0.4],
            first: [vec2(700.0, 460.0), vec2(690.0, 430.0)],
            second: [vec2(640.0, 480.0), vec2(600.0, 470.0)],
        }
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
