//! The positions in which a mock-up is tried, each with the gaps that are to be found in it.

use geometry::body::{Surface, SurfaceId};
use geometry::check::{Verdict, at_pose};
use geometry::gap::Gap;
use geometry::math;
use geometry::metal::MockUp;
use geometry::metal::mock_up::poses;
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::travel::Pose;
use geometry::units::Notation;

use crate::words::{bearing, gap_words};

/// How close the predicted gaps are certified, mm.
const ACCURACY: f64 = 0.1;

/// One position of the axle.
#[derive(Debug, Clone, PartialEq)]
pub struct Position {
    /// What it is called.
    pub name: &'static str,
    /// Where the wheels stand.
    pub pose: Pose,
    /// What is to be found in it.
    pub rows: Vec<PositionRow>,
}

/// One surface in one position.
#[derive(Debug, Clone, PartialEq)]
pub struct PositionRow {
    /// The surface.
    pub id: SurfaceId,
    /// What it is called on this car.
    pub name: String,
    /// The gap from the mock-up that is predicted, with its verdict and where it is; nothing on a side that has no such surface.
    pub predicted: Sides<Option<String>>,
}

/// Every position, in the order in which they are tried.
#[must_use]
pub fn mock_up_positions(model: &Model, mock_up: &MockUp, notation: Notation) -> Vec<Position> {
    let stand_in = mock_up.under(model);
    let positions = poses(model).into_iter();
    positions
        .map(|(name, pose)| {
            let lists = at_pose(&stand_in, pose, ACCURACY);
            let mut surfaces: Vec<SurfaceId> = Vec::new();
            for (id, _) in lists.left.iter().chain(&lists.right) {
                if !surfaces.contains(id) {
                    surfaces.push(*id);
                }
            }
            let row = |id: SurfaceId| PositionRow {
                id,
                name: model.name(id),
                predicted: Sides::each(|side: Side| {
                    let (_, gap) = lists.get(side).iter().find(|(of, _)| *of == id)?;
                    Some(predicted(model, id, pose, gap, notation))
                }),
            };
            Position {
                name,
                pose,
                rows: surfaces.into_iter().map(row).collect(),
            }
        })
        .collect()
}

/// A predicted gap, judged by the target that its position has, and where round the wheel it is.
fn predicted(model: &Model, id: SurfaceId, pose: Pose, gap: &Gap, notation: Notation) -> String {
    let targets = &model.car.targets;
    let target = if pose == Pose::RIDE {
        targets.at_ride(id.surface)
    } else {
        targets.through_travel(id.surface)
    };
    let words = gap_words(gap.low, Verdict::of(gap.low, target), notation);
    // A rail goes along the car: it is as near all the way past the tire.
    if id.surface == Surface::FrameRail {
        return words;
    }
    let spot = gap.witness.at_body;
    format!("{words}, {}", bearing(math::atan2(spot.x, spot.z)))
}
