//! The box of poses, halved on demand, with the axle's motion as a power series over each part.

use super::four::Four;
use super::quadratic::Quadratic;
use super::stance::Row;
use crate::motion::Motion;
use crate::motion::real::{Interval, Series};
use crate::space::{Vec2, Vec3, vec2, vec3};
use crate::travel::Pose;

/// Stands for a bound that there is none of: so large that nothing built with it says anything, and still a number, so
/// that no travel times it is nothing.
const BOUNDLESS: f64 = 1e100;

/// All poses: each wheel from `low` to `high` above ride height, the two no further apart than `apart`, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoseDomain {
    /// The lowest that a wheel goes.
    pub low: f64,
    /// The highest.
    pub high: f64,
    /// How far one may stand above the other; infinite where nothing limits roll.
    pub apart: f64,
}

/// One function of the pose: its quadratic about the middle and the bounds of its third-degree coefficients.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Entry {
    quadratic: [f64; 6],
    cubic: [f64; 4],
}

/// A part of the pose box.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Region {
    /// Middle of the box.
    pub middle: Vec2,
    /// Half its width and height.
    pub half: Vec2,
    /// The box cut by the roll limit, counter-clockwise, relative to the middle.
    pub polygon: Vec<Vec2>,
    turn: [[Entry; 3]; 3],
    shift: [Entry; 3],
    /// How far the axle is turned.
    pub tilt: Tilt,
    halves: [Option<[usize; 2]>; 2],
}

/// How far the axle's frame may be turned against the body's anywhere in a region: bounds of the rotation's parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tilt {
    /// Of the rotation less the identity, within the plane of the wheel.
    pub around: f64,
    /// Of what a place along the axle adds in the plane of the wheel.
    pub from_across: f64,
    /// Of what a place in the plane of the wheel adds along the axle.
    pub into_across: f64,
}

/// The pose box and its parts so far.
#[derive(Debug, Clone)]
pub struct Poses {
    motion: Motion,
    apart: f64,
    regions: Vec<Region>,
    is_finite: bool,
}

impl Poses {
    /// The whole box of one motion.
    #[must_use]
    pub fn new(motion: Motion, domain: PoseDomain) -> Self {
        let middle = f64::midpoint(domain.low, domain.high);
        let half = (domain.high - domain.low) / 2.0;
        Self::around(motion, domain.apart, vec2(middle, middle), vec2(half, half))
    }

    /// One pose alone.
    #[must_use]
    pub fn at(motion: Motion, pose: Pose) -> Self {
        let motion = motion.sliding(pose.give);
        Self::around(
            motion,
            f64::INFINITY,
            vec2(pose.left, pose.right),
            vec2(0.0, 0.0),
        )
    }

    fn around(motion: Motion, apart: f64, middle: Vec2, half: Vec2) -> Self {
        let mut poses = Self {
            motion,
            apart,
            regions: Vec::new(),
            is_finite: false,
        };
        poses.add(middle, half);
        let finite = |pose: &Vec2| {
            let placement = motion.placement(pose.x, pose.y);
            placement.axle_from_body(Vec3::default()).is_finite()
                && placement.turn[2][2].is_finite()
        };
        poses.is_finite = poses.corners().iter().all(finite);
        poses
    }

    /// The motion.
    #[must_use]
    pub fn motion(&self) -> &Motion {
        &self.motion
    }

    /// Whether the axle has a finite place in the extreme poses.
    pub(super) fn are_finite(&self) -> bool {
        self.is_finite
    }

    /// How far one wheel may stand above the other, mm.
    pub(super) fn apart(&self) -> f64 {
        self.apart
    }

    pub(super) fn region(&self, index: usize) -> &Region {
        &self.regions[index]
    }

    /// The two halves of a region across the first wheel's travel (`axis` 0) or the second's, those that
    /// hold a pose.
    pub(super) fn split(&mut self, index: usize, axis: usize) -> [usize; 2] {
        if let Some(halves) = self.regions[index].halves[axis] {
            return halves;
        }
        let Region { middle, half, .. } = self.regions[index];
        let (step, half) = if axis == 0 {
            (vec2(half.x / 2.0, 0.0), vec2(half.x / 2.0, half.y))
        } else {
            (vec2(0.0, half.y / 2.0), vec2(half.x, half.y / 2.0))
        };
        let halves = [self.add(middle - step, half), self.add(middle + step, half)];
        self.regions[index].halves[axis] = Some(halves);
        halves
    }

    /// The corners of the whole box, cut by the roll limit.
    #[must_use]
    pub fn corners(&self) -> Vec<Vec2> {
        self.regions[0]
            .polygon
            .iter()
            .map(|&p| p + self.regions[0].middle)
            .collect()
    }

