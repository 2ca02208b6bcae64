//! Whether a gap stays above a floor: most faces are told by one plane, and what that plane says goes on being true
//! as the wheel is shifted along its axle.

use std::collections::BinaryHeap;

use super::task::{Discarded, Task};
use super::{Found, Limits, Search};
use crate::gap::{Face, Poses, ROUNDING};
use crate::normals::{self, SECTORS};
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3};

/// A gap below the floor by this much is no longer looked into, mm: it is known to be below, and where.
const ENOUGH: f64 = 0.02;

/// While a search is young, until so many boxes, it goes on to so far above the floor, mm, or so near to the least
/// distance found: what it finds then vouches for the farther.
const EAGER: usize = 6;
const AHEAD: f64 = 10.0;
const NEAR: f64 = 1.0;

/// What is known of one face's gap against a floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Above {
    /// The gap is not below this, mm.
    pub low: f64,
    /// It is not above this, mm: attained with `point` in `pose` by the solid of this number.
    pub high: f64,
    /// What tells `low`, by the sectors of the planes' normals in the meridian plane whose first axis is outboard: where
    /// such a plane is nearest, the gap is not below this, mm; endlessly much where there is none. It goes on being true
    /// of other sections and places of the wheel in the same poses, less what the section reaches farther along these
    /// normals ([`crate::chain::Chain::beyond`]) and what the shift takes ([`crate::normals::along`]): in a plane's
    /// distance the shift is a term of its own. A mixture of planes loses no more than that of them which loses most, so
    /// it counts in the sectors of all.
    pub told: [f64; SECTORS],
    /// Which of the solids attains `high`.
    pub solid: usize,
    /// The point of the face, less its thickness, that attains it.
    pub point: Vec3,
    /// The wheels' heights in which it does, mm.
    pub pose: Vec2,
}

/// A solid beside the one that is asked about first.
#[derive(Debug, Clone, Copy)]
pub struct Beside<'a> {
    /// The solid, on the same side and about the same center plane.
    pub solid: &'a Revolved,
    /// How much farther than the first it reaches, mm, as [`crate::chain::Chain::beyond`] tells it: what the first one's
    /// planes say less that holds for this one.
    pub farther: &'a [f64; SECTORS],
}

/// Whether the least gap of a face to solids of one side is at least `floor`, mm, over all poses. Where it is, `low` is
/// at least `floor` and says no more than what was cheap to know; where it is not, `high` is below it, unless the
/// search was capped. `guess` is where to begin: a point of the face and the wheels' heights. Nothing where a corner or a
/// pose is no finite number.
#[must_use]
pub fn certify_above(
    poses: &mut Poses,
    first: &Revolved,
    others: &[Beside],
    face: &Face,
    guess: Option<(Vec3, Vec2)>,
    floor: f64,
    limits: Limits,
) -> Option<Above> {
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
    // The sectors are told outboard; the search tells them to the left.
    let outboard = |k: usize| match first.side {
        Side::Left => k,
        Side::Right => normals::across(k),
    };
    let solids: Vec<&Revolved> = std::iter::once(first)
        .chain(others.iter().map(|other| other.solid))
        .collect();
    let mut guess = guess.unwrap_or_else(|| search.least_corner(first, face));
    for solid in 0..solids.len() {
        if solid > 0 {
            let farther = others[solid - 1].farther;
            let less = |k: usize| search.discarded.0[k] - farther[outboard(k)].max(0.0);
            let told: [f64; SECTORS] = std::array::from_fn(less);
            if told.iter().all(|low| *low >= floor) {
                search.discarded = Discarded(told);
                continue;
            }
        }
        search.examine(&solids, Task::whole(0, solid, guess));
        search.settle(&solids, floor);
        guess = search
            .found
            .best
            .map_or(guess, |best| (best.point, best.pose));
    }
    let best = search.found.best?;
    let told = std::array::from_fn(|k| search.discarded.0[outboard(k)] - ROUNDING);
    Some(Above {
        low: search.discarded.least().min(best.distance) - ROUNDING,
        high: best.distance,
        told,
        solid: best.solid,
        point: best.point,
        pose: best.pose,
    })
}

impl Search<'_> {
    /// Goes on until the gap is known to be above the floor, or to be below it.
    fn settle(&mut self, solids: &[&Revolved], floor: f64) {
        while let Some(task) = self.queue.pop() {
            let best = self.found.best.map_or(f64::INFINITY, |best| best.distance);
            let is_below = best < floor - ENOUGH;
            self.found.below = if self.examined > EAGER {
                floor
            } else {
                (best - NEAR).clamp(floor, floor + AHEAD)
            };
            if is_below || task.bound >= self.found.enough() || self.examined >= self.limits.boxes {
                self.discarded.add(task.bound, task.normals);
                break;
            }
            self.branch(solids, &task);
        }
        // What is still open has a bound as well.
        while let Some(task) = self.queue.pop() {
            self.discarded.add(task.bound, task.normals);
        }
    }
}
