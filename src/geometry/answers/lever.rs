//! One remedy alone: stepping outward from the present value until something works, or searching what is best.

use super::peak::{Peak, Trial};
use super::probe::{Probe, shortfall};
use super::{Answer, Cannot, Demand, Outcome, Preferences, Rates, Remedy, Works};
use crate::car::Car;
use crate::model::Model;

/// The shortest step, mm: what the certified gaps leave open needs no finer one.
const LEAST_STEP: f64 = 0.01;
/// The longest, mm: the rates hold while the track width changes by no more than a tenth, and this is half of that of the
/// narrowest.
const LONGEST_STEP: f64 = 35.0;
/// After so many steps that decided nothing, steps grow: the car is at its targets to within what is certified.
const PATIENCE: u32 = 100;
/// How many steps that can be bought are tried beyond the value found.
const ROUNDINGS: u32 = 3;
/// How closely the least missing is found, mm: 1/64 in.
const WITHIN: f64 = 0.4;
/// The most trials for it; beyond, what is proven is less.
const TRIALS: usize = 1_000;

/// One direction from the present value.
#[derive(Debug, Clone, Copy)]
struct Way {
    sign: f64,
    /// How far the next trial lies from the present value, mm.
    next: f64,
    /// How far the range goes, mm.
    end: f64,
    /// Nothing nearer works, mm.
    proven: f64,
    /// Whether all nearer than `next` is proven.
    whole: bool,
    undecided: u32,
    likely: Option<Demand>,
    over: bool,
}

/// What is to be done next.
#[derive(Debug, Clone)]
enum Phase {
    /// Range and present state.
    Begin,
    /// Stepping outward.
    Stepping,
    /// Trying values that can be bought.
    Rounding { works: Works, sign: f64, tried: u32 },
    /// Searching where least is missing.
    Peak(Peak),
}

/// The answer of one remedy, being worked out.
#[derive(Debug, Clone)]
pub struct LeverWork {
    model: Model,
    remedy: Remedy,
    step: Option<f64>,
    present: f64,
    ways: [Way; 2],
    trials: Vec<Trial>,
    phase: Phase,
}

impl LeverWork {
    /// Begins the answer for one state.
    #[must_use]
    pub fn begin(model: &Model, remedy: Remedy, preferences: &Preferences) -> Self {
        let way = |sign| Way {
            sign,
            next: 0.0,
            end: 0.0,
            proven: 0.0,
            whole: true,
            undecided: 0,
            likely: None,
            over: false,
        };
        Self {
            model: model.clone(),
            remedy,
            step: preferences
                .step(remedy)
                .map(|step| step.size)
                .filter(|&size| size > 0.0),
            present: remedy.get(&model.car),
            ways: [way(-1.0), way(1.0)],
            trials: Vec::new(),
            phase: Phase::Begin,
        }
    }

