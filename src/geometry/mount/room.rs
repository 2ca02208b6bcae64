//! The body as a tree of balls, and how near a placed wheel comes to it.
//!
//! The distance of tire and wheel is 1-Lipschitz, so over all of a ball it is no less than at the ball's middle less
//! its radius. On a piece of sheet the plane that touches the tire bounds better: it is least at a corner of the piece.
//! Balls that say too little are opened, pieces halved, until the bound is near enough to the least distance found.

use crate::body::SurfaceId;
use crate::gap::{Face, ROUNDING};
use crate::model::{Model, SurfaceFaces};
use crate::motion::Placement;
use crate::order;
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec3, vec3};

/// How near the bound comes to the distance: so many mm, or this share of it where that is more.
const NEAR: f64 = 0.25;
const SHARE: f64 = 0.15;
/// Pieces are not halved below this, mm.
const LEAST: f64 = 0.05;
/// As many balls are kept; beyond, pieces say what they can without being halved.
const MOST: usize = 150_000;

/// How near tire and wheel come to the body, mm, negative where they overlap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Clearance {
    /// Never above the true distance.
    pub low: f64,
    /// The distance at the spot.
    pub high: f64,
    /// The spot, car frame.
    pub spot: Vec3,
    /// Its surface, counted as in [`Room::surfaces`].
    pub surface: usize,
}

/// The body round one wheel.
#[derive(Debug, Clone)]
pub(super) struct Room {
    /// Tire and wheel.
    pub solids: [Revolved; 2],
    /// The surfaces.
    pub surfaces: Vec<SurfaceId>,
    balls: Vec<Ball>,
    root: usize,
    /// The piece that was nearest last: it is a good one to begin with.
    nearest: usize,
}

#[derive(Debug, Clone)]
struct Ball {
    middle: Vec3,
    radius: f64,
    piece: Option<(Face, usize)>,
    inner: Option<[usize; 2]>,
}

impl Room {
    pub fn new(model: &Model, side: Side) -> Self {
        let solids = model.solids.get(side);
        let surfaces = model.faces(side);
        let mut balls: Vec<Ball> = Vec::new();
        for (index, SurfaceFaces { faces, .. }) in surfaces.iter().enumerate() {
            balls.extend(faces.iter().map(|&face| Ball::of_piece(face, index)));
        }
        let mut room = Self {
            solids: [solids.tire.clone(), solids.wheel.clone()],
            surfaces: surfaces.iter().map(|surface| surface.id).collect(),
            root: 0,
            nearest: 0,
            balls,
        };
        let all: Vec<usize> = (0..room.balls.len()).collect();
        room.root = room.grouped(all);
        room
    }

    /// How far out the body reaches on `side` in an axle's frame, mm.
    pub fn outermost(&self, axle: &Placement<f64>, side: Side) -> f64 {
        let pieces = self.balls.iter().filter_map(|ball| ball.piece.as_ref());
        pieces
            .flat_map(|(face, _)| {
                let thick = face.radius + face.bend;
                let out = move |&p: &Vec3| side.sign() * axle.axle_from_body(p).y + thick;
                face.corners().iter().map(out)
            })
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// Puts a ball round all of `members`, and balls round each half of them inside it.
    fn grouped(&mut self, mut members: Vec<usize>) -> usize {
        if let [only] = members[..] {
            return only;
        }
        if members.is_empty() {
            self.balls.push(Ball::nowhere());
            return self.balls.len() - 1;
        }
        let along: [fn(Vec3) -> f64; 3] = [|p| p.x, |p| p.y, |p| p.z];
        let width = |of: fn(Vec3) -> f64| {
            let places = || members.iter().map(|&index| of(self.balls[index].middle));
            places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min)
        };
        let widest = along
            .into_iter()
            .max_by(|&a, &b| width(a).total_cmp(&width(b)))
            .unwrap_or(|p| p.x);
        order::sort_by(&mut members, |&a, &b| {
            widest(self.balls[a].middle).total_cmp(&widest(self.balls[b].middle))
        });
        let second = members.split_off(members.len() / 2);
        let inner = [self.grouped(members), self.grouped(second)];
        let round = Ball::round(&self.balls[inner[0]], &self.balls[inner[1]], inner);
        self.balls.push(round);
        self.balls.len() - 1
    }

