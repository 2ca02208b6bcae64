//! One remedy alone: stepping outward from the present value until something works, or searching what is best.

use super::peak::{Peak, Trial};
use super::probe::{Finding, Probe, Question, Short};
use super::rates::Around;
use super::{Answer, Cannot, Demand, Outcome, Preferences, Rates, Remedy, Works};
use crate::car::Car;
use crate::model::Model;

/// The shortest step, mm: what the certified gaps leave open needs no finer one.
const LEAST_STEP: f64 = 0.01;
/// The longest, mm: the rates hold that far.
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
    /// The present state.
    Begin,
    /// Where this way's range ends; what is known is that nothing works within `safe` mm.
    Range { way: usize, safe: f64 },
    /// Stepping outward.
    Stepping,
    /// Trying values that can be bought.
    Rounding(Rounding),
    /// Searching where least is missing.
    Peak(Peak),
    /// A state is being asked.
    Asking(Box<Question>, Then),
    /// Nothing more: the answer was given.
    Over,
}

/// What the state is asked for.
#[derive(Debug, Clone)]
enum Then {
    Present,
    Step { way: usize },
    Round { rounding: Rounding, value: f64 },
    Raise { peak: Peak, at: f64 },
    Cannot { best: f64, most: f64 },
}

/// The value found, while one that can be bought is looked for.
#[derive(Debug, Clone)]
struct Rounding {
    works: Works,
    sign: f64,
    tried: u32,
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
    known: Vec<Known>,
    phase: Phase,
}

