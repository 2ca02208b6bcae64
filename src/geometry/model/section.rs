//! What a plane that holds the measured axle's line cuts, at any angle round the wheel.
//!
//! The plane at an angle `a` from straight up holds the direction of the car's y axis and the direction
//! `u = (sin a, 0, cos a)`. Points of it are told as `(left, out from the axle's line along u)`; at an angle of
//! zero that is `(left, up)`.

use super::Model;
use crate::body::Station;
use crate::body::rail::RAIL_WIDTH;
use crate::chain::Chain;
use crate::envelope::{self, EnvelopeSection, EnvelopeWork, EnvelopesWork};
use crate::gap::Poses;
use crate::math;
use crate::motion::Placement;
use crate::order;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec2, vec3};
use crate::tire::load;
use crate::travel::Pose;

/// How far an outline's chords may stray from a section, mm: finer than a screen shows.
const SAGITTA: f64 = 0.05;
/// The longest straight piece of a meridian that is taken in one, mm. A cone cut `d` off its axle bends from its
/// chord by about `d^2 L^2 / 8 r^3`: 0.1 mm for `d` = 100 mm at a radius of 250 mm.
const LONGEST: f64 = 12.0;
/// Below this a plane is taken to be straight up, radians.
const STRAIGHT_UP: f64 = 1e-9;

/// What a section shows of one wheel in one pose. Points are `(left, along)` in the section's plane, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct WheelSection {
    /// Closed outline of the tire's section on the side of the axle that the plane's angle tells.
    pub tire_top: Vec<Vec2>,
    /// Closed outline of the tire's other section: flattened and bulged where it stands on the ground.
    pub tire_bottom: Vec<Vec2>,
    /// Closed outline of the wheel.
    pub wheel: Vec<Vec2>,
    /// The axle flange's face, from its lower to its upper edge, as it is seen along the plane's normal.
    pub flange: [Vec2; 2],
    /// The outer end of the axle tube's center line, at the flange, seen the same way.
    pub hub: Vec2,
}

impl Model {
    /// The sheet metal at `angle` radians from straight up, positive toward the front: as the factory made it, and
    /// with the seam moved and the roof raised. Nothing where the stations do not reach.
    #[must_use]
    pub fn section(&self, side: Side, angle: f64) -> Option<(Station, Station)> {
        if angle.abs() < STRAIGHT_UP {
            return Some((self.stock.get(side).clone(), self.moved.get(side).clone()));
        }
        Some((
            self.stock_wheelhouses.get(side).at(angle)?,
            self.wheelhouses.get(side).at(angle)?,
        ))
    }

    /// What the section at `angle` shows of one side's wheel in `pose`: exact sections of tire and wheel, wherever
    /// the axle stands to the plane.
    #[must_use]
    pub fn wheel_section(&self, side: Side, pose: Pose, angle: f64) -> WheelSection {
        let plane = Plane::new(self.motion.at(pose), angle);
        let solids = self.solids.get(side);
        let [tire_top, _] = plane.cut(&solids.tire, &solids.tire.chain);
        let [_, tire_bottom] = match self.pressed_in(angle) {
            Some(chain) => plane.cut(&solids.tire, &chain),
            None => plane.cut(&solids.tire, &solids.tire.chain),
        };
        let out = self.car.axle.width / 2.0;
        let at = |along: f64| plane.seen(side, out, along);
        let radius = self.car.axle.flange_diameter / 2.0;
        WheelSection {
            tire_top,
            tire_bottom,
            wheel: joined(plane.cut(&solids.wheel, &solids.wheel.chain)),
            flange: [at(-radius), at(radius)],
            hub: at(0.0),
        }
    }

