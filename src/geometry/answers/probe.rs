//! One state of the car, asked how far it falls short of its targets.

use super::Remedy;
use crate::body::{Station, SurfaceId};
use crate::car::Car;
use crate::check::{ACCURACY, Check, check};
use crate::field::Fault;
use crate::gap::{Limits, Poses};
use crate::model::{Model, SurfaceFaces};
use crate::side::Side;
use crate::travel::Pose;

/// When a gap is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum When {
    /// At rest at ride height.
    AtRide,
    /// Anywhere through travel.
    ThroughTravel,
}

/// One target that has to be met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Demand {
    /// Of which side.
    pub side: Side,
    /// Of which surface.
    pub id: SurfaceId,
    /// At ride height or through travel.
    pub when: When,
}

/// How closely a shortfall is certified that is large, mm: all it needs is its upper end.
const FAR: f64 = 0.5;
/// How closely one is certified that is small, mm: closer than the gaps that are shown, so that it decides sooner.
const NEAR: f64 = 0.001;
/// How closely one is certified in search of where least is missing, mm.
const MIDDLE: f64 = 0.05;
/// The most boxes spent on one shortfall: its upper end is as good as true long before.
const BOXES: usize = 4_000;

/// A car's model with what is asked of it.
pub(super) struct Probe {
    pub model: Model,
    travel: Poses,
    ride: Poses,
    surfaces: Vec<(Side, SurfaceFaces)>,
    far: f64,
}

impl Probe {
    /// The state of `car`, of which the surfaces of `sides` count. Without the `ground`, the tire's section there is left
    /// out: shortfalls are then at most the true ones, and change no faster than [`super::Rates`] says even where sheet
    /// comes to count for it or ceases to.
    pub fn new(car: &Car, sides: &[Side], ground: bool) -> Result<Self, Vec<Fault>> {
        let model = Model::new(car)?;
        let mut surfaces = Vec::new();
        for &side in sides {
            for mut faces in model.faces(side) {
                if !ground {
                    faces.low.clear();
                }
                surfaces.push((side, faces));
            }
        }
        Ok(Self {
            travel: Poses::new(model.motion, model.pose_domain()),
            ride: Poses::at(model.motion, Pose::RIDE),
            model,
            surfaces,
            far: FAR,
        })
    }

    /// The same, with large shortfalls certified more closely than it takes to step on.
    pub fn closely(self) -> Self {
        Self {
            far: MIDDLE,
            ..self
        }
    }

    /// Whether the ground's section changes with a remedy no faster than its rate says.
    pub fn ground_counts(remedy: Remedy) -> bool {
        matches!(
            remedy,
            Remedy::Seam(_) | Remedy::Backspacing | Remedy::TrackWidth
        )
    }

    /// Whether a demand's gap is the same whatever the remedy's value.
    pub fn stands_still(&self, remedy: Remedy, demand: Demand) -> bool {
        let before_the_seam = |station: &Station| {
            let last = station
                .spans
                .iter()
                .rposition(|&surface| surface == demand.id.surface);
            last.is_none_or(|last| last < station.seam)
        };
        match remedy {
            Remedy::Bump => demand.when == When::AtRide,
            Remedy::Seam(side) => self
                .model
                .stock_wheelhouses
                .get(side)
                .stations
                .iter()
                .all(before_the_seam),
            _ => false,
        }
    }

    /// The shortfall of one demand, mm, never above the true one by more than rounding; negative where it is met.
    pub fn short_of(&mut self, demand: Demand) -> Option<f64> {
        let (_, faces) = self
            .surfaces
            .iter()
            .find(|(side, faces)| *side == demand.side && faces.id == demand.id)?;
        let targets = &self.model.car.targets;
        let mut certified = |accuracy: f64| {
            let limits = Limits {
                accuracy,
                boxes: BOXES,
            };
            let (target, gap) = match demand.when {
                When::AtRide => (
                    targets.at_ride(demand.id.surface),
                    faces.gap(
                        &mut self.ride,
                        self.model.solids.get(demand.side),
                        0.0,
                        limits,
                    )?,
                ),
                When::ThroughTravel => (
                    targets.through_travel(demand.id.surface),
                    faces.gap(
                        &mut self.travel,
                        self.model.given.get(demand.side),
                        self.model.car.travel.give,
                        limits,
                    )?,
                ),
            };
            Some((target - gap.high, target - gap.low))
        };
        let (least, most) = certified(self.far)?;
        if least > 2.0 * self.far || most < 0.0 {
            Some(least)
        } else {
            certified(NEAR).map(|(least, _)| least)
        }
    }

    /// The worst shortfall of all demands, with whose it is.
    pub fn worst(&mut self) -> Option<(Demand, f64)> {
        let demands: Vec<Demand> = self
            .surfaces
            .iter()
            .flat_map(|(side, faces)| {
                [When::ThroughTravel, When::AtRide].map(|when| Demand {
                    side: *side,
                    id: faces.id,
                    when,
                })
            })
            .collect();
        let short = |demand| Some((demand, self.short_of(demand)?));
        demands
            .into_iter()
            .filter_map(short)
            .max_by(|(_, a), (_, b)| a.total_cmp(b))
    }

    /// A shortfall that is more than `enough`, mm, that of `likely` first; else the worst.
    pub fn falls_short(&mut self, likely: Option<Demand>, enough: f64) -> Option<(Demand, f64)> {
        let first = likely.and_then(|demand| Some((demand, self.short_of(demand)?)));
        match first {
            Some((demand, short)) if short > enough => Some((demand, short)),
            _ => self.worst(),
        }
    }

    /// The gap list, certified as everywhere.
    pub fn check(&self) -> Check {
        check(&self.model, ACCURACY)
    }
}

/// The worst demand of the sides that count, and how far it is short in the certified gap list, mm; negative where all
/// targets are met.
pub(super) fn shortfall(check: &Check, sides: &[Side]) -> Option<(Demand, f64)> {
    let rows = sides.iter().flat_map(|&side| {
        check
            .sides
            .get(side)
            .surfaces
            .iter()
            .map(move |row| (side, row))
    });
    rows.flat_map(|(side, row)| {
        let demand = |when| Demand {
            side,
            id: row.id,
            when,
        };
        [
            (
                demand(When::ThroughTravel),
                row.travel_target - row.travel.low,
            ),
            (demand(When::AtRide), row.ride_target - row.ride.low),
        ]
    })
    .max_by(|(_, a), (_, b)| a.total_cmp(b))
}