    fn add(&mut self, middle: Vec2, half: Vec2) -> usize {
        let at_middle = self
            .motion
            .placement(Series::first(middle.x), Series::second(middle.y));
        let over = |center: f64, half: f64| Interval::new(center - half, center + half);
        let over_box = self.motion.placement(
            Series::<Interval>::first(over(middle.x, half.x)),
            Series::<Interval>::second(over(middle.y, half.y)),
        );
        let entry = |series: &Series<f64>, range: &Series<Interval>| Entry {
            quadratic: std::array::from_fn(|k| series.0[k]),
            cubic: std::array::from_fn(|k| {
                let bound = range.0[6 + k].magnitude();
                if bound < BOUNDLESS { bound } else { BOUNDLESS }
            }),
        };
        let turn = std::array::from_fn(|i| {
            std::array::from_fn(|j| entry(&at_middle.turn[i][j], &over_box.turn[i][j]))
        });
        let shift = std::array::from_fn(|i| entry(&at_middle.shift[i], &over_box.shift[i]));
        let off = |(i, j): (usize, usize)| {
            let still = if i == j { 1.0 } else { 0.0 };
            (over_box.turn[i][j].0[0] - Interval::new(still, still)).magnitude()
        };
        let size = |places: &[(usize, usize)]| {
            let squares: f64 = places.iter().map(|&place| off(place) * off(place)).sum();
            let size = squares.sqrt();
            if size < BOUNDLESS { size } else { BOUNDLESS }
        };
        let tilt = Tilt {
            around: size(&[(0, 0), (0, 2), (2, 0), (2, 2)]),
            from_across: size(&[(0, 1), (2, 1)]),
            into_across: size(&[(1, 0), (1, 2)]),
        };
        let polygon = cut_by_roll(middle, half, self.apart);
        self.regions.push(Region {
            middle,
            half,
            polygon,
            turn,
            shift,
            tilt,
            halves: [None; 2],
        });
        self.regions.len() - 1
    }
}

impl Region {
    /// About where a body point stands in the axle's frame in a pose of the region: the remainder is left out.
    pub fn axle_from_body(&self, point: Vec3, pose: Vec2) -> Vec3 {
        let p = [point.x, point.y, point.z];
        let at = pose - self.middle;
        let value = |entry: &Entry| Quadratic(entry.quadratic).at(at);
        let row = |i: usize| {
            (0..3).map(|j| value(&self.turn[i][j]) * p[j]).sum::<f64>() - value(&self.shift[i])
        };
        vec3(row(0), row(1), row(2))
    }

    /// Each coordinate of four body points in the axle's frame, as a function of the pose.
    pub fn rows(&self, points: [Four; 3]) -> [Row; 3] {
        let size = points.map(Four::abs);
        let nothing = Row {
            quadratic: [Four::all(0.0); 6],
            cubic: [Four::all(0.0); 4],
        };
        let mut rows = [nothing; 3];
        for ((row, [x, y, z]), shift) in rows.iter_mut().zip(&self.turn).zip(&self.shift) {
            for (k, sum) in row.quadratic.iter_mut().enumerate().take(self.terms()) {
                *sum = points[0] * x.quadratic[k]
                    + points[1] * y.quadratic[k]
                    + points[2] * z.quadratic[k]
                    - Four::all(shift.quadratic[k]);
            }
            if self.terms() > 1 {
                for (k, sum) in row.cubic.iter_mut().enumerate() {
                    *sum = size[0] * x.cubic[k]
                        + size[1] * y.cubic[k]
                        + size[2] * z.cubic[k]
                        + Four::all(shift.cubic[k]);
                }
            }
        }
        rows
    }

    /// How many coefficients of a quadratic count here: in a single pose the first.
    pub fn terms(&self) -> usize {
        if self.half == Vec2::default() { 1 } else { 6 }
    }

    /// The wheel whose travel is the wider one here: 0 left, 1 right.
    pub fn longer_axis(&self) -> usize {
        usize::from(self.half.y > self.half.x)
    }

    /// Whether the roll limit leaves it any pose.
    pub fn is_empty(&self) -> bool {
        self.polygon.is_empty()
    }

    /// The pose of the region nearest to `pose` in the manner of a clamp; it keeps the roll limit.
    pub fn clamp(&self, pose: Vec2, apart: f64) -> Vec2 {
        let low = self.middle - self.half;
        let high = self.middle + self.half;
        let mut p = vec2(pose.x.clamp(low.x, high.x), pose.y.clamp(low.y, high.y));
        let over = p.x - p.y - apart;
        if over > 0.0 {
            let first = over.min(p.x - low.x);
            p = vec2(p.x - first, (p.y + over - first).min(high.y));
        }
        let over = p.y - p.x - apart;
        if over > 0.0 {
            let first = over.min(p.y - low.y);
            p = vec2((p.x + over - first).min(high.x), p.y - first);
        }
        p
    }
}

/// How much wider than asked the roll limit cuts, mm: rounding may not lose a pose that the limit allows, least of all
/// where it leaves but a line of them.
const SLACK: f64 = 1e-9;

/// The box cut to poses whose wheels stand no further apart than `apart`, relative to its middle.
fn cut_by_roll(middle: Vec2, half: Vec2, apart: f64) -> Vec<Vec2> {
    let corner = |x: f64, y: f64| vec2(x * half.x, y * half.y);
    let mut polygon = vec![
        corner(-1.0, -1.0),
        corner(1.0, -1.0),
        corner(1.0, 1.0),
        corner(-1.0, 1.0),
    ];
    if half.x == 0.0 && half.y == 0.0 {
        polygon.truncate(1);
    }
    if apart.is_finite() {
        for sign in [1.0, -1.0] {
            let over = |p: Vec2| sign * ((middle.x + p.x) - (middle.y + p.y)) - apart - SLACK;
            polygon = clipped(&polygon, over);
        }
    }
    polygon
}

/// The part of a convex polygon where `over` (an affine function) is not positive.
fn clipped(polygon: &[Vec2], over: impl Fn(Vec2) -> f64) -> Vec<Vec2> {
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (i, &a) in polygon.iter().enumerate() {
        let b = polygon[(i + 1) % polygon.len()];
        let (at_a, at_b) = (over(a), over(b));
        if at_a <= 0.0 {
            kept.push(a);
        }
        if (at_a < 0.0 && at_b > 0.0) || (at_a > 0.0 && at_b < 0.0) {
            kept.push(a.lerp(b, at_a / (at_a - at_b)));
        }
    }
    kept
}