    /// The frame rail in the section at `angle`, between its outboard and its inboard face: from where to where it
    /// runs along the plane, mm. The rail is cut off where its profile ends.
    #[must_use]
    pub fn rail_section(&self, side: Side, angle: f64) -> Vec<[f64; 2]> {
        let (edge, height) = self.rails.get(side).profile();
        let lower = edge.iter().map(|p| vec2(p.x, p.z));
        let upper = edge.iter().rev().map(|p| vec2(p.x, p.z + height));
        let outline: Vec<Vec2> = lower.chain(upper).collect();
        let along = vec2(math::sin(angle), math::cos(angle));
        let mut crossings: Vec<f64> = (0..outline.len())
            .filter_map(|i| {
                let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
                let (da, db) = (along.cross(a), along.cross(b));
                ((da < 0.0) != (db < 0.0)).then(|| a.lerp(b, da / (da - db)).dot(along))
            })
            .collect();
        order::sort_by(&mut crossings, f64::total_cmp);
        crossings
            .chunks_exact(2)
            .map(|ends| [ends[0], ends[1]])
            .collect()
    }

    /// How far out the rail's faces stand: inboard and outboard, mm.
    #[must_use]
    pub fn rail_faces_out(&self, side: Side) -> [f64; 2] {
        let face = self.rails.get(side).face;
        [face - RAIL_WIDTH, face]
    }

    /// All the room one side's tire takes through travel in the section at `angle`, and the same grown by `margin` mm:
    /// at once straight up, by [`Model::begin_envelope`] elsewhere.
    #[must_use]
    pub fn envelope_section(&self, side: Side, margin: f64, angle: f64) -> EnvelopeSection {
        if angle.abs() >= STRAIGHT_UP {
            let mut work = self.begin_envelope(side, margin, angle);
            return work.step(u32::MAX).unwrap_or_default();
        }
        let corners = Poses::new(self.motion, self.pose_domain()).corners();
        let solids = self.given.get(side);
        let [outline, margin] = envelope::outlines(
            &self.motion,
            &corners,
            &[&solids.tire, &solids.wheel],
            [0.0, margin],
        );
        EnvelopeSection { outline, margin }
    }

    /// Begins the work of both sides.
    #[must_use]
    pub fn begin_envelopes(&self, margin: f64, angle: f64) -> EnvelopesWork {
        EnvelopesWork::new(Sides::each(|side| self.begin_envelope(side, margin, angle)))
    }

    /// Begins the same work, to be done in slices: away from straight up it takes several milliseconds.
    #[must_use]
    pub fn begin_envelope(&self, side: Side, margin: f64, angle: f64) -> EnvelopeWork {
        let solids = self.given.get(side);
        EnvelopeWork::new(
            Poses::new(self.motion, self.pose_domain()),
            [solids.tire.clone(), solids.wheel.clone()],
            margin,
            angle,
        )
    }

    /// The meridian where the section at `angle` cuts the tire's contact patch: it is pressed in less toward the
    /// patch's ends. Nothing where the plane passes beside the patch.
    fn pressed_in(&self, angle: f64) -> Option<Chain> {
        if angle.abs() < STRAIGHT_UP {
            return Some(self.loaded.chain.clone());
        }
        let radius = self.tire.inputs.diameter / 2.0;
        let to_ground = (radius - self.deflection) / math::cos(angle);
        if !(0.0..radius).contains(&to_ground) {
            return None;
        }
        load::loaded(&self.tire, radius - to_ground)
            .ok()
            .map(|shape| shape.chain)
    }
}

/// A section's plane, as the axle sees it.
struct Plane {
    placement: Placement<f64>,
    /// Along the plane, car frame.
    along: Vec3,
    /// Normal of the plane, axle's frame.
    normal: Vec3,
    /// `normal . q` on the plane.
    offset: f64,
    /// Along the plane and square to the axle, axle's frame `(forward, up)`.
    upward: Vec2,
}

