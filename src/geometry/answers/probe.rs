//! One state of the car, asked how far it falls short of its targets, a demand at a time.

use super::Remedy;
use crate::body::{Station, SurfaceId};
use crate::car::Car;
use crate::check::ACCURACY;
use crate::field::Fault;
use crate::gap::{Gap, Limits, Poses};
use crate::model::{Model, SurfaceFaces};
use crate::order;
use crate::side::{Side, Sides};
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

/// A demand, and how far it is short, mm; negative where it is met.
pub(super) type Short = (Demand, f64);

/// How closely a shortfall is certified that is large, mm: all it needs is its upper end.
const FAR: f64 = 0.5;
/// How closely one is certified that is small, mm: closer than the gaps that are shown, so that it decides sooner.
const NEAR: f64 = 0.001;
/// How closely one is certified in search of where least is missing, mm.
const MIDDLE: f64 = 0.05;
/// The most boxes spent on one shortfall: its upper end is as good as true long before.
const BOXES: usize = 1_000;
/// How much better than the worst a demand is proved to be, mm, before it is let be: so much it may change until it has to
/// be looked at again.
const AHEAD: f64 = 25.0;
/// Where the gap list certifies to [`ACCURACY`], a gap that lies this much over its target meets it there too, mm.
const SURELY: f64 = ACCURACY + 1e-6;

/// A car's model with what is asked of it.
#[derive(Debug, Clone)]
pub(super) struct Probe {
    pub model: Model,
    travel: Poses,
    ride: Poses,
    surfaces: Sides<Vec<SurfaceFaces>>,
    ground: bool,
    far: f64,
}