/// What a demand was short by at most at some value.
#[derive(Debug, Clone, Copy)]
struct Known {
    demand: Demand,
    value: f64,
    most: f64,
    rate: f64,
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
            known: Vec::new(),
            phase: Phase::Begin,
        }
    }

    /// Does a little more: one gap of one state; gives the answer with the last.
    pub fn step(&mut self) -> Option<Answer> {
        let outcome = match std::mem::replace(&mut self.phase, Phase::Over) {
            Phase::Begin => self.ask(self.present, Then::Present),
            Phase::Range { way, safe } => self.range_of(way, safe),
            Phase::Stepping => self.step_out(),
            Phase::Rounding(rounding) => self.round(rounding),
            Phase::Peak(peak) => self.raise(peak),
            Phase::Asking(mut question, then) => {
                if let Some(found) = question.step() {
                    self.learn(&found, then)
                } else {
                    self.phase = Phase::Asking(question, then);
                    None
                }
            }
            Phase::Over => Some(Outcome::Nothing),
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

    /// Asks the state at a value; one that cannot be is as good as one that does not work.
    fn ask(&mut self, value: f64, then: Then) -> Option<Outcome> {
        let ground = Probe::ground_counts(self.remedy);
        let Ok(probe) = Probe::new(&self.car_at(value), ground) else {
            return self.refused(then);
        };
        let sides = self.remedy.sides();
        let at_most = |demand| self.at_most(demand, value);
        let question = match &then {
            Then::Present | Then::Step { .. } => Question::either(probe, sides, at_most),
            Then::Raise { .. } => Question::either(probe.closely(), sides, at_most),
            Then::Round { .. } | Then::Cannot { .. } => Question::list(probe, sides),
        };
        self.phase = Phase::Asking(Box::new(question), then);
        None
    }

    /// What a demand is short by at most, from values nearby.
    fn at_most(&self, demand: Demand, value: f64) -> f64 {
        let near =
            |known: &&Known| known.demand == demand && (known.value - value).abs() <= LONGEST_STEP;
        let known = self.known.iter().filter(near);
        known
            .map(|known| known.most + known.rate * (known.value - value).abs())
            .fold(f64::INFINITY, f64::min)
    }

    fn refused(&mut self, then: Then) -> Option<Outcome> {
        self.phase = match then {
            Then::Present | Then::Cannot { .. } => return Some(Outcome::Nothing),
            Then::Step { way } => {
                self.ways[way].over = true;
                Phase::Stepping
            }
            Then::Round { rounding, .. } => Phase::Rounding(rounding.next()),
            Then::Raise { peak, .. } => Phase::Peak(peak),
        };
        None
    }

    fn learn(&mut self, found: &Finding, then: Then) -> Option<Outcome> {
        let value = self.remedy.get(&found.probe.model.car);
        for &(demand, most) in &found.known {
            self.known.push(Known {
                demand,
                value,
                most,
                rate: self.rate(&found.probe, demand),
            });
        }
        match then {
            Then::Present => self.learn_present(found),
            Then::Step { way } => self.learn_step(found, way),
            Then::Round { rounding, value } => {
                if found.is_met() {
                    return Some(Outcome::Works(Works {
                        rounded: Some(value),
                        ..rounding.works
                    }));
                }
                self.phase = Phase::Rounding(rounding.next());
                None
            }
            Then::Raise { peak, at } => self.learn_peak(found, peak, at),
            Then::Cannot { best, most } => {
                Some(found.listed.map_or(Outcome::Nothing, |(says_no, missing)| {
                    Outcome::Cannot(Cannot {
                        best,
                        says_no,
                        missing,
                        at_least: (-most).clamp(0.0, missing.max(0.0)),
                    })
                }))
            }
        }
    }

    /// The rate at which `demand` can change, mm a mm.
    fn rate(&self, probe: &Probe, demand: Demand) -> f64 {
        if probe.stands_still(self.remedy, demand) {
            0.0
        } else {
            let around = Around {
                track_width: 2.0 * LONGEST_STEP,
                lifted: LONGEST_STEP,
            };
            Rates::new(&probe.model, around).of(self.remedy)
        }
    }

    fn learn_present(&mut self, found: &Finding) -> Option<Outcome> {
        let Some(short) = found.proven.filter(|_| !found.is_met()) else {
            return Some(Outcome::Nothing);
        };
        self.trials.push(self.trial(&found.probe, short));
        let safe = self.safe(&found.probe, short);
        for way in &mut self.ways {
            way.likely = Some(short.0);
        }
        self.phase = Phase::Range { way: 0, safe };
        None
    }

    fn range_of(&mut self, index: usize, safe: f64) -> Option<Outcome> {
        let end = self.remedy.range(&self.model)[index];
        let end = self.remedy.last_accepted(&self.model.car, end);
        let way = &mut self.ways[index];
        way.end = (end - self.present).abs();
        way.advance(safe, 0.0);
        self.phase = if index + 1 < self.ways.len() {
            let way = index + 1;
            Phase::Range { way, safe }
        } else {
            Phase::Stepping
        };
        None
    }

    /// How far from a trial with this shortfall nothing works, mm.
    fn safe(&self, probe: &Probe, (demand, short): Short) -> f64 {
        let rate = self.rate(probe, demand);
        if short <= 0.0 {
            0.0
        } else if rate > 0.0 {
            short / rate
        } else {
            f64::INFINITY
        }
    }

    fn trial(&self, probe: &Probe, (demand, short): Short) -> Trial {
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
        self.ask(
            self.present + way.sign * way.next,
            Then::Step { way: nearest },
        )
    }

    fn learn_step(&mut self, found: &Finding, nearest: usize) -> Option<Outcome> {
        let way = self.ways[nearest];
        self.phase = Phase::Stepping;
        let Some(short) = found.proven else {
            self.ways[nearest].over = true;
            return None;
        };
        if found.is_met() {
            let value = self.present + way.sign * way.next;
            self.found(value, way.sign, way.likely.unwrap_or(short.0));
            return None;
        }
        self.trials.push(self.trial(&found.probe, short));
        let safe = self.safe(&found.probe, short);
        // Where only the section at the ground falls short, it still tells how far to go on.
        let guess = found
            .listed
            .map_or(0.0, |listed| self.safe(&found.probe, listed));
        let way = &mut self.ways[nearest];
        way.likely = Some(found.listed.unwrap_or(short).0);
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
        self.phase = Phase::Rounding(Rounding {
            works: Works {
                value,
                proven,
                decides,
                rounded: None,
            },
            sign,
            tried: 0,
        });
    }

    fn round(&mut self, rounding: Rounding) -> Option<Outcome> {
        let (Some(size), true) = (self.step, rounding.tried < ROUNDINGS) else {
            return Some(Outcome::Works(rounding.works));
        };
        let (origin, sign) = (self.remedy.origin(&self.model.car), rounding.sign);
        // A value that lies on a step but for rounding is that step.
        let steps = sign * (rounding.works.value - origin) / size;
        let step = (steps - 1e-9).ceil() + f64::from(rounding.tried);
        let value = origin + sign * step * size;
        let [low, high] = self.range();
        if (low..=high).contains(&value) {
            self.ask(value, Then::Round { rounding, value })
        } else {
            Some(Outcome::Works(rounding.works))
        }
    }

    fn range(&self) -> [f64; 2] {
        self.ways.map(|way| self.present + way.sign * way.end)
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
            let best = peak.best.map_or(self.present, |(value, _)| value);
            let most = open.most;
            return self.ask(best, Then::Cannot { best, most });
        }
        peak.tried += 1;
        let at = open.at;
        self.ask(at, Then::Raise { peak, at })
    }

    fn learn_peak(&mut self, found: &Finding, mut peak: Peak, at: f64) -> Option<Outcome> {
        if let Some(short) = found.proven {
            let (demand, missing) = found.listed.unwrap_or(short);
            if found.is_met() {
                self.found(at, (at - self.present).signum(), demand);
                return None;
            }
            peak.add(self.trial(&found.probe, short), -missing);
        }
        self.phase = Phase::Peak(peak);
        None
    }
}

impl Rounding {
    fn next(self) -> Self {
        Self {
            tried: self.tried + 1,
            ..self
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
