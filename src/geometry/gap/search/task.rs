//! What is still open in a search, and what needed no further look.

use std::cmp::Ordering;

use crate::space::{Vec2, Vec3};

/// The bounds of what needed no further look, by which way their planes face.
#[derive(Debug, Clone, Copy)]
pub(super) struct Discarded(pub [Facing; 4]);

/// The bounds from planes that face about the same way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Facing {
    /// The least of them, mm.
    pub least: f64,
    /// The least and the greatest part along the axle, positive to the left, of the planes that they come from.
    pub across: [f64; 2],
}

impl Discarded {
    pub const NOTHING: Self = Self(
        [Facing {
            least: f64::INFINITY,
            across: [f64::INFINITY, f64::NEG_INFINITY],
        }; 4],
    );

    pub fn add(&mut self, bound: f64, [least, most]: [f64; 2]) {
        /// From this part along the axle on a plane counts as facing sideways.
        const SIDEWAYS: f64 = 0.25;
        let Self([right, along, left, any]) = self;
        let facing = if most < -SIDEWAYS {
            right
        } else if least > SIDEWAYS {
            left
        } else if most - least < 1.0 {
            along
        } else {
            any
        };
        facing.least = facing.least.min(bound);
        facing.across = [facing.across[0].min(least), facing.across[1].max(most)];
    }

    /// The least of all.
    pub fn least(&self) -> f64 {
        self.0
            .iter()
            .map(|facing| facing.least)
            .fold(f64::INFINITY, f64::min)
    }
}

/// The part along the axle where no plane tells it: a distance alone changes by no more than the way moved.
pub(super) const ANY_WAY: [f64; 2] = [-1.0, 1.0];

/// A face, a solid and a part of the poses that may still hold the least gap.
#[derive(Debug, Clone, Copy)]
pub(super) struct Task {
    pub bound: f64,
    /// The part along the axle of the plane that the bound comes from, as [`Discarded`] has it.
    pub across: [f64; 2],
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
            across: ANY_WAY,
            face,
            solid,
            region: 0,
            point,
            pose,
            split: Split::Face,
        }
    }

    /// Takes a bound where it is better than what was known.
    pub fn raise(&mut self, bound: f64, across: [f64; 2]) {
        if bound > self.bound {
            (self.bound, self.across) = (bound, across);
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
