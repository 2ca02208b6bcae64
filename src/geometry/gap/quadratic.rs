//! The least value of a quadratic over a convex polygon, exactly: of one, with its place, and of four at once.

use super::four::Four;
use crate::space::{Vec2, vec2};

/// `c0 + cu u + cv v + cuu u^2 + cuv u v + cvv v^2`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Quadratic(pub [f64; 6]);

impl Quadratic {
    pub fn at(&self, p: Vec2) -> f64 {
        let [c0, cu, cv, cuu, cuv, cvv] = self.0;
        c0 + p.x * (cu + cuu * p.x + cuv * p.y) + p.y * (cv + cvv * p.y)
    }

    /// The least value over the polygon, and where: at a corner, inside an edge, or inside the polygon.
    pub fn least_over(&self, polygon: &[Vec2]) -> (f64, Vec2) {
        let [_, cu, cv, cuu, cuv, cvv] = self.0;
        let mut best = (f64::INFINITY, Vec2::default());
        let mut offer = |p: Vec2| {
            let value = self.at(p);
            if value < best.0 {
                best = (value, p);
            }
        };
        for (a, b) in edges(polygon) {
            offer(a);
            let d = b - a;
            let bend = cuu * d.x * d.x + cuv * d.x * d.y + cvv * d.y * d.y;
            let slope =
                d.x * (cu + 2.0 * cuu * a.x + cuv * a.y) + d.y * (cv + 2.0 * cvv * a.y + cuv * a.x);
            if bend > 0.0 && slope < 0.0 && -slope < 2.0 * bend {
                offer(a + d * (-slope / (2.0 * bend)));
            }
        }
        let det = 4.0 * cuu * cvv - cuv * cuv;
        if cuu > 0.0 && det > 0.0 {
            let p = vec2(
                (cuv * cv - 2.0 * cvv * cu) / det,
                (cuv * cu - 2.0 * cuu * cv) / det,
            );
            if has(polygon, p) {
                offer(p);
            }
        }
        best
    }
}

/// Four quadratics, coefficient by coefficient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Quadratics(pub [Four; 6]);

impl Quadratics {
    /// One of the four.
    pub fn lane(&self, lane: usize) -> Quadratic {
        Quadratic(self.0.map(|coefficient| coefficient.0[lane]))
    }

    fn at(&self, x: Four, y: Four) -> Four {
        let [c0, cu, cv, cuu, cuv, cvv] = self.0;
        c0 + x * (cu + cuu * x + cuv * y) + y * (cv + cvv * y)
    }

    /// Never above the least value over the polygon, and the least itself but for rounding; minus infinity where a
    /// coefficient is no finite number.
    pub fn least_over(&self, polygon: &[Vec2]) -> Four {
        let Some(first) = polygon.first() else {
            return Four::all(f64::INFINITY);
        };
        let [_, cu, cv, cuu, cuv, cvv] = self.0;
        let start = self.at(Four::all(first.x), Four::all(first.y));
        let mut least = start;
        if polygon.len() > 1 {
            for (a, b) in edges(polygon) {
                let d = b - a;
                let bend = cuu * (d.x * d.x) + cuv * (d.x * d.y) + cvv * (d.y * d.y);
                let slope = (cu + cuu * (2.0 * a.x) + cuv * a.y) * d.x
                    + (cv + cvv * (2.0 * a.y) + cuv * a.x) * d.y;
                let share = (Four::all(0.0) - slope) / (bend + bend);
                // From the corner itself, where the edge has no hollow, to its far end.
                let share = share
                    .where_positive(bend)
                    .max(Four::all(0.0))
                    .min(Four::all(1.0));
                least =
                    least.min(self.at(share * d.x + Four::all(a.x), share * d.y + Four::all(a.y)));
                least = least.min(self.at(Four::all(a.x), Four::all(a.y)));
            }
            least = self.least_inside(polygon, least);
        }
        Four(std::array::from_fn(|lane| {
            if start.0[lane].is_finite() {
                least.0[lane]
            } else {
                f64::NEG_INFINITY
            }
        }))
    }

