//! The mock-up: plywood discs that stand in for wheel and tire at their largest, bolted to the axle flange.
//!
//! A disc in the middle is as large as the crown; one on either side has its outer face where the tire is widest;
//! between them come as many as it takes for a straightedge laid across the discs to lie nowhere deeper inside the
//! tire than [`SHORT`], as far as the boards leave room for them: at the shoulder, where the outline bends most, board may
//! have to lie on board, and the tire then stands out by as much as it bends over one of them. What is measured is the gap from the straightedge, so
//! that the stand-in is the outline round all discs. Below its widest point it is a flat face, where a tire would
//! draw in.

use crate::arrivals::on_tire;
use crate::car::Car;
use crate::chain::{Arc, Chain};
use crate::field::Fault;
use crate::model::{Model, shape_inputs};
use crate::order;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::space::{Vec2, vec2};
use crate::tire::{Arrival, TireShape};
use crate::travel::Pose;
use crate::units::in_both;

/// How far the tire may stand out of the stand-in, mm: 1/8 in, the same as a reading's error (common practice, no source).
pub const SHORT: f64 = 3.175;
/// How finely the tire's outline is walked, mm.
const SAGITTA: f64 = 0.01;
/// How much wider than the axle flange the hole in a disc is that the flange reaches through, mm (common practice, no
/// source).
pub const AROUND_FLANGE: f64 = 25.4;

/// One disc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disc {
    /// Its inboard and its outboard face, from the tire's center plane, mm, positive outboard.
    pub faces: [f64; 2],
    /// Its diameter, mm.
    pub diameter: f64,
    /// Whether axle flange and brake reach through it: it lies inboard of the mounting face, or across it.
    pub needs_hole: bool,
    /// Whether it would be where the mounting board is, which stands on the mounting face.
    pub meets_board: bool,
}

/// The mock-up for either side; right and left are the same.
#[derive(Debug, Clone, PartialEq)]
pub struct MockUp {
    /// Thickness of every board, mm.
    pub board: f64,
    /// The discs, from inboard to outboard.
    pub discs: Vec<Disc>,
    /// Width over the outermost faces, mm: the tire's section width at its largest.
    pub width: f64,
    /// Diameter of the middle disc, mm.
    pub diameter: f64,
    /// The mounting face from the tire's center plane, mm, positive outboard: the wheel's offset.
    pub mounting_face: f64,
    /// The least hole that lets the axle flange through, mm; the brake may need more.
    pub hole: f64,
    /// How far the tire stands out of the stand-in at most, mm.
    pub short: f64,
    /// The tire's section at its largest.
    pub tire: TireShape,
    stand_in: Chain,
}

impl MockUp {
    /// The mock-up of a car's tire at its largest: as the standard lets it arrive, unless it was measured, with what it
    /// grows at speed.
    ///
    /// # Errors
    /// A tire whose largest is no section, as [`TireShape::new`] says, or boards too thick for it.
    pub fn of(car: &Car) -> Result<Self, Fault> {
        let mut inputs = shape_inputs(&on_tire(car, Arrival::Largest));
        inputs.diameter += car.tire.growth;
        let tire = TireShape::new(inputs)?;
        let profile = Profile::of(&tire);
        let board = car.metal.board;
        let (planes, short) = profile.planes(board);
        let middle = profile.radius(board / 2.0);
        let mut half = vec![([-board / 2.0, board / 2.0], middle)];
        for &plane in &planes {
            half.push(([plane - board, plane], profile.radius(plane)));
        }
        let mounting_face = car.wheel.offset();
        let inboard = half[1..]
            .iter()
            .rev()
            .map(|&([from, to], radius)| ([-to, -from], radius));
        let discs: Vec<Disc> = inboard
            .chain(half.iter().copied())
            .map(|(faces, radius)| Disc {
                faces,
                diameter: 2.0 * radius,
                needs_hole: faces[0] < mounting_face,
                meets_board: faces[0] < mounting_face + board && mounting_face < faces[1],
            })
            .collect();
        let stand_in = hull(&discs).map_err(|_| {
            Fault::new(
                "metal.board",
                format!(
                    "boards {} thick make no stand-in for this tire",
                    in_both(board)
                ),
                "thinner boards would be accepted",
            )
        })?;
        Ok(Self {
            board,
            width: 2.0 * profile.half_width,
            diameter: 2.0 * middle,
            mounting_face,
            hole: car.axle.flange_diameter + AROUND_FLANGE,
            short,
            tire,
            discs,
            stand_in,
        })
    }

    /// What lies between each disc and the next, mm: the lengths of the spacers; nothing where two discs touch.
    #[must_use]
    pub fn spacers(&self) -> Vec<f64> {
        self.discs
            .windows(2)
            .map(|pair| (pair[1].faces[0] - pair[0].faces[1]).max(0.0))
            .collect()
    }

    /// A model of the same car with the mock-up in place of tire and wheel, without the axle's give: what it predicts is
    /// found on the mock-up.
    #[must_use]
    pub fn under(&self, model: &Model) -> Model {
        let mut model = model.clone();
        let stand_in = |solid: &Revolved| Revolved {
            chain: self.stand_in.clone(),
            ..solid.clone()
        };
        for side in Side::BOTH {
            let solids = model.solids.get_mut(side);
            solids.tire = stand_in(&solids.tire);
            solids.loaded = stand_in(&solids.loaded);
            solids.wheel = stand_in(&solids.wheel);
        }
        model.given = Sides::each(|side| model.solids.get(side).clone());
        model
    }

