//! A convex outline made of tangent arcs and the straight lines between them.
//!
//! For a convex outline the signed distance of a point is the greatest of `n . p - h(n)` over all
//! unit normals `n`, where `h` is the support function. On one arc of center `c` and radius `r`,
//! `h(n) = n . c + r`; so the distance needs no case analysis and is exact inside and outside.

use crate::math;
use crate::normals::{self, SECTORS};
use crate::space::{Vec2, vec2};

/// How far two arcs may disagree on their shared tangent line, mm: far above rounding, far below
/// anything that matters on a tire.
const JOIN_TOLERANCE: f64 = 1e-6;

/// One arc of a chain: it covers the normals from its own `from` to the next arc's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// Center, mm.
    pub center: Vec2,
    /// Radius, mm; zero makes a corner.
    pub radius: f64,
    /// Unit normal at which the arc begins, counter-clockwise.
    pub from: Vec2,
}

/// A closed convex chain of arcs, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    arcs: Vec<Arc>,
}

/// Why a row of arcs is no convex chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChainFault {
    /// Fewer than three arcs, or a number that is not finite, or a negative radius.
    Malformed,
    /// The normals do not turn strictly one way, once round.
    NotConvex,
    /// Two neighbors do not share the tangent line at their common normal.
    NotJoined,
}

/// The signed distance of a point from a chain and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// Signed distance, mm, negative inside.
    pub distance: f64,
    /// The unit normal that attains it.
    pub normal: Vec2,
}

impl Chain {
    /// Makes a chain of arcs given counter-clockwise.
    ///
    /// # Errors
    /// Refuses arcs that do not make a convex outline; nothing is mended.
    pub fn new(arcs: Vec<Arc>) -> Result<Self, ChainFault> {
        let finite =
            |arc: &Arc| arc.center.is_finite() && arc.radius.is_finite() && arc.from.is_finite();
        if arcs.len() < 3 || !arcs.iter().all(|arc| finite(arc) && arc.radius >= 0.0) {
            return Err(ChainFault::Malformed);
        }
        let mut turned = 0.0;
        for (i, arc) in arcs.iter().enumerate() {
            let next = &arcs[(i + 1) % arcs.len()];
            let turn = math::atan2(arc.from.cross(next.from), arc.from.dot(next.from));
            if !(0.0..std::f64::consts::PI).contains(&turn) {
                return Err(ChainFault::NotConvex);
            }
            turned += turn;
            let normal = next.from;
            let jump = normal.dot(next.center - arc.center) + next.radius - arc.radius;
            if jump.abs() > JOIN_TOLERANCE {
                return Err(ChainFault::NotJoined);
            }
            let along = vec2(-normal.y, normal.x).dot(next.center - arc.center);
            if along < -JOIN_TOLERANCE {
                return Err(ChainFault::NotConvex);
            }
        }
        if (turned - std::f64::consts::TAU).abs() > 1e-9 {
            return Err(ChainFault::NotConvex);
        }
        Ok(Self { arcs })
    }

    /// A rectangle about the origin with rounded corners, `half` wide and high to each side, mm.
    ///
    /// # Errors
    /// A radius that does not fit, or a number that is not finite.
    pub fn rounded_rectangle(half: Vec2, radius: f64) -> Result<Self, ChainFault> {
        let corner = |x: f64, y: f64, from: Vec2| Arc {
            center: vec2(x * (half.x - radius), y * (half.y - radius)),
            radius,
            from,
        };
        Self::new(vec![
            corner(1.0, 1.0, vec2(1.0, 0.0)),
            corner(-1.0, 1.0, vec2(0.0, 1.0)),
            corner(-1.0, -1.0, vec2(-1.0, 0.0)),
            corner(1.0, -1.0, vec2(0.0, -1.0)),
        ])
    }

    /// The arcs, counter-clockwise.
    #[must_use]
    pub fn arcs(&self) -> &[Arc] {
        &self.arcs
    }

    /// The normal at which arc `i` ends.
    #[must_use]
    pub fn to(&self, i: usize) -> Vec2 {
        self.arcs[(i + 1) % self.arcs.len()].from
    }