impl Plane {
    fn new(placement: Placement<f64>, angle: f64) -> Self {
        let (sin, cos) = (math::sin(angle), math::cos(angle));
        let turned =
            |v: Vec3| placement.axle_from_body(v) - placement.axle_from_body(Vec3::default());
        let (along, across) = (vec3(sin, 0.0, cos), vec3(cos, 0.0, -sin));
        let upward = turned(along);
        let upward = vec2(upward.x, upward.z);
        let length = upward.length();
        Self {
            normal: turned(across),
            // The plane holds the body's origin.
            offset: turned(across).dot(placement.axle_from_body(Vec3::default())),
            upward: if length > 0.0 {
                upward * (1.0 / length)
            } else {
                vec2(0.0, 1.0)
            },
            along,
            placement,
        }
    }

    /// A point of the axle's frame on the plane or before it, as seen along the plane's normal.
    fn in_view(&self, q: Vec3) -> Vec2 {
        let p = self.placement.body_from_axle(q);
        vec2(p.y, p.dot(self.along))
    }

    /// A point of the axle's frame `out` from its center and `along` the plane off its line, as seen.
    fn seen(&self, side: Side, out: f64, along: f64) -> Vec2 {
        let off = self.upward * along;
        self.in_view(vec3(off.x, side.sign() * out, off.y))
    }

    /// The two outlines that the plane cuts out of a meridian turned about the axle: above it and below it along the
    /// plane. The ring of each point of the meridian, `(a, r)`, meets the plane where `A cos(phi - phi0) = B` with
    /// `A = r |(n_x, n_z)|` and `B = d - n_y y(a)`; where `|B| > A` the plane misses it, and the outline closes.
    fn cut(&self, body: &Revolved, chain: &Chain) -> [Vec<Vec2>; 2] {
        let mut outline = fine(&chain.outline(SAGITTA));
        let reach = math::hypot(self.normal.x, self.normal.z);
        let middle = math::atan2(self.normal.x, self.normal.z);
        let level =
            |p: Vec2| self.offset - self.normal.y * body.side.sign() * (body.center_plane + p.x);
        let mut cuts = [Vec::new(), Vec::new()];
        let mut add = |p: Vec2| {
            let turn = math::acos(level(p) / (p.y * reach));
            let mut pair =
                [middle - turn, middle + turn].map(|phi| vec2(math::sin(phi), math::cos(phi)));
            if pair[0].dot(self.upward) < pair[1].dot(self.upward) {
                pair.swap(0, 1);
            }
            for (cut, direction) in cuts.iter_mut().zip(pair) {
                let y = body.side.sign() * (body.center_plane + p.x);
                cut.push(self.in_view(vec3(direction.x * p.y, y, direction.y * p.y)));
            }
        };
        // What is left of a ring's radius after the plane's distance; it changes evenly along a short piece.
        let spare = |p: Vec2| p.y * reach - level(p).abs();
        let enters = |pair: &[Vec2]| spare(pair[0]) < 0.0 && spare(pair[1]) >= 0.0;
        if let Some(first) = outline.windows(2).position(enters) {
            outline.rotate_left(first);
        }
        for (i, &p) in outline.iter().enumerate() {
            let next = outline[(i + 1) % outline.len()];
            let (here, there) = (spare(p), spare(next));
            if here >= 0.0 && p.y > 0.0 {
                add(p);
            }
            if (here < 0.0) != (there < 0.0) {
                let edge = p.lerp(next, here / (here - there));
                if edge.y > 0.0 {
                    add(edge);
                }
            }
        }
        cuts
    }
}

/// One outline of a body that the axle runs through: up one face and down the other.
fn joined([mut top, mut bottom]: [Vec<Vec2>; 2]) -> Vec<Vec2> {
    bottom.reverse();
    top.append(&mut bottom);
    top
}

/// The outline with points no further apart than [`LONGEST`].
fn fine(outline: &[Vec2]) -> Vec<Vec2> {
    let mut points = Vec::with_capacity(outline.len() * 2);
    for (i, &p) in outline.iter().enumerate() {
        let next = outline[(i + 1) % outline.len()];
        let pieces = ((next - p).length() / LONGEST).ceil().clamp(1.0, 64.0);
        let mut k = 0.0;
        while k < pieces {
            points.push(p.lerp(next, k / pieces));
            k += 1.0;
        }
    }
    points
}
