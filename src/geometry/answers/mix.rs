//! The mix that cuts least: what needs no cutting first, then the smallest seam move, all in steps that can be bought or set.
//!
//! Every combination of steps within the preferences is either tried, or proved not to work by one that was tried: where a
//! side falls short by `d`, it does so in all combinations whose changes, each times its rate, add up to less than `d`.
//! What is left is taken in the order of preference, so the mix is the best one there is among these steps, but for what
//! the certified gaps leave open.

use super::probe::{Probe, shortfall};
use super::{Demand, Preferences, Rates, Remedy};
use crate::car::Car;
use crate::model::Model;
use crate::side::{Side, Sides};

/// A remedy of the mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// What is changed.
    pub remedy: Remedy,
    /// Its present value, mm.
    pub from: f64,
    /// Its value in the mix, mm.
    pub to: f64,
}

/// The mix that cuts least.
#[derive(Debug, Clone, PartialEq)]
pub enum Mix {
    /// All targets are met as the car stands.
    Nothing,
    /// These together bring every surface to its targets.
    Works(Vec<Change>),
    /// Nothing within the preferences does; the best that was tried is that short of this target, mm.
    Cannot(Option<(Demand, f64)>),
}

impl Mix {
    /// The same car with the mix on it, or as it is where there is none.
    #[must_use]
    pub fn applied(&self, car: &Car) -> Car {
        let mut changed = car.clone();
        if let Mix::Works(changes) = self {
            for change in changes {
                change.remedy.set(&mut changed, change.to);
            }
        }
        changed
    }
}

/// How many combinations are passed over at most before the caller has its turn.
const PASSED: usize = 64;
/// How much of the track width may change, as a share: the rates hold for a tenth.
const TRACK_SHARE: f64 = 0.09;

/// What a trial excludes that decided nothing, mm: itself.
const UNDECIDED: f64 = 1e-6;

/// A remedy with its values: the present one, then its steps.
#[derive(Debug, Clone)]
struct Dial {
    remedy: Remedy,
    values: Vec<f64>,
    rate: f64,
    /// Changed less gladly than the seam.
    last: bool,
}

/// A combination that falls short on one side, and how much.
#[derive(Debug, Clone)]
struct Shy {
    values: Vec<f64>,
    seam: f64,
    short: f64,
    /// Millimeters of gap a millimeter of seam.
    seam_rate: f64,
    /// Whether bump travel makes no difference.
    at_ride: bool,
}

/// The steps of one side's seam.
#[derive(Debug, Clone, Copy)]
struct Seam {
    present: f64,
    size: f64,
    most: f64,
}

#[derive(Debug, Clone)]
struct Best {
    combination: usize,
    seams: Sides<f64>,
    total: f64,
}

/// The mix being worked out.
#[derive(Debug, Clone)]
pub struct MixWork {
    car: Car,
    dials: Vec<Dial>,
    seams: Sides<Seam>,
    /// Indices into each dial's values, in the order of preference.
    combinations: Vec<Vec<usize>>,
    next: usize,
    shy: Sides<Vec<Shy>>,
    best: Option<Best>,
    nearest: Option<(Demand, f64)>,
    begun: bool,
    likely: Sides<Option<Demand>>,
}

impl MixWork {
    /// Begins the mix for one state.
    #[must_use]
    pub fn begin(model: &Model, preferences: &Preferences) -> Self {
        let car = &model.car;
        let cut = preferences
            .steps
            .iter()
            .position(|step| step.remedy.cuts())
            .unwrap_or(preferences.steps.len());
        let lifted = preferences.step(Remedy::RideHeight).map_or(0.0, |step| {
            step.most.min(Remedy::RideHeight.lever().bound().most)
        });
        let rates = Rates::new(model, lifted);
        let dial = |(place, step): (usize, &super::Step)| {
            let remedy = step.remedy;
            let most = preferences.most(step, car).min(match remedy {
                Remedy::Backspacing => TRACK_SHARE / 4.0 * car.track_width(),
                Remedy::TrackWidth => TRACK_SHARE / 2.0 * car.track_width(),
                _ => f64::INFINITY,
            });
            Dial {
                remedy,
                values: values(model, remedy, step.size, most),
                rate: rates.of(remedy),
                last: place > cut,
            }
        };
        let dials: Vec<Dial> = preferences
            .steps
            .iter()
            .enumerate()
            .filter(|(_, step)| !step.remedy.cuts() && step.most > 0.0 && step.size > 0.0)
            .map(dial)
            .collect();
        let seams = Sides::each(|side| {
            let present = car.sides.get(side).seam_move;
            let step = preferences.step(Remedy::Seam(side));
            let most = Remedy::Seam(side).range(model)[1];
            Seam {
                present,
                size: step.map_or(f64::INFINITY, |step| step.size),
                most: step.map_or(present, |step| most.min(present + step.most)),
            }
        });
        Self {
            car: car.clone(),
            combinations: combinations(&dials),
            dials,
            seams,
            next: 0,
            shy: Sides::default(),
            best: None,
            nearest: None,
            begun: false,
            likely: Sides::default(),
        }
    }

