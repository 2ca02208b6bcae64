//! All the room the tire ever takes, as an outline in the rear view.
//!
//! The outline of a moving convex section is made of the section's own outline in the extreme poses and
//! of the points where it slides along itself: on an arc, where the normal is square to the velocity of
//! the arc's center. Both are in closed form along any line of poses. The lines taken are the edges of
//! the pose box, where nearly all of the outline comes from, and a few across it, for the folds that a
//! track bar's arc makes; the upper envelope about the wheel's middle joins them. Whether it falls short
//! anywhere is for the certified gap to say ([`crate::gap`]).

use crate::chain::Chain;
use crate::motion::real::Series;
use crate::motion::{Motion, Placement};
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// Rays of the upper envelope over the half turn above the axle.
const RAYS: u32 = 360;
/// Poses sampled along one line of poses.
const STEPS: u32 = 16;
/// Lines of poses each way, the two edges included.
const LINES: u32 = 5;
/// How far the chords of a section's outline may stay inside it, mm.
const SAGITTA: f64 = 0.02;

/// The outline above the axle of everything that `bodies` cover, from inboard over the top to outboard:
/// `(left, up)` in the car's frame, mm. `corners` bound the poses, `margin` is added all round.
#[must_use]
pub fn outline(motion: &Motion, corners: &[Vec2], bodies: &[&Revolved], margin: f64) -> Vec<Vec2> {
    let Some(first) = bodies.first() else {
        return Vec::new();
    };
    let middle = vec2(first.side.sign() * first.center_plane, motion.ride);
    let mut rays = Rays::new(middle);
    for body in bodies {
        let chain = body.chain.grown(margin);
        let section = chain.outline(SAGITTA);
        for corner in corners {
            let placement = motion.placement(corner.x, corner.y);
            let mut placed: Vec<Vec2> = section
                .iter()
                .map(|&p| in_rear_view(&placement, in_axle(body, p)))
                .collect();
            placed.extend(placed.first().copied());
            rays.reach(&placed);
        }
        for (from, to) in lines(corners) {
            for contact in contacts(motion, body, &chain, from, to) {
                rays.reach(&contact);
            }
        }
    }
    let mut points = rays.points();
    if first.side == Side::Left {
        points.reverse();
    }
    points
}

/// A point of the section in the axle's frame, at the top of the wheel.
fn in_axle(body: &Revolved, p: Vec2) -> Vec3 {
    vec3(0.0, body.side.sign() * (body.center_plane + p.x), p.y)
}

fn in_rear_view(placement: &Placement<f64>, q: Vec3) -> Vec2 {
    let p = placement.body_from_axle(q);
    vec2(p.y, p.z)
}

/// The lines of poses along which the outline is looked for: the edges of the polygon, and lines across it.
fn lines(corners: &[Vec2]) -> Vec<(Vec2, Vec2)> {
    let mut lines: Vec<(Vec2, Vec2)> = corners
        .iter()
        .enumerate()
        .map(|(i, &a)| (a, corners[(i + 1) % corners.len()]))
        .filter(|(a, b)| a != b)
        .collect();
    if corners.len() < 3 {
        return lines;
    }
    let edges = lines.clone();
    for axis in [vec2(1.0, 0.0), vec2(0.0, 1.0)] {
        let heights = corners.iter().map(|corner| corner.dot(axis));
        let low = heights.clone().fold(f64::INFINITY, f64::min);
        let high = heights.fold(f64::NEG_INFINITY, f64::max);
        for k in 1..LINES - 1 {
            let at = low + (high - low) * f64::from(k) / f64::from(LINES - 1);
            let mut ends = edges.iter().filter_map(|&(a, b)| {
                let (da, db) = (a.dot(axis) - at, b.dot(axis) - at);
                ((da < 0.0) != (db < 0.0)).then(|| a.lerp(b, da / (da - db)))
            });
            if let (Some(a), Some(b)) = (ends.next(), ends.next()) {
                lines.push((a, b));
            }
        }
    }
    lines
}