    /// How near the wheel comes to the body when body points stand in its axle's frame by `placement`. Below
    /// `enough` it is not looked at more closely.
    pub fn clearance(&mut self, placement: &Placement<f64>, enough: f64) -> Clearance {
        let mut found = Clearance {
            low: f64::INFINITY,
            high: f64::INFINITY,
            spot: Vec3::default(),
            surface: 0,
        };
        self.bound(self.nearest, placement, &mut found);
        let all = self.bound(self.root, placement, &mut found);
        let mut open = vec![(self.root, all)];
        while let Some((index, low)) = open.pop() {
            if found.high < enough {
                found.low = found.low.min(low).min(found.high);
                continue;
            }
            let slack = (SHARE * found.high).max(NEAR);
            if low >= found.high - slack {
                found.low = found.low.min(low);
                continue;
            }
            let Some(inner) = self.opened(index) else {
                found.low = found.low.min(low);
                continue;
            };
            let [a, b] = inner.map(|index| (index, self.bound(index, placement, &mut found)));
            // The nearer one is looked at first: what it finds spares the other.
            open.extend(if a.1 < b.1 { [b, a] } else { [a, b] });
        }
        found
    }

    /// No point of the ball is nearer than this; the middle of a piece that is nearer than all before is kept.
    fn bound(&mut self, index: usize, placement: &Placement<f64>, found: &mut Clearance) -> f64 {
        let ball = &self.balls[index];
        let q = placement.axle_from_body(ball.middle);
        let Some((face, surface)) = &ball.piece else {
            let away = |body: &Revolved| body.distance(q);
            let [tire, wheel] = &self.solids;
            return away(tire).min(away(wheel)) - ball.radius;
        };
        let (mut low, mut here) = (f64::INFINITY, f64::INFINITY);
        for body in &self.solids {
            let (distance, support) = body.near(q);
            here = here.min(distance - face.radius);
            let mut bound = distance - ball.radius;
            // Toward the axle the body is not convex, and the plane is none of its bounds.
            if support.radial >= 0.0 {
                let n = support.normal;
                let [x, y, z] = [0, 1, 2].map(|k| {
                    n.x * placement.turn[0][k]
                        + n.y * placement.turn[1][k]
                        + n.z * placement.turn[2][k]
                });
                let normal = vec3(x, y, z);
                let least = face
                    .corners()
                    .iter()
                    .map(|&corner| normal.dot(corner - ball.middle))
                    .fold(f64::INFINITY, f64::min);
                bound = bound.max(distance + least - face.bend - face.radius);
            }
            low = low.min(bound);
        }
        if here < found.high {
            (found.high, found.spot, found.surface) = (here, ball.middle, *surface);
            self.nearest = index;
        }
        low
    }

    /// The two balls inside one; nothing where it is small enough, or enough is kept.
    fn opened(&mut self, index: usize) -> Option<[usize; 2]> {
        let ball = &self.balls[index];
        if ball.inner.is_some() {
            return ball.inner;
        }
        let (face, surface) = ball.piece?;
        if ball.radius - face.radius < LEAST || self.balls.len() >= MOST {
            return None;
        }
        let next = self.balls.len();
        self.balls
            .extend(face.halves().map(|half| Ball::of_piece(half, surface)));
        let inner = [next, next + 1];
        self.balls[index].inner = Some(inner);
        Some(inner)
    }
}

impl Ball {
    fn of_piece(face: Face, surface: usize) -> Self {
        let middle = face.middle();
        let away = |&corner: &Vec3| (corner - middle).length();
        let reach = face.corners().iter().map(away).fold(0.0, f64::max) + face.bend;
        Self {
            middle,
            radius: reach + face.radius,
            piece: Some((face, surface)),
            inner: None,
        }
    }

    /// What stands for a body of nothing: so far away that it says nothing.
    fn nowhere() -> Self {
        Self {
            middle: vec3(0.0, 0.0, 1e6),
            radius: 0.0,
            piece: None,
            inner: None,
        }
    }

    fn round(a: &Self, b: &Self, inner: [usize; 2]) -> Self {
        let between = b.middle - a.middle;
        let apart = between.length();
        let radius = f64::midpoint(apart, a.radius + b.radius)
            .max(a.radius)
            .max(b.radius)
            + ROUNDING;
        let share = if apart + b.radius <= a.radius || apart == 0.0 {
            0.0
        } else if apart + a.radius <= b.radius {
            1.0
        } else {
            (radius - a.radius) / apart
        };
        Self {
            middle: a.middle.lerp(b.middle, share),
            radius,
            piece: None,
            inner: Some(inner),
        }
    }
}
