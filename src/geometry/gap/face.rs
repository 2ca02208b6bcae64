//! A piece of sheet metal: a point, a segment or a triangle, with a thickness all round.

use crate::space::Vec3;

/// All points within `radius` of the convex hull of one, two or three corners, car frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    corners: [Vec3; 3],
    count: usize,
    /// Distance of the surface from the hull of the corners, mm.
    pub radius: f64,
}

impl Face {
    /// A single point.
    #[must_use]
    pub fn point(a: Vec3) -> Self {
        Self {
            corners: [a; 3],
            count: 1,
            radius: 0.0,
        }
    }

    /// The segment from `a` to `b`.
    #[must_use]
    pub fn segment(a: Vec3, b: Vec3) -> Self {
        Self {
            corners: [a, b, b],
            count: 2,
            radius: 0.0,
        }
    }

    /// The triangle of three corners.
    #[must_use]
    pub fn triangle(a: Vec3, b: Vec3, c: Vec3) -> Self {
        Self {
            corners: [a, b, c],
            count: 3,
            radius: 0.0,
        }
    }

    /// The same, thickened by `radius` mm all round.
    #[must_use]
    pub fn thick(self, radius: f64) -> Self {
        Self { radius, ..self }
    }

    /// Its corners.
    #[must_use]
    pub fn corners(&self) -> &[Vec3] {
        &self.corners[..self.count]
    }

    /// The mean of its corners.
    #[must_use]
    pub fn middle(&self) -> Vec3 {
        let sum = self
            .corners()
            .iter()
            .fold(Vec3::default(), |sum, &p| sum + p);
        let weight = if self.count == 1 {
            1.0
        } else if self.count == 2 {
            0.5
        } else {
            1.0 / 3.0
        };
        sum * weight
    }

    /// Halved across its longest edge; a point gives itself twice.
    #[must_use]
    pub fn halves(&self) -> [Self; 2] {
        let [a, b, c] = self.corners;
        match self.count {
            1 => [*self, *self],
            2 => {
                let middle = a.lerp(b, 0.5);
                [
                    Self {
                        corners: [a, middle, middle],
                        ..*self
                    },
                    Self {
                        corners: [middle, b, b],
                        ..*self
                    },
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
                    Self {
                        corners: [a, middle, c],
                        ..*self
                    },
                    Self {
                        corners: [middle, b, c],
                        ..*self
                    },
                ]
            }
        }
    }

    /// The face's point nearest to `point`.
    #[must_use]
    pub fn nearest(&self, point: Vec3) -> Vec3 {
        let [a, b, c] = self.corners;
        match self.count {
            1 => a,
            2 => on_segment(a, b, point),
            _ => {
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
        }
    }

    /// Length of the longest edge, mm.
    #[must_use]
    pub fn extent(&self) -> f64 {
        let [a, b, c] = self.corners;
        (a - b).length().max((b - c).length()).max((c - a).length())
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
