//! The least value of a quadratic over a convex polygon, exactly.

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
        for (i, &a) in polygon.iter().enumerate() {
            offer(a);
            let d = polygon[(i + 1) % polygon.len()] - a;
            let bend = cuu * d.x * d.x + cuv * d.x * d.y + cvv * d.y * d.y;
            let slope =
                d.x * (cu + 2.0 * cuu * a.x + cuv * a.y) + d.y * (cv + 2.0 * cvv * a.y + cuv * a.x);
            if bend > 0.0 && slope < 0.0 && -slope < 2.0 * bend {
                offer(a + d * (-slope / (2.0 * bend)));
            }
        }
        let det = 4.0 * cuu * cvv - cuv * cuv;
        // A polygon without area has no inside: its corners and edges are all of it.
        let area: f64 = polygon
            .iter()
            .enumerate()
            .map(|(i, &a)| a.cross(polygon[(i + 1) % polygon.len()]))
            .sum();
        if area > 0.0 && cuu > 0.0 && det > 0.0 {
            let p = vec2(
                (cuv * cv - 2.0 * cvv * cu) / det,
                (cuv * cu - 2.0 * cuu * cv) / det,
            );
            let inside = polygon.iter().enumerate().all(|(i, &a)| {
                let b = polygon[(i + 1) % polygon.len()];
                (b - a).cross(p - a) >= 0.0
            });
            if inside {
                offer(p);
            }
        }
        best
    }
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
        for form in forms {
            let quadratic = Quadratic(form);
            let (least, at) = quadratic.least_over(&polygon);
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
