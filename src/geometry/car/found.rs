//! Gaps found with the mock-up.

use super::Car;
use crate::body::{Surface, SurfaceId};
use crate::field::{Bound, Quantity};
use crate::side::Side;
use crate::travel::Pose;

/// A gap found with the mock-up. It stands in the car's file, and no gap is computed from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoundGap {
    /// The side.
    pub side: Side,
    /// To which surface.
    pub id: SurfaceId,
    /// In which pose.
    pub pose: Pose,
    /// The gap that was found, mm; a hit is a minus.
    pub gap: f64,
}

impl FoundGap {
    /// What the gap may be.
    pub const GAP: Bound = Bound {
        key: "found.gap",
        label: "Gap found",
        help: "From the surface to a straightedge across two discs of the mock-up; a hit is a minus.",
        quantity: Quantity::Length,
        least: -200.0,
        most: 600.0,
        usual: None,
    };

    /// What each number of the pose may be: how far the left and the right wheel are up and the axle is to the left.
    pub const POSE: Bound = Bound {
        key: "found.pose",
        label: "Pose",
        help: "How far the left wheel and the right wheel are above ride height, and how far the axle is pushed to the left.",
        quantity: Quantity::Length,
        least: -250.0,
        most: 250.0,
        usual: None,
    };
}

impl Car {
    /// Takes away a part bolted nearby, and the gaps that were found to it.
    pub fn remove_obstacle(&mut self, place: usize) {
        self.obstacles.remove(place);
        let is_of = |one: &FoundGap| one.id.surface == Surface::Obstacle;
        self.found
            .retain(|one| !(is_of(one) && one.id.index == place));
        // Those behind it move up.
        for one in self.found.iter_mut().filter(|one| is_of(one)) {
            if one.id.index > place {
                one.id.index -= 1;
            }
        }
    }
}