    /// Does one more trial, or passes over some combinations; gives the mix with the last.
    pub fn step(&mut self) -> Option<Mix> {
        if !self.begun {
            self.begun = true;
            let whole = Probe::new(&self.car, &Side::BOTH, false).ok()?.check();
            if shortfall(&whole, &Side::BOTH).is_none_or(|(_, short)| short <= 0.0) {
                return Some(Mix::Nothing);
            }
        }
        for _ in 0..PASSED {
            let Some(combination) = self.combinations.get(self.next) else {
                return Some(self.end());
            };
            if let Some(best) = &self.best {
                let uncut = best.total <= 0.0;
                if uncut
                    || self.level(combination) != self.level(&self.combinations[best.combination])
                {
                    return Some(self.end());
                }
            }
            let values = self.values(combination);
            let seams = Sides::each(|side| self.open_seam(side, &values));
            if let Sides {
                left: Some(left),
                right: Some(right),
            } = seams
            {
                let seams = Sides { left, right };
                let total = self.cut(&seams);
                if self.best.as_ref().is_none_or(|best| total < best.total) {
                    self.try_out(&values, seams, total);
                    return None;
                }
            }
            self.next += 1;
        }
        None
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Mix {
        loop {
            if let Some(mix) = self.step() {
                return mix;
            }
        }
    }

    fn end(&self) -> Mix {
        let Some(best) = &self.best else {
            return Mix::Cannot(self.nearest);
        };
        let values = self.values(&self.combinations[best.combination]);
        let dials = self
            .dials
            .iter()
            .zip(values)
            .map(|(dial, to)| (dial.remedy, to));
        let seams = best
            .seams
            .iter()
            .map(|(side, &to)| (Remedy::Seam(side), to));
        let change = |(remedy, to): (Remedy, f64)| Change {
            remedy,
            from: remedy.get(&self.car),
            to,
        };
        let changes = dials.chain(seams).map(change);
        Mix::Works(
            changes
                .filter(|change| (change.to - change.from).abs() > 0.0)
                .collect(),
        )
    }

    /// How far the dials are turned that are turned less gladly than the seam.
    fn level(&self, combination: &[usize]) -> Vec<usize> {
        self.dials
            .iter()
            .zip(combination)
            .filter(|(dial, _)| dial.last)
            .map(|(_, &index)| index)
            .collect()
    }

    fn values(&self, combination: &[usize]) -> Vec<f64> {
        self.dials
            .iter()
            .zip(combination)
            .map(|(dial, &index)| dial.values[index])
            .collect()
    }

    fn cut(&self, seams: &Sides<f64>) -> f64 {
        seams
            .iter()
            .map(|(side, seam)| seam - self.seams.get(side).present)
            .sum()
    }

    /// The least seam move of one side, in its steps, that is not proved to fall short.
    fn open_seam(&self, side: Side, values: &[f64]) -> Option<f64> {
        let steps = self.seams.get(side);
        let mut seam = steps.present;
        loop {
            let beyond = self
                .shy
                .get(side)
                .iter()
                .filter_map(|shy| self.covers(shy, values, seam))
                .fold(f64::NEG_INFINITY, f64::max);
            if beyond == f64::NEG_INFINITY {
                return Some(seam);
            }
            let count = (beyond / steps.size - 1e-9).ceil();
            let one_more = ((seam / steps.size + 1e-6).floor() + 1.0).max(count);
            seam = one_more * steps.size;
            if seam > steps.most || seam.is_nan() {
                return None;
            }
        }
    }

    /// Where the seam moves end that this trial proves to fall short, if `seam` is one of them, mm.
    fn covers(&self, shy: &Shy, values: &[f64], seam: f64) -> Option<f64> {
        let others: f64 = self
            .dials
            .iter()
            .zip(values.iter().zip(&shy.values))
            .filter(|(dial, _)| !(shy.at_ride && dial.remedy == Remedy::Bump))
            .map(|(dial, (a, b))| dial.rate * (a - b).abs())
            .sum();
        let left = shy.short - others;
        if left <= shy.seam_rate * (seam - shy.seam).abs() {
            return None;
        }
        Some(if shy.seam_rate > 0.0 {
            shy.seam + left / shy.seam_rate
        } else {
            f64::INFINITY
        })
    }

    fn car_with(&self, values: &[f64], seams: &Sides<f64>) -> Car {
        let mut car = self.car.clone();
        for (dial, &value) in self.dials.iter().zip(values) {
            // What stays is not set: a printed size stays printed.
            if (value - dial.values[0]).abs() > 0.0 {
                dial.remedy.set(&mut car, value);
            }
        }
        for (side, &seam) in seams.iter() {
            Remedy::Seam(side).set(&mut car, seam);
        }
        car
    }

    fn try_out(&mut self, values: &[f64], seams: Sides<f64>, total: f64) {
        let car = self.car_with(values, &seams);
        let mut falls_short = false;
        for side in Side::BOTH {
            let Ok(mut probe) = Probe::new(&car, &[side], false) else {
                // Numbers that do not go together are no mix.
                self.next += 1;
                return;
            };
            let likely = *self.likely.get(side);
            if let Some((demand, short)) = probe.falls_short(likely, 0.0)
                && short > 0.0
            {
                falls_short = true;
                self.note(&probe, values, &seams, (demand, short));
            }
        }
        if falls_short {
            return;
        }
        let Ok(probe) = Probe::new(&car, &Side::BOTH, false) else {
            self.next += 1;
            return;
        };
        let check = probe.check();
        for side in Side::BOTH {
            if let Some((demand, short)) = shortfall(&check, &[side])
                && short > 0.0
            {
                falls_short = true;
                // Nothing is proved but that this one is not certified to work.
                self.note(&probe, values, &seams, (demand, UNDECIDED));
            }
        }
        if !falls_short {
            self.best = Some(Best {
                combination: self.next,
                seams,
                total,
            });
            self.next += 1;
        }
    }
    /// Keeps what a trial proves, and by how little it failed.
    fn note(
        &mut self,
        probe: &Probe,
        values: &[f64],
        seams: &Sides<f64>,
        (demand, short): (Demand, f64),
    ) {
        let side = demand.side;
        *self.likely.get_mut(side) = Some(demand);
        if self.nearest.is_none_or(|(_, least)| short < least) {
            self.nearest = Some((demand, short));
        }
        self.shy.get_mut(side).push(Shy {
            values: values.to_vec(),
            seam: *seams.get(side),
            short,
            seam_rate: if probe.stands_still(Remedy::Seam(side), demand) {
                0.0
            } else {
                1.0
            },
            at_ride: probe.stands_still(Remedy::Bump, demand),
        });
    }
}

/// The present value, then the steps within `most` of it and within the remedy's range, the smallest change first.
fn values(model: &Model, remedy: Remedy, size: f64, most: f64) -> Vec<f64> {
    let present = remedy.get(&model.car);
    let [low, high] = remedy.range(model);
    let (low, high) = (low.max(present - most), high.min(present + most));
    let origin = remedy.origin(&model.car);
    let mut values = Vec::new();
    let mut count = ((low - origin) / size - 1e-9).ceil();
    while origin + count * size <= high + 1e-9 {
        let value = (origin + count * size).clamp(low, high);
        if (value - present).abs() > 1e-6 {
            values.push(value);
        }
        count += 1.0;
    }
    let change = |value: &f64| (value - present).abs();
    values.sort_by(|a, b| change(a).total_cmp(&change(b)));
    values.insert(0, present);
    values
}

/// All combinations in the order of preference: the dials that come after the seam are turned least, from the last on;
/// then as few as can be of the others, and of these the last ones least.
fn combinations(dials: &[Dial]) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new()];
    for dial in dials {
        all = all
            .iter()
            .flat_map(|begun: &Vec<usize>| {
                (0..dial.values.len()).map(|index| {
                    let mut longer = begun.clone();
                    longer.push(index);
                    longer
                })
            })
            .collect();
    }
    all.sort_by_cached_key(|combination| {
        let turned = |last: bool| -> Vec<usize> {
            dials
                .iter()
                .zip(combination)
                .filter(|(dial, _)| dial.last == last)
                .map(|(_, &index)| index)
                .rev()
                .collect()
        };
        let others = turned(false);
        let count = others.iter().filter(|&&index| index > 0).count();
        (turned(true), count, others)
    });
    all
}
