//! The mix that cuts least: what needs no cutting first, then the smallest seam move, all in steps that can be bought or set.
//!
//! Every combination of steps within the preferences is either tried, or proved not to work by one that was tried: where a
//! side falls short by `d`, it does so in all combinations whose changes, each times its rate, add up to less than `d`.
//! What is left is taken in the order of preference, so the mix is the best one there is among these steps, but for what
//! the certified gaps leave open.

use super::order::Order;
use super::probe::{Finding, Probe, Question};
use super::proofs::{Dial, Place, Proofs, Seam};
use super::rates::Around;
use super::{Change, Demand, Mix, Nearest, Preferences, Rates, Remedy};
use crate::car::Car;
use crate::model::Model;
use crate::side::{Side, Sides};

/// How many proofs are compared with at most before the caller has its turn.
const COMPARED: usize = 4_000;

/// What a trial excludes that decided nothing, mm: itself.
const UNDECIDED: f64 = 1e-6;

#[derive(Debug, Clone)]
struct Tried {
    /// The place of each dial's value.
    turned: Vec<usize>,
    seams: Sides<f64>,
    /// How far the seams move in all, mm.
    cut: f64,
    /// The worst that is missing, mm.
    missing: f64,
}

/// What is to be done next.
#[derive(Debug, Clone)]
enum Phase {
    /// The car as it stands.
    Begin,
    /// Looking for a combination that nothing speaks against.
    Looking,
    /// One is being asked, a side at a time.
    Asking(Box<Question>, Tried, On),
    /// What came nearest is being asked.
    Nearest(Box<Question>, Tried),
    /// Nothing more: the mix was given.
    Over,
}

/// What is being asked.
#[derive(Debug, Clone, Copy)]
enum On {
    Present,
    Left,
    Right { left_falls_short: bool },
    Both,
}

/// The mix being worked out.
#[derive(Debug, Clone)]
pub struct MixWork {
    car: Car,
    proofs: Proofs,
    order: Order,
    best: Option<Tried>,
    nearest: Option<Tried>,
    phase: Phase,
}

impl MixWork {
    /// Begins the mix for one state.
    #[must_use]
    pub fn begin(model: &Model, preferences: &Preferences) -> Self {
        let car = &model.car;
        let mut dials = Dial::all(model, preferences);
        let reach = |remedy: Remedy| {
            let dial = dials.iter().find(|dial| dial.remedy == remedy);
            dial.map_or(0.0, Dial::reach)
        };
        let around = Around {
            track_width: 2.0 * reach(Remedy::Backspacing) + reach(Remedy::TrackWidth),
            lifted: reach(Remedy::RideHeight),
        };
        let rates = Rates::new(model, around);
        for dial in &mut dials {
            dial.rate = rates.of(dial.remedy);
        }
        let seams = Sides::each(|side| {
            let present = car.sides.get(side).seam_move;
            let step = preferences
                .step(Remedy::Seam(side))
                .filter(|step| step.size > 0.0);
            let most = Remedy::Seam(side).range(model)[1];
            Seam {
                present,
                size: step.map_or(f64::INFINITY, |step| step.size),
                most: step.map_or(present, |step| most.min(present + step.most)),
            }
        });
        Self {
            car: car.clone(),
            order: Order::new(dials.iter().map(|dial| (dial.values.len(), dial.last))),
            proofs: Proofs::new(dials, seams),
            best: None,
            nearest: None,
            phase: Phase::Begin,
        }
    }

    /// Does a little more: one gap of one combination, or passes over some combinations; gives the mix with the last.
    pub fn step(&mut self) -> Option<Mix> {
        match std::mem::replace(&mut self.phase, Phase::Over) {
            Phase::Begin => {
                let present = Tried {
                    turned: vec![0; self.proofs.dials.len()],
                    seams: Sides::each(|side| self.proofs.seams.get(side).present),
                    cut: 0.0,
                    missing: 0.0,
                };
                self.ask(present, On::Present)
            }
            Phase::Looking => self.look(),
            Phase::Asking(mut question, tried, on) => {
                if let Some(found) = question.step() {
                    self.learn(found, tried, on)
                } else {
                    self.phase = Phase::Asking(question, tried, on);
                    None
                }
            }
            Phase::Nearest(mut question, tried) => {
                if let Some(found) = question.step() {
                    let nearest = found.listed.map(|(says_no, missing)| Nearest {
                        changes: self.changes(&tried),
                        says_no,
                        missing,
                    });
                    Some(Mix::Cannot(nearest))
                } else {
                    self.phase = Phase::Nearest(question, tried);
                    None
                }
            }
            Phase::Over => Some(Mix::Nothing),
        }
    }

