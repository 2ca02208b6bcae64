//! The sheet metal all round one wheel: the ring of sectors, and the wheelhouse unrolled.
//!
//! Both are computed in slices, so that whoever shows them can do so between frames: a [`RingWork`] or a [`MapWork`]
//! is begun from a model, does so much a call, and gives its answer once it is whole. It keeps what it needs of the
//! model, so that no slice can be of another state.

mod map;
mod ring;

pub use map::{MapWork, Node, Row, SheetMap};
pub use ring::{Ring, RingWork, Sector};

use crate::body::Station;
use crate::gap::{Gap, Limits, Poses};
use crate::model::{Model, Solids, SurfaceFaces};
use crate::side::Side;
use crate::space::Vec3;

/// How closely the gaps of ring and map are certified, mm: the page's accuracy.
pub const ACCURACY: f64 = 0.1;

/// What moves on one side: all poses, and tire and wheel with the axle's sideways give.
#[derive(Debug, Clone)]
struct Wheel {
    poses: Poses,
    solids: Solids,
    give: f64,
}

impl Wheel {
    fn new(model: &Model, side: Side) -> Self {
        Self {
            poses: Poses::new(model.motion, model.pose_domain()),
            solids: model.given.get(side).clone(),
            give: model.car.travel.give,
        }
    }

    fn gap(&mut self, faces: &SurfaceFaces) -> Option<Gap> {
        faces.gap(
            &mut self.poses,
            &self.solids,
            self.give,
            Limits::accuracy(ACCURACY),
        )
    }
}

/// The angles between which the sheet runs from one station to the next, radians; one of no width for a lone station.
fn sectors(stations: &[Station]) -> Vec<[f64; 2]> {
    match stations {
        [only] => vec![[only.angle; 2]],
        _ => stations
            .windows(2)
            .map(|pair| [pair[0].angle, pair[1].angle])
            .collect(),
    }
}

/// Angle of a point from straight up round the measured axle's line, radians, positive toward the front.
pub(crate) fn angle_of(point: Vec3) -> f64 {
    crate::math::atan2(point.x, point.z)
}
