//! Where a face stands in the axle's frame over a part of the poses: each corner's place as a power series.

use super::face::Face;
use super::four::Four;
use super::poses::Region;
use super::quadratic::Quadratics;
use crate::space::{Vec2, Vec3};

/// One coordinate of the four corners: the quadratics about the region's middle, and the bounds of the third-degree
/// coefficients.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub quadratic: [Four; 6],
    pub cubic: [Four; 4],
}

/// A face in a region.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stance<'a> {
    pub face: &'a Face,
    pub region: &'a Region,
    rows: [Row; 3],
    /// What a co-rotating plane loses between a patch's two ends, mm, for each unit of its radial and across parts.
    pub stray: Stray,
}

/// The sagitta of a plane's distance between the two ends of a curved patch; nothing on a flat face.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Stray {
    /// For each unit of the plane's radial part.
    pub radial: f64,
    /// For each unit of its part along the axle.
    pub across: f64,
}

/// A function of the pose at each corner: its quadratic, and the greatest of its remainder, in the parts that each
/// wheel's travel accounts for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Form {
    pub quadratics: Quadratics,
    pub remainder: [Four; 2],
}

impl<'a> Stance<'a> {
    pub fn new(region: &'a Region, face: &'a Face) -> Self {
        let corners = face.four_corners();
        let coordinate = |f: fn(Vec3) -> f64| Four(corners.map(f));
        let rows = region.rows([
            coordinate(|p| p.x),
            coordinate(|p| p.y),
            coordinate(|p| p.z),
        ]);
        let mut stance = Self {
            face,
            region,
            rows,
            stray: Stray::default(),
        };
        stance.stray = stance.stray();
        stance
    }

    /// The function `normal . q` at each corner, with a normal of its own at each.
    pub fn form(&self, normal: [Four; 3]) -> Form {
        let [x, y, z] = &self.rows;
        let mut quadratics = [Four::all(0.0); 6];
        for (k, sum) in quadratics.iter_mut().enumerate().take(self.region.terms()) {
            *sum = normal[0] * x.quadratic[k]
                + normal[1] * y.quadratic[k]
                + normal[2] * z.quadratic[k];
        }
        let Vec2 { x: a, y: b } = self.region.half;
        if a == 0.0 && b == 0.0 {
            return Form {
                quadratics: Quadratics(quadratics),
                remainder: [Four::all(0.0); 2],
            };
        }
        let size = normal.map(Four::abs);
        let cubic = |k: usize| size[0] * x.cubic[k] + size[1] * y.cubic[k] + size[2] * z.cubic[k];
        let (uuu, uuv) = (cubic(0) * (a * a * a), cubic(1) * (a * a * b));
        let (uvv, vvv) = (cubic(2) * (a * b * b), cubic(3) * (b * b * b));
        let third = 1.0 / 3.0;
        Form {
            quadratics: Quadratics(quadratics),
            remainder: [
                uuu + (uuv * 2.0 + uvv) * third,
                vvv + (uvv * 2.0 + uuv) * third,
            ],
        }
    }

    /// About where the corners stand in a pose of the region: the remainder is left out.
    pub fn corners_at(&self, pose: Vec2) -> [Four; 3] {
        let at = pose - self.region.middle;
        self.rows.map(|row| {
            let [c0, cu, cv, cuu, cuv, cvv] = row.quadratic;
            c0 + (cu + cuu * at.x + cuv * at.y) * at.x + (cv + cvv * at.y) * at.y
        })
    }

    /// The most by which any point of the face, anywhere in the region, stands away from `q`, mm.
    pub fn reach_from(&self, q: Vec3) -> f64 {
        let x = self.away_from(0, Four::all(q.x));
        let y = self.away_from(1, Four::all(q.y));
        let z = self.away_from(2, Four::all(q.z));
        (x * x + y * y + z * z).sqrt().greatest() + self.face.bend
    }

    /// The most by which the region moves any corner away from where its middle has it, mm.
    pub fn travel(&self) -> f64 {
        let [x, y, z] = std::array::from_fn(|k| self.away_from(k, self.rows[k].quadratic[0]));
        (x * x + y * y + z * z).sqrt().greatest()
    }

    /// The most by which a coordinate of each corner differs from `place` anywhere in the region.
    fn away_from(&self, coordinate: usize, place: Four) -> Four {
        let axis = |k: usize| Four::all(if k == coordinate { 1.0 } else { 0.0 });
        let (value, around) = self
            .form(std::array::from_fn(axis))
            .spread(self.region.half);
        (value - place).abs() + around
    }

    /// Along a patch the plane turns with it. Let `u` be the plane's direction in the meridian, `e` that of the body
    /// point `p = (out, rho e)`, both turning evenly with the angle, `m` and `c` the plane's radial and across parts,
    /// and `q = R p - s`. The second derivative of `m u . q + c q_y` by the angle is
    ///
    /// `m u . (p - q) + 2 m u' . (R - 1) p' + m u . (R - 1) p'' + c (R p'')_y`,
    ///
    /// for with `R = 1` and `s = 0` the terms of `p` cancel: the plane then keeps its distance all along. A function
    /// falls below its chord by no more than an eighth of its greatest second derivative times the square of the turn.
    fn stray(&self) -> Stray {
        let Some(patch) = self.face.patch() else {
            return Stray::default();
        };
        let tilt = self.region.tilt;
        let corners = self.face.four_corners();
        let x = self.away_from(0, Four(corners.map(|p| p.x)));
        let z = self.away_from(2, Four(corners.map(|p| p.z)));
        let farthest = (x * x + z * z).sqrt().greatest();
        let (turn, sagitta) = (patch.turn(), self.face.bend);
        let drift = farthest + tilt.around * sagitta;
        let slope = tilt.around * patch.sweep() + tilt.from_across * patch.slant();
        Stray {
            radial: (drift * turn * turn + 2.0 * slope * turn) / 8.0 + tilt.around * sagitta,
            across: tilt.into_across * sagitta,
        }
    }
}

impl Form {
    /// The value in the region's middle, and the most by which it differs anywhere in it.
    pub fn spread(&self, half: Vec2) -> (Four, Four) {
        let [c0, cu, cv, cuu, cuv, cvv] = self.quadratics.0;
        let (a, b) = (half.x, half.y);
        let linear = cu.abs() * a + cv.abs() * b;
        let bend = cuu.abs() * (a * a) + cuv.abs() * (a * b) + cvv.abs() * (b * b);
        (c0, linear + bend + self.remainder[0] + self.remainder[1])
    }
}