    /// Goes on to the next combination that is not proved to fall short and may be better than the best.
    fn look(&mut self) -> Option<Mix> {
        for _ in 0..COMPARED.div_ceil(1 + self.proofs.len()) {
            let Some(turned) = self.order.present() else {
                return self.end();
            };
            if let Some(best) = &self.best
                && (best.cut <= 0.0 || self.level(turned) != self.level(&best.turned))
            {
                return self.end();
            }
            let values = self.values(turned);
            let seams = Sides::each(|side| self.proofs.open_seam(side, &values));
            if let Sides {
                left: Some(left),
                right: Some(right),
            } = seams
            {
                let seams = Sides { left, right };
                let cut = self.cut(&seams);
                if self.best.as_ref().is_none_or(|best| cut < best.cut) {
                    let tried = Tried {
                        turned: turned.to_vec(),
                        seams,
                        cut,
                        missing: 0.0,
                    };
                    return self.ask(tried, On::Left);
                }
            }
            self.order.next();
        }
        self.phase = Phase::Looking;
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

    fn end(&mut self) -> Option<Mix> {
        if let Some(best) = &self.best {
            return Some(Mix::Works(self.changes(best)));
        }
        let nearest = self.nearest.take();
        let asked = nearest.and_then(|nearest| Some((self.probe(&nearest)?, nearest)));
        let Some((probe, nearest)) = asked else {
            return Some(Mix::Cannot(None));
        };
        self.phase = Phase::Nearest(Box::new(Question::list(probe, &Side::BOTH)), nearest);
        None
    }

    fn changes(&self, tried: &Tried) -> Vec<Change> {
        let dials = self
            .proofs
            .dials
            .iter()
            .zip(self.values(&tried.turned))
            .map(|(dial, to)| (dial.remedy, to));
        let seams = tried
            .seams
            .iter()
            .map(|(side, &to)| (Remedy::Seam(side), to));
        let change = |(remedy, to): (Remedy, f64)| Change {
            remedy,
            from: remedy.get(&self.car),
            to,
        };
        let changes = dials.chain(seams).map(change);
        changes
            .filter(|change| (change.to - change.from).abs() > 0.0)
            .collect()
    }

    /// How far the dials are turned that are turned less gladly than the seam.
    fn level(&self, turned: &[usize]) -> Vec<usize> {
        self.proofs
            .dials
            .iter()
            .zip(turned)
            .filter(|(dial, _)| dial.last)
            .map(|(_, &index)| index)
            .collect()
    }

    fn values(&self, turned: &[usize]) -> Vec<f64> {
        self.proofs
            .dials
            .iter()
            .zip(turned)
            .map(|(dial, &index)| dial.values[index])
            .collect()
    }

    fn cut(&self, seams: &Sides<f64>) -> f64 {
        seams
            .iter()
            .map(|(side, seam)| seam - self.proofs.seams.get(side).present)
            .sum()
    }

    /// The car of a combination; nothing where its numbers do not go together.
    fn probe(&self, tried: &Tried) -> Option<Probe> {
        let mut car = self.car.clone();
        for (dial, value) in self.proofs.dials.iter().zip(self.values(&tried.turned)) {
            // What stays is not set: a printed size stays printed.
            if (value - dial.values[0]).abs() > 0.0 {
                dial.remedy.set(&mut car, value);
            }
        }
        for (side, &seam) in tried.seams.iter() {
            Remedy::Seam(side).set(&mut car, seam);
        }
        // Beyond, the rates do not hold.
        let present = self.car.track_width();
        if (car.track_width() - present).abs() > present / 2.0 {
            return None;
        }
        Probe::new(&car, false).ok()
    }

    fn ask(&mut self, tried: Tried, on: On) -> Option<Mix> {
        match self.probe(&tried) {
            Some(probe) => self.ask_of(probe, tried, on),
            None if matches!(on, On::Present) => return Some(Mix::Nothing),
            None => {
                self.order.next();
                self.phase = Phase::Looking;
            }
        }
        None
    }

    fn ask_of(&mut self, probe: Probe, tried: Tried, on: On) {
        let values = self.values(&tried.turned);
        let place = Place {
            values: &values,
            seams: &tried.seams,
        };
        let at_most = |demand: Demand| self.proofs.at_most(demand, place);
        let question = match on {
            On::Left => Question::proof(probe, &[Side::Left], at_most),
            On::Right { .. } => Question::proof(probe, &[Side::Right], at_most),
            On::Both => Question::either(probe, &Side::BOTH, at_most),
            On::Present => Question::list(probe, &Side::BOTH),
        };
        self.phase = Phase::Asking(Box::new(question), tried, on);
    }

    fn learn(&mut self, found: Finding, mut tried: Tried, on: On) -> Option<Mix> {
        self.phase = Phase::Looking;
        let values = self.values(&tried.turned);
        let place = Place {
            values: &values,
            seams: &tried.seams.clone(),
        };
        for &known in &found.known {
            self.proofs.is_known(&found.probe, place, known);
        }
        match on {
            On::Present if found.is_met() => return Some(Mix::Nothing),
            On::Present => {}
            On::Left | On::Right { .. } => {
                let falls_short = found.falls_short();
                if let Some(short) = found.proven.filter(|_| falls_short) {
                    tried.missing = tried.missing.max(short.1);
                    self.proofs.falls_short(&found.probe, place, short);
                }
                match on {
                    On::Left => {
                        let left_falls_short = falls_short;
                        self.ask_of(found.probe, tried, On::Right { left_falls_short });
                    }
                    On::Right { left_falls_short } if left_falls_short || falls_short => {
                        self.keep_nearest(tried);
                    }
                    _ => self.ask_of(found.probe, tried, On::Both),
                }
            }
            On::Both if found.is_met() => {
                self.best = Some(tried);
                self.order.next();
            }
            On::Both => {
                if let Some((demand, short)) = found.listed.or(found.proven) {
                    tried.missing = short;
                    // Nothing is proved but that this one is not certified to work.
                    let undecided = (demand, UNDECIDED);
                    self.proofs.falls_short(&found.probe, place, undecided);
                }
                self.keep_nearest(tried);
            }
        }
        None
    }

    fn keep_nearest(&mut self, tried: Tried) {
        if self
            .nearest
            .as_ref()
            .is_none_or(|nearest| tried.missing < nearest.missing)
        {
            self.nearest = Some(tried);
        }
    }
}
