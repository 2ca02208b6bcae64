//! The gap list: each surface's gap at ride height and through travel, and what to call it.

use std::cmp::Ordering;

use crate::body::SurfaceId;
use crate::gap::{Gap, Limits, Poses};
use crate::model::{Model, SurfaceFaces};
use crate::side::{Side, Sides};
use crate::travel::Pose;

/// How close the gaps of the page and of the reports are certified, mm: the same, so that they show the same numbers.
pub const ACCURACY: f64 = 0.01;

/// What a gap is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Verdict {
    /// The tire and the surface overlap.
    Hits,
    /// They do not touch, but the gap is below its target.
    Tight,
    /// The gap is at or above its target.
    Clears,
}

impl Verdict {
    /// The word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Hits => "hits",
            Verdict::Tight => "tight",
            Verdict::Clears => "clears",
        }
    }

    /// The verdict on one gap against its target, mm.
    #[must_use]
    pub fn of(gap: f64, target: f64) -> Self {
        if gap < 0.0 {
            Verdict::Hits
        } else if gap < target {
            Verdict::Tight
        } else {
            Verdict::Clears
        }
    }
}

/// One surface's gaps.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceCheck {
    /// Which surface.
    pub id: SurfaceId,
    /// What it is called: the surface's label, or the obstacle's own name.
    pub name: String,
    /// The gap with the car at rest at ride height.
    pub ride: Gap,
    /// The least gap through travel.
    pub travel: Gap,
    /// The gap asked for at ride height, mm.
    pub ride_target: f64,
    /// The gap asked for through travel, mm.
    pub travel_target: f64,
    /// The worse of the two verdicts.
    pub verdict: Verdict,
}

/// One side's surfaces, from the lip inward, then the obstacles.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SideCheck {
    /// The surfaces.
    pub surfaces: Vec<SurfaceCheck>,
}

impl SideCheck {
    /// The surface that stops the tire: the worst verdict, and among equals the least reserve over its target.
    #[must_use]
    pub fn worst(&self) -> Option<&SurfaceCheck> {
        self.surfaces.iter().min_by(|a, b| a.before(b))
    }
}

impl SurfaceCheck {
    /// The order in which surfaces stop a tire, the worst first.
    fn before(&self, other: &Self) -> Ordering {
        self.verdict
            .cmp(&other.verdict)
            .then(self.reserve().total_cmp(&other.reserve()))
    }

    /// How much gap there is over the target, at ride height or through travel, whichever is less, mm.
    #[must_use]
    pub fn reserve(&self) -> f64 {
        (self.ride.low - self.ride_target).min(self.travel.low - self.travel_target)
    }
}

/// The whole gap list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Check {
    /// Side by side.
    pub sides: Sides<SideCheck>,
}

impl Check {
    /// The worst verdict of all.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.sides
            .iter()
            .filter_map(|(_, side)| side.worst())
            .map(|surface| surface.verdict)
            .min()
            .unwrap_or(Verdict::Clears)
    }

    /// The surface that stops the tire, of both sides, and its side.
    #[must_use]
    pub fn worst(&self) -> Option<(Side, &SurfaceCheck)> {
        let worst = self
            .sides
            .iter()
            .filter_map(|(side, list)| Some((side, list.worst()?)));
        worst.min_by(|(_, a), (_, b)| a.before(b))
    }
}

/// The gaps of every surface, all round the wheel, certified to `accuracy` mm.
///
/// The time grows slowly with the accuracy asked for: 0.01 mm takes half as long again as 0.1 mm.
#[must_use]
pub fn check(model: &Model, accuracy: f64) -> Check {
    let mut travel = Poses::new(model.motion, model.pose_domain());
    let mut rest = Poses::at(model.motion, Pose::RIDE);
    let give = model.car.travel.give;
    let limits = Limits::accuracy(accuracy);
    let targets = &model.car.targets;
    let sides = Sides::each(|side| {
        let checked = model.faces(side).into_iter().filter_map(|faces| {
            let id = faces.id;
            let travel = faces.gap(&mut travel, model.given.get(side), give, limits)?;
            let ride = faces.gap(&mut rest, model.solids.get(side), 0.0, limits)?;
            let (ride_target, travel_target) = (
                targets.at_ride(id.surface),
                targets.through_travel(id.surface),
            );
            let verdict =
                Verdict::of(ride.low, ride_target).min(Verdict::of(travel.low, travel_target));
            Some(SurfaceCheck {
                id,
                name: model.name(id),
                ride,
                travel,
                ride_target,
                travel_target,
                verdict,
            })
        });
        SideCheck {
            surfaces: checked.collect(),
        }
    });
    Check { sides }
}

/// Each surface's gap all round the wheel at one pose, in the same order as [`check`] lists them, certified to `accuracy` mm.
#[must_use]
pub fn at_pose(model: &Model, pose: Pose, accuracy: f64) -> Sides<Vec<(SurfaceId, Gap)>> {
    let mut here = Poses::at(model.motion, pose);
    let limits = Limits::accuracy(accuracy);
    Sides::each(|side| {
        let gap = |faces: SurfaceFaces| {
            Some((
                faces.id,
                faces.gap(&mut here, model.solids.get(side), 0.0, limits)?,
            ))
        };
        model.faces(side).into_iter().filter_map(gap).collect()
    })
}
