//! All the room the tire ever takes, as an outline in the rear view.
//!
//! The outline of a moving convex section is made of the section's own outline in the extreme poses and
//! of the points where it slides along itself: on an arc, where the normal is square to the velocity of
//! the arc's center. Both are in closed form along any line of poses. The lines taken are the edges of
//! the pose box, where nearly all of the outline comes from, and a few across it, for the folds that a
//! track bar's arc makes; the upper envelope about the wheel's middle joins them. Whether it falls short
//! anywhere is for the certified gap to say ([`crate::gap`]).

mod swung;

pub use swung::{EnvelopeWork, EnvelopesWork};

use crate::chain::Chain;
use crate::motion::real::Rate;
use crate::motion::{Motion, Placement};
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// Rays of the upper envelope over the half turn above the axle.
const RAYS: u32 = 360;
/// Even steps along one line of poses.
const STEPS: u32 = 8;
/// How often a step is halved where the touch runs far along the section in it.
const HALVINGS: u32 = 5;
/// Cosine of how far the touch may run along the section in one step: 6 degrees.
const FAR: f64 = 0.9945;
/// Lines of poses each way, the two edges included.
const LINES: u32 = 5;
/// How far the chords of a section's outline may stay inside it, mm.
const SAGITTA: f64 = 0.02;

/// All the room the tire takes, in one section: `(left, along)`, from the car's left to its right, mm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EnvelopeSection {
    /// Everything the tire covers through travel, on the upper side of the axle.
    pub outline: Vec<Vec2>,
    /// The same grown by a margin.
    pub margin: Vec<Vec2>,
}

/// The outlines above the axle of everything that `bodies` cover, grown by each of `margins` mm: from inboard over the
/// top to outboard on the right, the other way on the left; `(left, up)` in the car's frame, mm. `corners` bound the poses.
#[must_use]
pub fn outlines<const N: usize>(
    motion: &Motion,
    corners: &[Vec2],
    bodies: &[&Revolved],
    margins: [f64; N],
) -> [Vec<Vec2>; N] {
    let Some(first) = bodies.first() else {
        return std::array::from_fn(|_| Vec::new());
    };
    let middle = vec2(first.side.sign() * first.center_plane, motion.ride);
    let mut rays: [Rays; N] = std::array::from_fn(|_| Rays::new(middle));
    let placements: Vec<Placement<f64>> = corners
        .iter()
        .map(|corner| motion.placement(corner.x, corner.y))
        .collect();
    let lines = lines(corners);
    for (rays, margin) in rays.iter_mut().zip(margins) {
        for body in bodies {
            let chain = body.chain.grown(margin);
            let section = chain.outline(SAGITTA);
            for placement in &placements {
                let mut placed: Vec<Vec2> = section
                    .iter()
                    .map(|&p| in_rear_view(placement, in_axle(body, p)))
                    .collect();
                placed.extend(placed.first().copied());
                rays.reach(&placed);
            }
            for &(from, to) in &lines {
                let contacts = Contacts {
                    motion,
                    body,
                    chain: &chain,
                    from,
                    way: to - from,
                };
                contacts.follow(&mut |a, b| rays.reach_segment(a, b));
            }
        }
    }
    rays.map(|rays| {
        let mut points = rays.points();
        if first.side == Side::Left {
            points.reverse();
        }
        points
    })
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

/// The axle in one pose on a line of poses, in the rear view: where a point of its frame is and how it moves.
struct Moving {
    turn: [[f64; 3]; 3],
    turn_rate: [[f64; 3]; 3],
    shift: [f64; 3],
    shift_rate: [f64; 3],
}

impl Moving {
    /// The axle in `pose`, on a way of poses that runs along `way`.
    fn new(motion: &Motion, pose: Vec2, way: Vec2) -> Self {
        let rate = |value: f64, rate: f64| Rate { value, rate };
        let Placement { turn, shift } = motion.placement(rate(pose.x, way.x), rate(pose.y, way.y));
        Self {
            turn: turn.map(|row| row.map(|entry| entry.value)),
            turn_rate: turn.map(|row| row.map(|entry| entry.rate)),
            shift: shift.map(|entry| entry.value),
            shift_rate: shift.map(|entry| entry.rate),
        }
    }

    /// Place and velocity of a point of the axle's frame, `(left, up)`.
    fn point(&self, p: Vec3) -> (Vec2, Vec2) {
        let q = [
            p.x + self.shift[0],
            p.y + self.shift[1],
            p.z + self.shift[2],
        ];
        let column = |m: &[[f64; 3]; 3], j: usize, v: &[f64; 3]| {
            m[0][j] * v[0] + m[1][j] * v[1] + m[2][j] * v[2]
        };
        let velocity =
            |j: usize| column(&self.turn_rate, j, &q) + column(&self.turn, j, &self.shift_rate);
        (
            vec2(column(&self.turn, 1, &q), column(&self.turn, 2, &q)),
            vec2(velocity(1), velocity(2)),
        )
    }

    /// A direction of the meridian plane of one side's wheel in the rear view.
    fn rear_view(&self, side: Side, direction: Vec2) -> Vec2 {
        let column =
            |j: usize| self.turn[1][j] * side.sign() * direction.x + self.turn[2][j] * direction.y;
        vec2(column(1), column(2))
    }

    /// A direction of the rear view in the meridian plane of one side's wheel.
    fn meridian(&self, side: Side, direction: Vec2) -> Vec2 {
        let row = |i: usize| self.turn[i][1] * direction.x + self.turn[i][2] * direction.y;
        vec2(side.sign() * row(1), row(2))
    }
}

/// Where one arc of a section, or the straight line after it, touches its own envelope in one pose.
#[derive(Clone, Copy)]
struct Touch {
    /// Outward normal in the meridian plane, which tells where on the section it is.
    meridian: Vec2,
    /// The point in the rear view.
    point: Vec2,
}

/// The curves in which a section touches its own envelope along a line of poses.
struct Contacts<'a> {
    motion: &'a Motion,
    body: &'a Revolved,
    chain: &'a Chain,
    from: Vec2,
    way: Vec2,
}

