//! What is still open in a search, and what needed no further look.

use std::cmp::Ordering;

use crate::normals::{Normals, SECTORS};
use crate::space::{Vec2, Vec3};

/// The least bounds of what needed no further look, mm, by the sectors of the normals of their planes, in the meridian
/// plane whose first axis is positive to the left.
#[derive(Debug, Clone, Copy)]
pub(super) struct Discarded(pub [f64; SECTORS]);

impl Discarded {
    pub const NOTHING: Self = Self([f64::INFINITY; SECTORS]);

    pub fn add(&mut self, bound: f64, normals: Normals) {
        for sector in normals.sectors() {
            self.0[sector] = self.0[sector].min(bound);
        }
    }

    /// The least of all.
    pub fn least(&self) -> f64 {
        self.0.iter().copied().fold(f64::INFINITY, f64::min)
    }
}

/// A face, a solid and a part of the poses that may still hold the least gap.
#[derive(Debug, Clone, Copy)]
pub(super) struct Task {
    pub bound: f64,
    /// The normals of the plane that the bound comes from; any, where it comes from a distance alone, which changes by no
    /// more than the way moved.
    pub normals: Normals,
    /// Its place among the faces and their parts.
    pub face: usize,
    pub solid: usize,
    pub region: usize,
    pub point: Vec3,
    pub pose: Vec2,
    pub split: Split,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Split {
    Face,
    Poses { axis: usize },
}

impl Task {
    /// All poses and all of a face, to be begun from a guess.
    pub fn whole(face: usize, solid: usize, (point, pose): (Vec3, Vec2)) -> Self {
        Self {
            bound: f64::NEG_INFINITY,
            normals: Normals::ANY,
            face,
            solid,
            region: 0,
            point,
            pose,
            split: Split::Face,
        }
    }

    /// Takes a bound where it is better than what was known.
    pub fn raise(&mut self, bound: f64, normals: Normals) {
        if bound > self.bound {
            (self.bound, self.normals) = (bound, normals);
        }
    }
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
    /// The least bound comes first out of the queue.
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.total_cmp(&self.bound)
    }
}
