//! The gaps as both wheels rise together, from full droop to full bump.
//!
//! It is worked out a height at a time, so that whoever shows it can do so between frames. A [`SweepWork`] keeps what it
//! needs of the model, so that no height can be of another state.

use crate::body::SurfaceId;
use crate::gap::{Limits, Poses};
use crate::model::{Model, Solids, SurfaceFaces};
use crate::motion::Motion;
use crate::side::Side;
use crate::travel::Pose;

/// How closely the gaps are certified, mm: finer than a chart shows.
pub const ACCURACY: f64 = 0.1;

/// One surface's gap at each height.
#[derive(Debug, Clone, PartialEq)]
pub struct TravelCurve {
    /// Which surface.
    pub id: SurfaceId,
    /// What it is called.
    pub name: String,
    /// Pairs of travel (mm above ride height) and gap (mm).
    pub points: Vec<(f64, f64)>,
}

/// One side's curves being worked out.
#[derive(Debug, Clone)]
pub struct SweepWork {
    motion: Motion,
    solids: Solids,
    surfaces: Vec<SurfaceFaces>,
    curves: Vec<TravelCurve>,
    low: f64,
    step: f64,
    done: u32,
    heights: u32,
}

impl SweepWork {
    /// Begins the curves of one side at so many heights, at least two.
    #[must_use]
    pub fn begin(model: &Model, side: Side, heights: u32) -> Self {
        let surfaces = model.faces(side);
        let curve = |faces: &SurfaceFaces| TravelCurve {
            id: faces.id,
            name: model.name(faces.id),
            points: Vec::new(),
        };
        let domain = model.pose_domain();
        let heights = heights.max(2);
        Self {
            motion: model.motion,
            solids: model.solids.get(side).clone(),
            curves: surfaces.iter().map(curve).collect(),
            surfaces,
            low: domain.low,
            step: (domain.high - domain.low) / f64::from(heights - 1),
            done: 0,
            heights,
        }
    }

    /// Works out one more height; gives the curves with the last, in the order of the gap list.
    pub fn step(&mut self) -> Option<Vec<TravelCurve>> {
        if self.done < self.heights {
            let up = self.low + self.step * f64::from(self.done);
            let mut here = Poses::at(self.motion, Pose::heave(up));
            for (faces, curve) in self.surfaces.iter().zip(&mut self.curves) {
                let gap = faces.gap(&mut here, &self.solids, 0.0, Limits::accuracy(ACCURACY));
                curve.points.extend(gap.map(|gap| (up, gap.high)));
            }
            self.done += 1;
        }
        (self.done == self.heights).then(|| std::mem::take(&mut self.curves))
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Vec<TravelCurve> {
        loop {
            if let Some(curves) = self.step() {
                return curves;
            }
        }
    }
}