    /// The signed distance of `point`, with the normal that attains it.
    #[must_use]
    pub fn near(&self, point: Vec2) -> Near {
        let mut best = Near {
            distance: f64::NEG_INFINITY,
            normal: vec2(0.0, 1.0),
        };
        let ends = self.arcs.iter().skip(1).chain(self.arcs.first());
        for (arc, next) in self.arcs.iter().zip(ends) {
            let d = point - arc.center;
            let at_from = arc.from.dot(d) - arc.radius;
            if at_from > best.distance {
                best = Near {
                    distance: at_from,
                    normal: arc.from,
                };
            }
            if arc.from.cross(d) >= 0.0 && d.cross(next.from) >= 0.0 {
                let length = d.length();
                if length > 0.0 && length - arc.radius >= best.distance {
                    best = Near {
                        distance: length - arc.radius,
                        normal: d * (1.0 / length),
                    };
                }
            }
        }
        best
    }

    /// The support function: how far the outline reaches along the unit vector `normal`.
    #[must_use]
    pub fn support(&self, normal: Vec2) -> f64 {
        self.arcs
            .iter()
            .map(|arc| normal.dot(arc.center) + arc.radius)
            .zip(0..)
            .filter(|&(_, i)| {
                self.arcs[i].from.cross(normal) >= 0.0 && normal.cross(self.to(i)) >= 0.0
            })
            .map(|(reach, _)| reach)
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// How far this outline reaches beyond `other`, at its most over the normals of each sector, mm; negative where it
    /// lies within it.
    ///
    /// A distance is the greatest of `n . p - h(n)`, so what a plane says of `other` it says of this chain less that. On
    /// a pair of arcs the two support functions differ by `n . d + r`, which is greatest along `d` or at an end of the
    /// normals that both cover and the sector holds.
    #[must_use]
    pub fn beyond(&self, other: &Self) -> [f64; SECTORS] {
        let covers = |chain: &Self, i: usize, normal: Vec2| {
            chain.arcs[i].from.cross(normal) >= 0.0 && normal.cross(chain.to(i)) >= 0.0
        };
        let mut most = std::array::from_fn(|k| {
            let ends = normals::ends(k).map(|end| self.support(end) - other.support(end));
            ends[0].max(ends[1])
        });
        for (i, ours) in self.arcs.iter().enumerate() {
            for (j, theirs) in other.arcs.iter().enumerate() {
                let apart = ours.center - theirs.center;
                let thicker = ours.radius - theirs.radius;
                let length = apart.length();
                let along = (length > 0.0).then(|| apart * (1.0 / length));
                let ends = [ours.from, self.to(i), theirs.from, other.to(j)];
                for normal in ends.into_iter().chain(along) {
                    if covers(self, i, normal) && covers(other, j, normal) {
                        let most = &mut most[normals::sector(normal)];
                        *most = most.max(normal.dot(apart) + thicker);
                    }
                }
            }
        }
        most
    }

    /// All points within `give` of the chain along the first axis: what it covers when it may slide
    /// that far either way.
    #[must_use]
    pub fn widened(&self, give: f64) -> Self {
        let mut arcs = Vec::with_capacity(self.arcs.len() + 2);
        for (i, arc) in self.arcs.iter().enumerate() {
            let to = self.to(i);
            let shifted = |by: f64, from: Vec2| Arc {
                center: arc.center + vec2(by, 0.0),
                radius: arc.radius,
                from,
            };
            let side = |x: f64| if x > 0.0 { give } else { -give };
            if arc.from.x * to.x < 0.0 {
                arcs.push(shifted(side(arc.from.x), arc.from));
                arcs.push(shifted(side(to.x), vec2(0.0, arc.from.y.signum())));
            } else {
                arcs.push(shifted(side(arc.from.x + to.x), arc.from));
            }
        }
        Self { arcs }
    }

    /// All points within `margin` of the chain.
    #[must_use]
    pub fn grown(&self, margin: f64) -> Self {
        let arcs = self
            .arcs
            .iter()
            .map(|arc| Arc {
                radius: arc.radius + margin,
                ..*arc
            })
            .collect();
        Self { arcs }
    }

    /// The outline as a closed polygon whose corners lie on it; the chords stay within `sagitta` mm.
    #[must_use]
    pub fn outline(&self, sagitta: f64) -> Vec<Vec2> {
        let mut points = Vec::new();
        for (i, arc) in self.arcs.iter().enumerate() {
            let to = self.to(i);
            let turn = math::atan2(arc.from.cross(to), arc.from.dot(to));
            points.extend(arc_points(
                arc.center,
                arc.radius,
                (arc.from.angle(), turn),
                sagitta,
            ));
        }
        points.dedup_by(|a, b| (*a - *b).length() < JOIN_TOLERANCE);
        points
    }
}

/// Corners along an arc, its ends among them: from the first of two angles on by the second, radians, with chords that
/// stay inside it by no more than `sagitta`, mm.
pub fn arc_points(
    center: Vec2,
    radius: f64,
    (start, turn): (f64, f64),
    sagitta: f64,
) -> impl Iterator<Item = Vec2> {
    let step = 2.0 * math::acos(1.0 - sagitta / radius.max(sagitta));
    let steps = (turn / step).ceil().clamp(1.0, 256.0);
    let along = std::iter::successors(Some(0.0), |k| Some(k + 1.0));
    along
        .take_while(move |k| *k <= steps)
        .map(move |k| center + Vec2::at_angle(start + turn * k / steps) * radius)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rounded_box(half: Vec2, radius: f64) -> Chain {
        Chain::rounded_rectangle(half, radius).expect("a rounded box is convex")
    }

    #[test]
    fn distance_is_exact_inside_and_outside() {
        let chain = rounded_box(vec2(100.0, 60.0), 20.0);
        let check = |p: Vec2, expected: f64| {
            let got = chain.near(p).distance;
            assert!(
                (got - expected).abs() < 1e-12,
                "{p:?}: {got} is not {expected}"
            );
        };
        check(vec2(130.0, 0.0), 30.0);
        check(vec2(0.0, 75.0), 15.0);
        check(vec2(80.0 + 30.0, 40.0 + 40.0), 50.0 - 20.0);
        check(vec2(0.0, 0.0), -60.0);
        check(vec2(95.0, 0.0), -5.0);
    }

    #[test]
    fn widening_slides_both_ends() {
        let chain = rounded_box(vec2(100.0, 60.0), 20.0).widened(7.0);
        assert!((chain.near(vec2(130.0, 0.0)).distance - 23.0).abs() < 1e-12);
        assert!((chain.near(vec2(-130.0, 0.0)).distance - 23.0).abs() < 1e-12);
        assert!((chain.near(vec2(0.0, 75.0)).distance - 15.0).abs() < 1e-12);
        assert!(Chain::new(chain.arcs.clone()).is_ok());
    }

    #[test]
    fn what_reaches_beyond_is_told_to_the_last_digit() {
        let (small, large) = (
            rounded_box(vec2(100.0, 60.0), 20.0),
            rounded_box(vec2(105.0, 63.0), 20.0),
        );
        let most = |one: &Chain, other: &Chain| {
            one.beyond(other)
                .into_iter()
                .fold(f64::NEG_INFINITY, f64::max)
        };
        assert!((most(&large, &small) - math::hypot(5.0, 3.0)).abs() < 1e-12);
        assert!((most(&small, &large) + 3.0).abs() < 1e-12);
        assert!(
            small
                .beyond(&small)
                .iter()
                .all(|beyond| beyond.abs() < 1e-12)
        );
        assert!((most(&small.widened(4.0), &small) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_dent_is_refused() {
        let mut arcs = rounded_box(vec2(100.0, 60.0), 20.0).arcs.clone();
        arcs.swap(1, 2);
        assert!(Chain::new(arcs).is_err());
    }

    #[test]
    fn the_outline_lies_on_the_chain() {
        let chain = rounded_box(vec2(100.0, 60.0), 20.0);
        for p in chain.outline(0.01) {
            assert!(chain.near(p).distance.abs() < 1e-9);
        }
    }
}