    /// Does one more trial; gives the answer with the last.
    pub fn step(&mut self) -> Option<Answer> {
        let outcome = match std::mem::replace(&mut self.phase, Phase::Stepping) {
            Phase::Begin => self.begin_ways(),
            Phase::Stepping => self.step_out(),
            Phase::Rounding { works, sign, tried } => self.round(works, sign, tried),
            Phase::Peak(peak) => self.raise(peak),
        }?;
        Some(Answer {
            remedy: self.remedy,
            present: self.present,
            outcome,
        })
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Answer {
        loop {
            if let Some(answer) = self.step() {
                return answer;
            }
        }
    }

    fn car_at(&self, value: f64) -> Car {
        // The present car as it is: a printed size stays printed.
        if (value - self.present).abs() > 0.0 {
            self.remedy.applied(&self.model.car, value)
        } else {
            self.model.car.clone()
        }
    }

    fn probe(&self, value: f64) -> Option<Probe> {
        let ground = Probe::ground_counts(self.remedy);
        Probe::new(&self.car_at(value), self.remedy.sides(), ground).ok()
    }

    /// The rate at which `demand` can change, mm a mm.
    fn rate(&self, probe: &Probe, demand: Demand) -> f64 {
        if probe.stands_still(self.remedy, demand) {
            0.0
        } else {
            Rates::new(&probe.model, LONGEST_STEP).of(self.remedy)
        }
    }

    fn begin_ways(&mut self) -> Option<Outcome> {
        let Some(mut probe) = self.probe(self.present) else {
            return Some(Outcome::Nothing);
        };
        let short = shortfall(&probe.check(), self.remedy.sides());
        if short.is_none_or(|(_, short)| short <= 0.0) {
            return Some(Outcome::Nothing);
        }
        let range = self.remedy.range(&self.model);
        for (way, end) in self.ways.iter_mut().zip(range) {
            way.end = (end - self.present).abs();
        }
        if let Some(short) = probe.worst() {
            self.trials.push(self.trial(&probe, short));
            let safe = self.safe(&probe, short);
            for way in &mut self.ways {
                way.likely = Some(short.0);
                way.advance(safe, 0.0);
            }
        }
        None
    }

    /// How far from a trial with this shortfall nothing works, mm.
    fn safe(&self, probe: &Probe, (demand, short): (Demand, f64)) -> f64 {
        let rate = self.rate(probe, demand);
        if short <= 0.0 {
            0.0
        } else if rate > 0.0 {
            short / rate
        } else {
            f64::INFINITY
        }
    }

    fn trial(&self, probe: &Probe, (demand, short): (Demand, f64)) -> Trial {
        Trial {
            value: self.remedy.get(&probe.model.car),
            most: -short,
            rate: self.rate(probe, demand),
            demand,
        }
    }

    fn step_out(&mut self) -> Option<Outcome> {
        let nearest = (0..2)
            .filter(|&way| !self.ways[way].over)
            .min_by(|&a, &b| self.ways[a].next.total_cmp(&self.ways[b].next));
        let Some(nearest) = nearest else {
            self.phase = Phase::Peak(Peak::new(std::mem::take(&mut self.trials)));
            return None;
        };
        let way = self.ways[nearest];
        let value = self.present + way.sign * way.next;
        let Some(mut probe) = self.probe(value) else {
            self.ways[nearest].over = true;
            return None;
        };
        let Some(short) = probe.falls_short(way.likely, 0.0) else {
            self.ways[nearest].over = true;
            return None;
        };
        let all = (short.1 <= 0.0).then(|| shortfall(&probe.check(), self.remedy.sides()));
        if let Some(all) = all
            && all.is_none_or(|(_, missing)| missing <= 0.0)
        {
            self.found(value, way.sign, way.likely.unwrap_or(short.0));
            return None;
        }
        self.trials.push(self.trial(&probe, short));
        let safe = self.safe(&probe, short);
        // Where only the section at the ground falls short, it still tells how far to go on.
        let guess = all.flatten().map_or(0.0, |all| self.safe(&probe, all));
        let way = &mut self.ways[nearest];
        way.likely = Some(all.flatten().unwrap_or(short).0);
        way.advance(safe, guess);
        None
    }

    fn found(&mut self, value: f64, sign: f64, decides: Demand) {
        let proven = self
            .ways
            .iter()
            .map(|way| way.proven.min(way.end))
            .zip(self.ways.iter().map(|way| way.over && way.whole))
            // A way that is proven to its end holds nothing nearer either.
            .map(|(proven, over)| if over { f64::INFINITY } else { proven })
            .fold((value - self.present).abs(), f64::min);
        let works = Works {
            value,
            proven,
            decides,
            rounded: None,
        };
        self.phase = Phase::Rounding {
            works,
            sign,
            tried: 0,
        };
    }

    fn round(&mut self, works: Works, sign: f64, tried: u32) -> Option<Outcome> {
        let (Some(size), true) = (self.step, tried < ROUNDINGS) else {
            return Some(Outcome::Works(works));
        };
        let origin = self.remedy.origin(&self.model.car);
        // A value that lies on a step but for rounding is that step.
        let steps = sign * (works.value - origin) / size;
        let step = (steps - 1e-9).ceil() + f64::from(tried);
        let value = origin + sign * step * size;
        if self.works(value) {
            return Some(Outcome::Works(Works {
                rounded: Some(value),
                ..works
            }));
        }
        self.phase = Phase::Rounding {
            works,
            sign,
            tried: tried + 1,
        };
        None
    }

    fn range(&self) -> [f64; 2] {
        self.ways.map(|way| self.present + way.sign * way.end)
    }

    fn works(&self, value: f64) -> bool {
        let [low, high] = self.range();
        (low..=high).contains(&value)
            && self.probe(value).is_some_and(|probe| {
                shortfall(&probe.check(), self.remedy.sides()).is_none_or(|(_, short)| short <= 0.0)
            })
    }

    fn raise(&mut self, mut peak: Peak) -> Option<Outcome> {
        let Some(open) = peak.highest(self.range()) else {
            return Some(Outcome::Nothing);
        };
        let enough = peak
            .best
            .map_or(f64::NEG_INFINITY, |(_, reserve)| reserve + WITHIN);
        // A surface deep inside the tire is not certified that closely; there is no more to learn beside it.
        let known = peak.best.is_some() && peak.nearest(open.at) < WITHIN / 8.0;
        if open.most <= enough || known || peak.tried >= TRIALS {
            return Some(self.cannot(&peak, open.most));
        }
        peak.tried += 1;
        let (likely, least) = match peak.best {
            Some((_, reserve)) => (Some(open.demand), -reserve),
            None => (None, f64::INFINITY),
        };
        let tried = self.probe(open.at).and_then(|probe| {
            let mut probe = probe.closely();
            let short = probe.falls_short(likely, least)?;
            let all = (short.1 <= 0.0).then(|| shortfall(&probe.check(), self.remedy.sides()));
            let (demand, missing) = all.flatten().unwrap_or(short);
            Some((self.trial(&probe, short), demand, missing))
        });
        if let Some((trial, demand, missing)) = tried {
            if missing <= 0.0 {
                let sign = (open.at - self.present).signum();
                self.found(open.at, sign, demand);
                return None;
            }
            peak.add(trial, -missing);
        }
        self.phase = Phase::Peak(peak);
        None
    }

    fn cannot(&self, peak: &Peak, most: f64) -> Outcome {
        let best = peak.best.map_or(self.present, |(value, _)| value);
        let check = Model::new(&self.car_at(best))
            .map(|model| crate::check::check(&model, crate::check::ACCURACY));
        match check.map(|check| shortfall(&check, self.remedy.sides())) {
            Ok(Some((says_no, missing))) => Outcome::Cannot(Cannot {
                best,
                says_no,
                missing,
                at_least: (-most).clamp(0.0, missing.max(0.0)),
            }),
            _ => Outcome::Nothing,
        }
    }
}

impl Way {
    /// Moves on from a trial within `safe` mm of which nothing works; `guess` mm are likely not to work either.
    fn advance(&mut self, safe: f64, guess: f64) {
        self.undecided += u32::from(safe < LEAST_STEP);
        let floor = LEAST_STEP * f64::from(1 + self.undecided / PATIENCE);
        if self.whole {
            self.proven = self.next + safe;
            self.whole = safe >= floor;
        }
        self.over = self.next + safe >= self.end;
        let step = safe.max(guess).clamp(floor, LONGEST_STEP.max(floor));
        self.next = (self.next + step).min(self.end);
    }
}