impl Contacts<'_> {
    /// Gives each piece of the curves to `reach`.
    fn follow(&self, reach: &mut impl FnMut(Vec2, Vec2)) {
        let share = |k: u32| f64::from(k) / f64::from(STEPS);
        let mut before = self.touches(0.0);
        for k in 1..=STEPS {
            let after = self.touches(share(k));
            self.between(&before, &after, (share(k - 1), share(k)), HALVINGS, reach);
            before = after;
        }
    }

    /// The pieces between two shares of the way, by halves where a touch runs far along the section or passes from
    /// one arc to the next.
    fn between(
        &self,
        before: &[Option<Touch>],
        after: &[Option<Touch>],
        (start, end): (f64, f64),
        halvings: u32,
        reach: &mut impl FnMut(Vec2, Vec2),
    ) {
        let changes = before
            .iter()
            .zip(after)
            .any(|(before, after)| match (before, after) {
                (Some(before), Some(after)) => before.meridian.dot(after.meridian) < FAR,
                (None, None) => false,
                _ => true,
            });
        if changes && halvings > 0 {
            let middle = f64::midpoint(start, end);
            let touches = self.touches(middle);
            self.between(before, &touches, (start, middle), halvings - 1, reach);
            self.between(&touches, after, (middle, end), halvings - 1, reach);
            return;
        }
        let count = before.len();
        for (i, touch) in before.iter().enumerate() {
            let Some(touch) = touch else { continue };
            // A touch that has left its arc is found on a neighbor.
            let follower = [i, (i + 1) % count, (i + count - 1) % count]
                .into_iter()
                .find_map(|k| after[k]);
            if let Some(follower) = follower {
                reach(touch.point, follower.point);
            }
        }
    }

    /// The touches at a share of the way, if any: of each arc, and of the straight line after each.
    fn touches(&self, share: f64) -> Vec<Option<Touch>> {
        let moving = Moving::new(self.motion, self.from + self.way * share, self.way);
        let side = self.body.side;
        let arcs = self.chain.arcs();
        let mut touches = vec![None; 2 * arcs.len()];
        for (i, arc) in arcs.iter().enumerate() {
            let (at, velocity) = moving.point(in_axle(self.body, arc.center));
            let speed = velocity.length();
            for sign in [1.0, -1.0] {
                let normal = vec2(-velocity.y, velocity.x) * (sign / speed);
                let meridian = moving.meridian(side, normal);
                if arc.from.cross(meridian) >= 0.0 && meridian.cross(self.chain.to(i)) >= 0.0 {
                    touches[2 * i] = Some(Touch {
                        meridian,
                        point: at + normal * arc.radius,
                    });
                }
            }
            // On the straight line to the next arc the section slides along itself where the speed across it vanishes.
            let next = &arcs[(i + 1) % arcs.len()];
            let (next_at, next_velocity) = moving.point(in_axle(self.body, next.center));
            let normal = moving.rear_view(side, next.from);
            let (here, there) = (normal.dot(velocity), normal.dot(next_velocity));
            if (here < 0.0) != (there < 0.0) {
                let (from, to) = (at + normal * arc.radius, next_at + normal * next.radius);
                touches[2 * i + 1] = Some(Touch {
                    meridian: next.from,
                    point: from.lerp(to, here / (here - there)),
                });
            }
        }
        touches
    }
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
            self.reach_segment(ends[0], ends[1]);
        }
    }

    fn reach_segment(&mut self, from: Vec2, to: Vec2) {
        let (a, b) = (from - self.middle, to - self.middle);
        if a.y < 0.0 && b.y < 0.0 {
            return;
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
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number from 0 to RAYS"
            )]
            let index = k as usize;
            let ray = self.directions[index];
            let turn = ray.cross(d);
            let share = if turn.abs() > 0.0 {
                (-ray.cross(a) / turn).clamp(0.0, 1.0)
            } else {
                1.0
            };
            self.reach[index] = self.reach[index].max(ray.dot(a + d * share));
            k += 1.0;
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