    /// The outline round the discs in the meridian plane.
    #[must_use]
    pub fn stand_in(&self) -> &Chain {
        &self.stand_in
    }
}

/// The poses in which a mock-up is tried, each with what it is called: all within the car's travel and roll limit.
#[must_use]
pub fn poses(model: &Model) -> Vec<(&'static str, Pose)> {
    let domain = model.pose_domain();
    let (low, high) = (domain.low, domain.high);
    let apart = domain.apart.min(high - low);
    let tilted = |left: f64, right: f64| Pose {
        left,
        right,
        give: 0.0,
    };
    let mut poses = vec![("ride height", Pose::RIDE)];
    if high > 0.0 {
        poses.push(("both at full bump", Pose::heave(high)));
    }
    if low < 0.0 {
        poses.push(("both at full droop", Pose::heave(low)));
    }
    if apart > 0.0 {
        poses.push(("left up, right down", tilted(high, high - apart)));
        poses.push(("right up, left down", tilted(high - apart, high)));
    }
    poses
}

/// The upper half of a tire's outline on one side of its center plane.
struct Profile {
    half_width: f64,
    /// From the crown outward: `x` from the center plane rises, `y`, the radius, falls.
    points: Vec<Vec2>,
}

impl Profile {
    fn of(tire: &TireShape) -> Self {
        let chain = &tire.chain;
        let half_width = chain.support(vec2(1.0, 0.0));
        let mut points: Vec<Vec2> = chain
            .outline(SAGITTA)
            .into_iter()
            .filter(|p| p.x > 0.0 && p.y >= tire.widest_radius)
            .collect();
        points.push(vec2(0.0, chain.support(vec2(0.0, 1.0))));
        points.push(vec2(half_width, tire.widest_radius));
        order::sort_by(&mut points, |a, b| {
            a.x.total_cmp(&b.x).then(b.y.total_cmp(&a.y))
        });
        Self { half_width, points }
    }

    /// The radius at a distance from the center plane.
    fn radius(&self, x: f64) -> f64 {
        let pair = self.points.windows(2).find(|pair| pair[1].x >= x);
        match pair {
            Some([a, b]) if b.x > a.x => a.lerp(*b, (x - a.x) / (b.x - a.x)).y,
            Some([_, b]) => b.y,
            _ => self.points.last().map_or(0.0, |p| p.y),
        }
    }

    /// The outer faces of the discs on one side, from the middle outward, and how far the tire stands out of them.
    ///
    /// From the widest one inward each disc is set as far in as the straightedge allows, but for a board's thickness.
    fn planes(&self, board: f64) -> (Vec<f64>, f64) {
        let middle = board / 2.0;
        let (mut planes, mut short) = (vec![self.half_width], 0.0_f64);
        loop {
            let outer = planes[planes.len() - 1];
            let onto_middle = self.stands_out(middle, outer);
            let farthest = outer - board;
            if onto_middle <= SHORT || farthest < middle + board {
                planes.reverse();
                return (planes, short.max(onto_middle));
            }
            let inner = self
                .points
                .iter()
                .map(|p| p.x)
                .find(|&x| x >= middle + board && self.stands_out(x, outer) <= SHORT)
                .map_or(farthest, |x| x.min(farthest));
            short = short.max(self.stands_out(inner, outer));
            planes.push(inner);
        }
    }

    /// How far the tire stands out of a straightedge laid across the edges of two discs, by their distances from the
    /// center plane.
    fn stands_out(&self, inner: f64, outer: f64) -> f64 {
        let (from, to) = (
            vec2(inner, self.radius(inner)),
            vec2(outer, self.radius(outer)),
        );
        let along = to - from;
        self.points
            .iter()
            .filter(|p| (inner..=outer).contains(&p.x))
            .map(|&p| along.cross(p - from) / along.length())
            .fold(0.0, f64::max)
    }
}

/// The outline round discs, counter-clockwise: along the axle's line, then over the discs' edges.
fn hull(discs: &[Disc]) -> Result<Chain, crate::chain::ChainFault> {
    let rims = discs
        .iter()
        .flat_map(|disc| disc.faces.map(|face| vec2(face, disc.diameter / 2.0)));
    let mut over: Vec<Vec2> = Vec::new();
    // The upper hull, from inboard to outboard.
    for p in rims {
        while let [.., a, b] = over[..]
            && (b - a).cross(p - a) >= 0.0
        {
            over.pop();
        }
        over.push(p);
    }
    let ends = [over.first().copied(), over.last().copied()];
    let feet = ends.map(|end| end.map(|p| vec2(p.x, 0.0)));
    let corners: Vec<Vec2> = feet
        .into_iter()
        .flatten()
        .chain(over.into_iter().rev())
        .collect();
    let arcs = corners.iter().enumerate().map(|(i, &center)| {
        let before = corners[(i + corners.len() - 1) % corners.len()];
        let edge = center - before;
        Arc {
            center,
            radius: 0.0,
            from: vec2(edge.y, -edge.x) * (1.0 / edge.length()),
        }
    });
    Chain::new(arcs.collect())
}
