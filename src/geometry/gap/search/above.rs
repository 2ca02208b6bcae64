//! Whether a gap stays above a floor: most faces are told by one plane, and what that plane says goes on being true
//! as the wheel is shifted along its axle.

use std::collections::BinaryHeap;

use super::task::{Discarded, Task};
use super::{Found, Limits, Search};
use crate::gap::{Face, Poses, ROUNDING};
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3};

/// A gap below the floor by this much is no longer looked into, mm: it is known to be below, and where.
const ENOUGH: f64 = 0.02;

/// How far above the floor a search goes on while it is young, mm, and until how many boxes: what it finds then vouches
/// for the farther.
const AHEAD: f64 = 10.0;
const EAGER: usize = 6;

/// What is known of one face's gap against a floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Above {
    /// The gap is not below this, mm.
    pub low: f64,
    /// It is not above this, mm: attained with `point` in `pose` by the solid of this number.
    pub high: f64,
    /// What tells `low`, by the way that the planes face.
    pub told: [Told; 4],
    /// Which of the solids attains `high`.
    pub solid: usize,
    /// The point of the face, less its thickness, that attains it.
    pub point: Vec3,
    /// The wheels' heights in which it does, mm.
    pub pose: Vec2,
}

/// What planes that face about the same way tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// Where these planes are nearest, the gap is not below this, mm; endlessly much where there are none.
    pub low: f64,
    /// The least and the greatest outboard part of the planes. With the solids' center plane shifted outboard by `s` mm,
    /// and the same poses, the gap there is not below `low - most * s` where `s` is positive, and not below `low - least *
    /// s` where it is negative: in a plane's distance the shift is a term of its own.
    pub outboard: [f64; 2],
}

/// Whether the least gap of a face to solids of one side is at least `floor`, mm, over all poses. Where it is, `low` is
/// at least `floor` and says no more than what was cheap to know; where it is not, `high` is below it, unless the
/// search was capped. `guess` is where to begin: a point of the face and the wheels' heights. Nothing where there is no
/// solid, or where a corner or a pose is no finite number.
#[must_use]
pub fn certify_above(
    poses: &mut Poses,
    solids: &[&Revolved],
    face: &Face,
    guess: Option<(Vec3, Vec2)>,
    floor: f64,
    limits: Limits,
) -> Option<Above> {
    let side = solids.first()?.side.sign();
    if !face.corners().iter().all(|corner| corner.is_finite()) || !poses.are_finite() {
        return None;
    }
    let mut search = Search {
        poses,
        faces: vec![*face],
        found: Found {
            best: None,
            accuracy: limits.accuracy,
            below: floor + AHEAD,
        },
        discarded: Discarded::NOTHING,
        limits,
        queue: BinaryHeap::new(),
        examined: 0,
    };
    let mut guess = guess.unwrap_or_else(|| search.least_corner(solids[0], face));
    for solid in 0..solids.len() {
        search.examine(solids, Task::whole(0, solid, guess));
        guess = search
            .found
            .best
            .map_or(guess, |best| (best.point, best.pose));
    }
    while let Some(task) = search.queue.pop() {
        if search.examined > EAGER {
            search.found.below = floor;
        }
        let is_below = search
            .found
            .best
            .is_some_and(|best| best.distance < floor - ENOUGH);
        if is_below || task.bound >= search.found.enough() || search.examined >= limits.boxes {
            search.discarded.add(task.bound, task.across);
            break;
        }
        search.branch(solids, &task);
    }
    // What is still open has a bound as well.
    while let Some(task) = search.queue.pop() {
        search.discarded.add(task.bound, task.across);
    }
    let best = search.found.best?;
    let told = search.discarded.0.map(|facing| {
        let [least, most] = facing.across;
        Told {
            low: facing.least - ROUNDING,
            outboard: if side > 0.0 {
                [least, most]
            } else {
                [-most, -least]
            },
        }
    });
    Some(Above {
        low: search.discarded.least().min(best.distance) - ROUNDING,
        high: best.distance,
        told,
        solid: best.solid,
        point: best.point,
        pose: best.pose,
    })
}
