//! Branch and bound with nothing but the Lipschitz constant: sound, and hopeless.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use geometry::gap::Face;
use geometry::model::Model;
use geometry::space::{Vec2, vec2};

use crate::pieces::{Piece, pieces, reach};

/// How far a point near one wheel moves, at most, for each millimeter that the one or the other wheel moves: one whole
/// and a little roll of the locator.
const PER_WHEEL: f64 = 1.2;

/// Both ends of each surface's interval.
pub fn gaps(model: &Model, accuracy: f64, boxes: usize) -> Vec<f64> {
    let pieces = pieces(model);
    pieces
        .iter()
        .flat_map(|piece| gap(model, piece, accuracy, boxes))
        .collect()
}

/// A face and a box of poses.
struct Task {
    bound: f64,
    face: Face,
    middle: Vec2,
    half: Vec2,
}

impl PartialEq for Task {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Task {}

impl PartialOrd for Task {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Task {
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.total_cmp(&self.bound)
    }
}

fn gap(model: &Model, piece: &Piece, accuracy: f64, boxes: usize) -> [f64; 2] {
    let domain = model.pose_domain();
    let (center, half) = (
        f64::midpoint(domain.low, domain.high),
        (domain.high - domain.low) / 2.0,
    );
    let mut best = f64::INFINITY;
    let mut queue = BinaryHeap::new();
    let look =
        |face: Face, middle: Vec2, half: Vec2, best: &mut f64, queue: &mut BinaryHeap<Task>| {
            if (middle.x - middle.y).abs() - half.x - half.y > domain.apart {
                return;
            }
            let q = model
                .motion
                .placement(middle.x, middle.y)
                .axle_from_body(face.middle());
            let there = piece
                .solids
                .tire
                .distance(q)
                .min(piece.solids.wheel.distance(q))
                - face.radius;
            if (middle.x - middle.y).abs() <= domain.apart {
                *best = best.min(there);
            }
            let bound = there - reach(&face) - PER_WHEEL * (half.x + half.y);
            if bound < *best - accuracy {
                queue.push(Task {
                    bound,
                    face,
                    middle,
                    half,
                });
            }
        };
    for &face in &piece.faces {
        look(
            face,
            vec2(center, center),
            vec2(half, half),
            &mut best,
            &mut queue,
        );
    }
    for _ in 0..boxes {
        let Some(Task {
            bound,
            face,
            middle,
            half,
        }) = queue.pop()
        else {
            return [best - accuracy, best];
        };
        if bound >= best - accuracy {
            return [best - accuracy, best];
        }
        if reach(&face) > PER_WHEEL * half.x.max(half.y) {
            for part in face.halves() {
                look(part, middle, half, &mut best, &mut queue);
            }
        } else {
            let (step, half) = if half.x >= half.y {
                (vec2(half.x / 2.0, 0.0), vec2(half.x / 2.0, half.y))
            } else {
                (vec2(0.0, half.y / 2.0), vec2(half.x, half.y / 2.0))
            };
            look(face, middle - step, half, &mut best, &mut queue);
            look(face, middle + step, half, &mut best, &mut queue);
        }
    }
    [
        queue.peek().map_or(best - accuracy, |task| task.bound),
        best,
    ]
}