impl Probe {
    /// The state of `car`. Without the `ground`, shortfalls leave the tire's section there out: they are then at most the
    /// true ones, and change no faster than [`super::Rates`] says even where sheet comes to count for it or ceases to.
    pub fn new(car: &Car, ground: bool) -> Result<Self, Vec<Fault>> {
        let model = Model::new(car)?;
        Ok(Self {
            travel: Poses::new(model.motion, model.pose_domain()),
            ride: Poses::at(model.motion, Pose::RIDE),
            surfaces: Sides::each(|side| model.faces(side)),
            model,
            ground,
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

    /// Whether the tire's section at the ground counts for a demand in the gap list, but not in its shortfall.
    fn has_more_at_the_ground(&self, demand: Demand) -> bool {
        let mut surfaces = self.surfaces.get(demand.side).iter();
        !self.ground && surfaces.any(|faces| faces.id == demand.id && !faces.low.is_empty())
    }

    /// All demands of these sides.
    fn demands(&self, sides: &[Side]) -> Vec<Demand> {
        let mut demands = Vec::new();
        for &side in sides {
            for faces in self.surfaces.get(side) {
                for when in [When::AtRide, When::ThroughTravel] {
                    demands.push(Demand {
                        side,
                        id: faces.id,
                        when,
                    });
                }
            }
        }
        demands
    }

    fn target(&self, demand: Demand) -> f64 {
        let targets = &self.model.car.targets;
        match demand.when {
            When::AtRide => targets.at_ride(demand.id.surface),
            When::ThroughTravel => targets.through_travel(demand.id.surface),
        }
    }

    /// A demand's gap, as far as it lies `below` so much.
    fn gap(&mut self, demand: Demand, ground: bool, limits: Limits, below: f64) -> Option<Gap> {
        let side = demand.side;
        let mut surfaces = self.surfaces.get_mut(side).iter_mut();
        let faces = surfaces.find(|faces| faces.id == demand.id)?;
        let (poses, solids, give) = match demand.when {
            When::AtRide => (&mut self.ride, self.model.solids.get(side), 0.0),
            When::ThroughTravel => (
                &mut self.travel,
                self.model.given.get(side),
                self.model.car.travel.give,
            ),
        };
        let kept = if ground {
            Vec::new()
        } else {
            std::mem::take(&mut faces.low)
        };
        let gap = faces.gap_below(poses, solids, give, limits, below);
        if !ground {
            faces.low = kept;
        }
        gap
    }

    /// The shortfall of one demand, mm: one never above the true one by more than rounding, and one never below it. No
    /// more is spent on one that is no worse than `than` by far.
    fn short_of(&mut self, demand: Demand, than: f64) -> Option<[f64; 2]> {
        let (target, ground, far) = (self.target(demand), self.ground, self.far);
        let mut certified = |accuracy: f64| {
            let limits = Limits {
                accuracy,
                boxes: BOXES,
            };
            let gap = self.gap(demand, ground, limits, target - than + AHEAD)?;
            Some([target - gap.high, target - gap.low])
        };
        let [least, most] = certified(far)?;
        if least > 2.0 * far || most <= than {
            Some([least, most])
        } else {
            certified(NEAR)
        }
    }

    /// How far a demand is short in the gap list, mm; nothing where it is surely met.
    fn listed(&mut self, demand: Demand) -> Option<f64> {
        let target = self.target(demand);
        let limits = Limits::accuracy(ACCURACY);
        let gap = self.gap(demand, true, limits, target + SURELY)?;
        if gap.low >= target + ACCURACY {
            return None;
        }
        let gap = self.gap(demand, true, limits, f64::INFINITY)?;
        Some(target - gap.low)
    }
}

/// What is found out about a state.
#[derive(Debug, Clone)]
pub(super) struct Finding {
    /// The state, to be asked again.
    pub probe: Probe,
    /// The worst proven shortfall; the true one is not less.
    pub proven: Option<Short>,
    /// Where that proves nothing: the worst in the gap list, unless every target is surely met.
    pub listed: Option<Short>,
    /// What the demands that were looked at are short by at most.
    pub known: Vec<Short>,
}

impl Finding {
    /// Whether it is proven to fall short.
    pub fn falls_short(&self) -> bool {
        self.proven.is_some_and(|(_, short)| short > 0.0)
    }

    /// Whether every target is met in the gap list.
    pub fn is_met(&self) -> bool {
        [self.proven, self.listed]
            .iter()
            .all(|short| short.is_none_or(|(_, short)| short <= 0.0))
    }
}

/// What is asked of a state, answered a demand at a time.
#[derive(Debug, Clone)]
pub(super) struct Question {
    found: Finding,
    /// What each demand is short by at most, from what is known of other states.
    at_most: Vec<Short>,
    /// The demands still to be looked at, likewise.
    waiting: Vec<Short>,
    asks: Asks,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Asks {
    /// For a proof, and where there is none for what the gap list says.
    Either,
    Proof,
    List,
}

impl Question {
    /// How far the state is proven to fall short on these sides; `at_most` tells what a demand is short by at most, from
    /// other states.
    pub fn proof(probe: Probe, sides: &[Side], at_most: impl Fn(Demand) -> f64) -> Self {
        let mut waiting: Vec<Short> = probe
            .demands(sides)
            .into_iter()
            .map(|demand| (demand, at_most(demand)))
            .collect();
        // The likely ones first: the last are popped first.
        order::sort_by(&mut waiting, |(_, a), (_, b)| a.total_cmp(b));
        Self {
            at_most: waiting.clone(),
            waiting,
            found: Finding {
                probe,
                proven: None,
                listed: None,
                known: Vec::new(),
            },
            asks: Asks::Proof,
        }
    }

    /// The same, and where nothing is proven, what the gap list says.
    pub fn either(probe: Probe, sides: &[Side], at_most: impl Fn(Demand) -> f64) -> Self {
        Self {
            asks: Asks::Either,
            ..Self::proof(probe, sides, at_most)
        }
    }

    /// What the gap list says of these sides.
    pub fn list(probe: Probe, sides: &[Side]) -> Self {
        Self {
            asks: Asks::List,
            ..Self::proof(probe, sides, |_| f64::INFINITY)
        }
    }

    /// Certifies one more demand; gives what was found with the last.
    pub fn step(&mut self) -> Option<Finding> {
        while let Some((demand, at_most)) = self.waiting.pop() {
            let found = &mut self.found;
            if self.asks == Asks::List {
                let short = found.probe.listed(demand);
                worsen(&mut found.listed, demand, short);
                return None;
            }
            // What is met is of no interest, however well.
            let than = found.proven.map_or(0.0, |(_, short)| short.max(0.0));
            // One is always looked at: a state is never left without a word on what bounds it.
            if found.proven.is_some() && at_most <= than {
                continue;
            }
            if let Some([least, most]) = found.probe.short_of(demand, than) {
                worsen(&mut found.proven, demand, Some(least));
                found.known.push((demand, most.min(at_most)));
            }
            return None;
        }
        if self.asks == Asks::Either && !self.found.falls_short() {
            self.waiting = std::mem::take(&mut self.at_most);
            let known = &self.found.known;
            self.waiting.retain(|(demand, at_most)| {
                let here = known.iter().find(|(known, _)| known == demand);
                let at_most = here.map_or(*at_most, |(_, most)| *most);
                at_most > -SURELY || self.found.probe.has_more_at_the_ground(*demand)
            });
            self.asks = Asks::List;
            return None;
        }
        Some(self.found.clone())
    }
}

fn worsen(worst: &mut Option<Short>, demand: Demand, short: Option<f64>) {
    if let Some(short) = short
        && worst.is_none_or(|(_, worst)| short > worst)
    {
        *worst = Some((demand, short));
    }
}
