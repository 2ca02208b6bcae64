//! What the trials of a mix prove of all other combinations.

use std::collections::HashMap;

use super::preferences::STEP_SIZE;
use super::probe::{Probe, Short};
use super::{Demand, Preferences, Remedy};
use crate::model::Model;
use crate::order;
use crate::side::{Side, Sides};

/// A remedy with its values: the present one, then its steps.
#[derive(Debug, Clone)]
pub(super) struct Dial {
    pub remedy: Remedy,
    pub values: Vec<f64>,
    pub rate: f64,
    /// Changed less gladly than the seam.
    pub last: bool,
}

/// What is proved of a demand in one combination.
#[derive(Debug, Clone)]
struct Proof {
    values: Vec<f64>,
    seam: f64,
    /// How far it is short there, mm: at least, of one that falls short, else at most.
    short: f64,
    /// Millimeters of gap a millimeter of seam.
    seam_rate: f64,
    /// Whether bump travel makes no difference.
    at_ride: bool,
}

/// The steps of one side's seam.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seam {
    pub present: f64,
    pub size: f64,
    pub most: f64,
}

/// A combination: each dial's value, and the seams, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place<'a> {
    pub values: &'a [f64],
    pub seams: &'a Sides<f64>,
}

/// Everything proved so far.
#[derive(Debug, Clone)]
pub(super) struct Proofs {
    pub dials: Vec<Dial>,
    pub seams: Sides<Seam>,
    /// Combinations that fall short on a side.
    shy: Sides<Vec<Proof>>,
    /// What demands are short by at most.
    known: HashMap<Demand, Vec<Proof>>,
}

impl Dial {
    /// Those that the preferences turn, in their order; the rates are still to come.
    pub fn all(model: &Model, preferences: &Preferences) -> Vec<Self> {
        let is_seam = |remedy: Remedy| matches!(remedy, Remedy::Seam(_));
        let steps = &preferences.steps;
        let cut = steps.iter().position(|step| is_seam(step.remedy));
        let others = steps.iter().enumerate();
        others
            .filter(|(_, step)| !is_seam(step.remedy))
            .map(|(place, step)| {
                let most = preferences.most(step, &model.car);
                Self {
                    remedy: step.remedy,
                    values: values(model, step.remedy, step.size, most),
                    rate: 0.0,
                    last: cut.is_some_and(|cut| place > cut),
                }
            })
            .filter(|dial| dial.values.len() > 1)
            .collect()
    }

    /// How far it goes from the present value, mm.
    pub fn reach(&self) -> f64 {
        let change = |value: &f64| (value - self.values[0]).abs();
        self.values.iter().map(change).fold(0.0, f64::max)
    }
}

impl Proofs {
    pub fn new(dials: Vec<Dial>, seams: Sides<Seam>) -> Self {
        Self {
            dials,
            seams,
            shy: Sides::default(),
            known: HashMap::new(),
        }
    }

    /// How many combinations are proved to fall short, with all around them.
    pub fn len(&self) -> usize {
        self.shy.left.len() + self.shy.right.len()
    }

    /// Keeps that a demand falls short by at least so much in this combination.
    pub fn falls_short(&mut self, probe: &Probe, place: Place, (demand, short): Short) {
        let proof = Proof::new(probe, place, (demand, short));
        self.shy.get_mut(demand.side).push(proof);
    }

    /// Keeps that a demand is short by at most so much in this combination.
    pub fn is_known(&mut self, probe: &Probe, place: Place, (demand, most): Short) {
        let proof = Proof::new(probe, place, (demand, most));
        self.known.entry(demand).or_default().push(proof);
    }

    /// The least seam move of one side, in its steps, that is not proved to fall short.
    pub fn open_seam(&self, side: Side, values: &[f64]) -> Option<f64> {
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

    /// How far a demand's gap can change by what the dials differ, mm.
    fn apart(&self, proof: &Proof, values: &[f64]) -> f64 {
        self.dials
            .iter()
            .zip(values.iter().zip(&proof.values))
            .filter(|(dial, _)| !(proof.at_ride && dial.remedy == Remedy::Bump))
            .map(|(dial, (a, b))| dial.rate * (a - b).abs())
            .sum()
    }

    /// Where the seam moves end that this trial proves to fall short, if `seam` is one of them, mm.
    fn covers(&self, shy: &Proof, values: &[f64], seam: f64) -> Option<f64> {
        let left = shy.short - self.apart(shy, values);
        if left <= shy.seam_rate * (seam - shy.seam).abs() {
            return None;
        }
        Some(if shy.seam_rate > 0.0 {
            shy.seam + left / shy.seam_rate
        } else {
            f64::INFINITY
        })
    }

    /// What a demand is short by at most in a combination, from others.
    pub fn at_most(&self, demand: Demand, Place { values, seams }: Place) -> f64 {
        let seam = *seams.get(demand.side);
        let known = self.known.get(&demand).map_or(&[][..], Vec::as_slice);
        known
            .iter()
            .map(|proof| {
                proof.short
                    + self.apart(proof, values)
                    + proof.seam_rate * (seam - proof.seam).abs()
            })
            .fold(f64::INFINITY, f64::min)
    }
}

impl Proof {
    fn new(probe: &Probe, place: Place, (demand, short): Short) -> Self {
        let side = demand.side;
        Self {
            values: place.values.to_vec(),
            seam: *place.seams.get(side),
            short,
            seam_rate: if probe.stands_still(Remedy::Seam(side), demand) {
                0.0
            } else {
                1.0
            },
            at_ride: probe.stands_still(Remedy::Bump, demand),
        }
    }
}

/// The present value, then the steps within `most` of it and within the remedy's range, the smallest change first.
fn values(model: &Model, remedy: Remedy, size: f64, most: f64) -> Vec<f64> {
    let present = remedy.get(&model.car);
    let [low, high] = remedy.range(model);
    let (low, high) = (low.max(present - most), high.min(present + most));
    let origin = remedy.origin(&model.car);
    let mut values = Vec::new();
    let size = STEP_SIZE.clamp(size);
    let mut count = ((low - origin) / size - 1e-9).ceil();
    while origin + count * size <= high + 1e-9 {
        let value = (origin + count * size).clamp(low, high);
        if (value - present).abs() > 1e-6 {
            values.push(value);
        }
        count += 1.0;
    }
    let change = |value: &f64| (value - present).abs();
    order::sort_by(&mut values, |a, b| change(a).total_cmp(&change(b)));
    values.insert(0, present);
    values
}