/// The two curves, one on either side of the way it goes, in which the section touches its own envelope
/// along a line of poses.
fn contacts(
    motion: &Motion,
    body: &Revolved,
    chain: &Chain,
    from: Vec2,
    to: Vec2,
) -> [Vec<Vec2>; 2] {
    let mut curves = [Vec::new(), Vec::new()];
    let way = to - from;
    for k in 0..=STEPS {
        let pose = from + way * (f64::from(k) / f64::from(STEPS));
        let moving = motion.placement(Series::<f64>::first(pose.x), Series::<f64>::second(pose.y));
        let rate = |series: &Series<f64>| series.0[1] * way.x + series.0[2] * way.y;
        let (turn, turn_rate) = (
            values(&moving.turn),
            moving.turn.map(|row| row.map(|entry| rate(&entry))),
        );
        let (shift, shift_rate) = (
            moving.shift.map(|entry| entry.0[0]),
            moving.shift.map(|entry| rate(&entry)),
        );
        for (i, arc) in chain.arcs().iter().enumerate() {
            let center = in_axle(body, arc.center);
            let q = [
                center.x + shift[0],
                center.y + shift[1],
                center.z + shift[2],
            ];
            let column = |m: &[[f64; 3]; 3], j: usize, v: &[f64; 3]| {
                m[0][j] * v[0] + m[1][j] * v[1] + m[2][j] * v[2]
            };
            let at = vec2(column(&turn, 1, &q), column(&turn, 2, &q));
            let velocity = vec2(
                column(&turn_rate, 1, &q) + column(&turn, 1, &shift_rate),
                column(&turn_rate, 2, &q) + column(&turn, 2, &shift_rate),
            );
            let speed = velocity.length();
            if speed == 0.0 {
                continue;
            }
            for (curve, sign) in curves.iter_mut().zip([1.0, -1.0]) {
                let normal = vec2(-velocity.y, velocity.x) * (sign / speed);
                let across = body.side.sign() * (turn[1][1] * normal.x + turn[1][2] * normal.y);
                let meridian = vec2(across, turn[2][1] * normal.x + turn[2][2] * normal.y);
                if arc.from.cross(meridian) >= 0.0 && meridian.cross(chain.to(i)) >= 0.0 {
                    curve.push(at + normal * arc.radius);
                }
            }
        }
    }
    curves
}

fn values(turn: &[[Series<f64>; 3]; 3]) -> [[f64; 3]; 3] {
    turn.map(|row| row.map(|entry| entry.0[0]))
}

/// The farthest reach along each of many rays over the half turn above a point.
struct Rays {
    middle: Vec2,
    directions: Vec<Vec2>,
    reach: Vec<f64>,
}

impl Rays {
    fn new(middle: Vec2) -> Self {
        let direction =
            |k: u32| Vec2::at_angle(std::f64::consts::PI * f64::from(k) / f64::from(RAYS));
        let directions: Vec<Vec2> = (0..=RAYS).map(direction).collect();
        Self {
            middle,
            reach: vec![0.0; directions.len()],
            directions,
        }
    }

    fn reach(&mut self, polyline: &[Vec2]) {
        for ends in polyline.windows(2) {
            let (a, b) = (ends[0] - self.middle, ends[1] - self.middle);
            if a.y < 0.0 && b.y < 0.0 {
                continue;
            }
            let (a, b) = if a.cross(b) >= 0.0 { (a, b) } else { (b, a) };
            let place = |p: Vec2| f64::from(RAYS) * p.angle().max(0.0) / std::f64::consts::PI;
            let first = if a.y < 0.0 { 0.0 } else { place(a).ceil() };
            let last = if b.y < 0.0 {
                f64::from(RAYS)
            } else {
                place(b).floor()
            };
            let d = b - a;
            let mut k = first;
            while k <= last {
                // Both ends are within [0, RAYS], so the cast keeps the whole number.
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a whole number from 0 to RAYS"
                )]
                let index = k as usize;
                let ray = self.directions[index];
                let turn = ray.cross(d);
                let share = if turn == 0.0 {
                    1.0
                } else {
                    (-ray.cross(a) / turn).clamp(0.0, 1.0)
                };
                self.reach[index] = self.reach[index].max(ray.dot(a + d * share));
                k += 1.0;
            }
        }
    }

    fn points(&self) -> Vec<Vec2> {
        self.directions
            .iter()
            .zip(&self.reach)
            .map(|(&ray, &reach)| self.middle + ray * reach)
            .collect()
    }
}
