//! A piece of sheet metal: a point, a segment, a triangle or a curved patch, with a thickness all round.

use super::patch::Patch;
use crate::space::{Vec2, Vec3, vec2};

/// Straight up, as `(forward, up)`.
const UP: Vec2 = vec2(0.0, 1.0);

/// All points within `radius` of a point, segment, triangle or patch, car frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    corners: [Vec3; 4],
    count: usize,
    patch: Option<Patch>,
    /// Distance of the surface from the sheet itself, mm.
    pub radius: f64,
    /// The most by which the sheet lies outside the hull of its corners, mm.
    pub bend: f64,
}

impl Face {
    /// A single point.
    #[must_use]
    pub fn point(a: Vec3) -> Self {
        Self::flat([a; 4], 1)
    }

    /// The segment from `a` to `b`.
    #[must_use]
    pub fn segment(a: Vec3, b: Vec3) -> Self {
        Self::flat([a, b, b, b], 2)
    }

    /// The triangle of three corners.
    #[must_use]
    pub fn triangle(a: Vec3, b: Vec3, c: Vec3) -> Self {
        Self::flat([a, b, c, c], 3)
    }

    /// The hull of four points; only its corners are ever asked for.
    pub(super) fn quadrangle(corners: [Vec3; 4]) -> Self {
        Self::flat(corners, 4)
    }

    /// The same, thickened by `radius` mm all round.
    #[must_use]
    pub fn thick(self, radius: f64) -> Self {
        Self { radius, ..self }
    }

    fn flat(corners: [Vec3; 4], count: usize) -> Self {
        Self {
            corners,
            count,
            patch: None,
            radius: 0.0,
            bend: 0.0,
        }
    }

    /// Its corners.
    #[must_use]
    pub fn corners(&self) -> &[Vec3] {
        &self.corners[..self.count]
    }

    /// Its corners, one of them again where there are fewer than four.
    pub(crate) fn four_corners(&self) -> [Vec3; 4] {
        self.corners
    }

    /// One of the four corners.
    pub(super) fn corner(&self, lane: usize) -> Vec3 {
        self.corners[lane]
    }

    /// The patch that it is, if it is one.
    pub(super) fn patch(&self) -> Option<&Patch> {
        self.patch.as_ref()
    }

    /// The direction `(forward, up)` that a plane's own is told from at `point`: on a patch it turns with the sheet.
    pub(super) fn bearing(&self, point: Vec3) -> Vec2 {
        let place = vec2(point.x, point.z);
        let radius = place.length();
        if self.patch.is_some() && radius > 0.0 {
            place * (1.0 / radius)
        } else {
            UP
        }
    }

    /// The same at the four corners.
    pub(super) fn bearings(&self) -> [Vec2; 4] {
        self.patch.map_or([UP; 4], |patch| patch.bearings())
    }

    /// A point in its middle.
    #[must_use]
    pub fn middle(&self) -> Vec3 {
        let [a, b, c, _] = self.corners;
        match (&self.patch, self.count) {
            (Some(patch), _) => patch.at(0.5, 0.5),
            (None, 1) => a,
            (None, 2) => a.lerp(b, 0.5),
            (None, _) => (a + b + c) * (1.0 / 3.0),
        }
    }

    /// Halved across its longest edge; a point gives itself twice.
    #[must_use]
    pub fn halves(&self) -> [Self; 2] {
        if let Some(patch) = &self.patch {
            return patch.halves().map(|half| Self {
                radius: self.radius,
                ..Self::from(half)
            });
        }
        let [a, b, c, _] = self.corners;
        let thick = |face: Self| face.thick(self.radius);
        match self.count {
            1 => [*self, *self],
            2 => {
                let middle = a.lerp(b, 0.5);
                [
                    thick(Self::segment(a, middle)),
                    thick(Self::segment(middle, b)),
                ]
            }
            _ => {
                let length = |p: Vec3, q: Vec3| (p - q).dot(p - q);
                let (ab, bc, ca) = (length(a, b), length(b, c), length(c, a));
                let [a, b, c] = if ab >= bc && ab >= ca {
                    [a, b, c]
                } else if bc >= ca {
                    [b, c, a]
                } else {
                    [c, a, b]
                };
                let middle = a.lerp(b, 0.5);
                [
                    thick(Self::triangle(a, middle, c)),
                    thick(Self::triangle(middle, b, c)),
                ]
            }
        }
    }

    /// The face's point nearest to `point`; on a patch, one near it.
    #[must_use]
    pub fn nearest(&self, point: Vec3) -> Vec3 {
        let [a, b, c, _] = self.corners;
        match (&self.patch, self.count) {
            (Some(patch), _) => patch.near(point),
            (None, 1) => a,
            (None, 2) => on_segment(a, b, point),
            (None, _) => on_triangle([a, b, c], point),
        }
    }

    /// `point` itself where it is a mean of the face's points and the face is flat; on a patch, the point near it.
    #[must_use]
    pub fn settle(&self, point: Vec3) -> Vec3 {
        self.patch.map_or(point, |patch| patch.near(point))
    }

    /// The most by which a point of it stands away from its middle, mm.
    pub(super) fn reach(&self) -> f64 {
        let middle = self.middle();
        let square = |&corner: &Vec3| (corner - middle).dot(corner - middle);
        let corners = self.corners().iter().map(square);
        corners.fold(0.0, f64::max).sqrt() + self.bend
    }

    /// Length of the longest edge, mm.
    #[must_use]
    pub fn extent(&self) -> f64 {
        let [a, b, c, d] = self.corners;
        let edges = [a - b, b - c, c - d, d - a];
        edges.into_iter().map(Vec3::length).fold(0.0, f64::max)
    }
}

impl From<Patch> for Face {
    fn from(patch: Patch) -> Self {
        Self {
            corners: patch.corners(),
            count: 4,
            patch: Some(patch),
            radius: 0.0,
            bend: patch.sagitta(),
        }
    }
}

fn on_segment(a: Vec3, b: Vec3, point: Vec3) -> Vec3 {
    let d = b - a;
    let square = d.dot(d);
    if square > 0.0 {
        a.lerp(b, ((point - a).dot(d) / square).clamp(0.0, 1.0))
    } else {
        a
    }
}

fn on_triangle([a, b, c]: [Vec3; 3], point: Vec3) -> Vec3 {
    let (ab, ac, ap) = (b - a, c - a, point - a);
    let (d11, d12, d22) = (ab.dot(ab), ab.dot(ac), ac.dot(ac));
    let (d1, d2) = (ap.dot(ab), ap.dot(ac));
    let det = d11 * d22 - d12 * d12;
    let (s, t) = ((d22 * d1 - d12 * d2) / det, (d11 * d2 - d12 * d1) / det);
    if s >= 0.0 && t >= 0.0 && s + t <= 1.0 {
        return a + ab * s + ac * t;
    }
    let edges = [
        on_segment(a, b, point),
        on_segment(b, c, point),
        on_segment(c, a, point),
    ];
    let away = |p: Vec3| (p - point).dot(p - point);
    edges
        .into_iter()
        .min_by(|&p, &q| away(p).total_cmp(&away(q)))
        .unwrap_or(a)
}