    /// With the bowls' bottoms, where they lie inside the polygon.
    fn least_inside(&self, polygon: &[Vec2], mut least: Four) -> Four {
        let [_, cu, cv, cuu, cuv, cvv] = self.0;
        let det = cuu * cvv * 4.0 - cuv * cuv;
        let is_bowl = |lane: usize| det.0[lane] > 0.0 && cuu.0[lane] > 0.0;
        if (0..4).any(is_bowl) {
            for lane in (0..4).filter(|&lane| is_bowl(lane)) {
                let [cu, cv, cuu, cuv, cvv, det] =
                    [cu, cv, cuu, cuv, cvv, det].map(|coefficient| coefficient.0[lane]);
                let p = vec2(
                    (cuv * cv - 2.0 * cvv * cu) / det,
                    (cuv * cu - 2.0 * cuu * cv) / det,
                );
                if has(polygon, p) {
                    least.0[lane] = least.0[lane].min(self.lane(lane).at(p));
                }
            }
        }
        least
    }
}

/// Whether a polygon with an inside has `p` in it.
fn has(polygon: &[Vec2], p: Vec2) -> bool {
    // A polygon without area has no inside: its corners and edges are all of it.
    let area: f64 = edges(polygon).map(|(a, b)| a.cross(b)).sum();
    area > 0.0 && edges(polygon).all(|(a, b)| (b - a).cross(p - a) >= 0.0)
}

/// Each edge of a polygon, from its one end to its other.
fn edges(polygon: &[Vec2]) -> impl Iterator<Item = (Vec2, Vec2)> {
    let ends = polygon.iter().skip(1).chain(polygon.first());
    polygon.iter().copied().zip(ends.copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_polygon_without_area_has_no_inside() {
        let bowl = Quadratic([0.0, -2e9, -2e9, 1.0, 0.0, 1.0]);
        let (a, b) = (vec2(-1.0, -1.0), vec2(2.0, 2.0));
        assert_eq!(bowl.least_over(&[a]).1, a);
        assert_eq!(bowl.least_over(&[a, b]).1, b);
        assert_eq!(bowl.least_over(&[a, b, b, a]).1, b);
    }

    #[test]
    fn no_point_of_the_polygon_is_lower() {
        let polygon = [
            vec2(-3.0, -2.0),
            vec2(4.0, -2.0),
            vec2(4.0, 1.0),
            vec2(1.0, 3.0),
            vec2(-3.0, 3.0),
        ];
        let forms = [
            [1.0, 0.2, -0.3, 0.5, 0.1, 0.4],
            [0.0, 1.0, 1.0, -0.5, 0.3, 0.2],
            [2.0, -6.0, 0.0, 1.0, 0.0, 1.0],
            [0.0, 0.0, 0.0, 0.0, 1.0, 0.0],
            [0.0, 0.5, -0.5, 0.0, 0.0, 0.0],
        ];
        let lanes = |k: usize| Four(std::array::from_fn(|lane| forms[lane][k]));
        let at_once = Quadratics(std::array::from_fn(lanes)).least_over(&polygon);
        for (i, form) in forms.into_iter().enumerate() {
            let quadratic = Quadratic(form);
            let (least, at) = quadratic.least_over(&polygon);
            if let Some(lane) = at_once.0.get(i) {
                assert!(
                    (lane - least).abs() < 1e-12,
                    "lane {i}: {lane} is not {least}"
                );
            }
            assert!((quadratic.at(at) - least).abs() < 1e-12);
            let mut sampled = f64::INFINITY;
            for i in 0..=200 {
                for j in 0..=200 {
                    let p = vec2(
                        -3.0 + 7.0 * f64::from(i) / 200.0,
                        -2.0 + 5.0 * f64::from(j) / 200.0,
                    );
                    let inside = polygon.iter().enumerate().all(|(k, &a)| {
                        (polygon[(k + 1) % polygon.len()] - a).cross(p - a) >= -1e-12
                    });
                    if inside {
                        sampled = sampled.min(quadratic.at(p));
                    }
                }
            }
            assert!(
                least <= sampled + 1e-12,
                "{form:?}: {least} above {sampled}"
            );
            assert!(
                sampled - least < 0.2,
                "{form:?}: {least} far below {sampled}"
            );
        }
    }
}
