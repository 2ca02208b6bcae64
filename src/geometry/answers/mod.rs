//! Answers: what can be changed so that the tire fits, by how much, or what says no; all of it certified.
//!
//! That a value works is proved by a gap list whose lower ends meet all targets. That nothing nearer works is proved by
//! shortfalls: where a gap falls short of its target by `d` and can change no faster than a [`Rates`] says, nothing works
//! within `d / rate`; so the search steps by that much, from the present value outward, and never jumps over a value that
//! works. That nothing works at all is proved the same way over the whole range, and the least that is missing by halving
//! what the rates leave open.
//!
//! The tire's section at the ground is a part of every gap list, but its gap follows the rates only where the tire moves
//! sideways or the seam does: what sheet it counts for changes with height and travel. So the shortfalls of bump, ride
//! height, the tire's sizes, the axle's place, the roof and the mix leave it out. They are then no greater than the true
//! ones, and what they prove holds. But where only that section falls short nothing is proved, and the search steps on
//! by what would be likely: a value that works could lie in between. [`Works::proven`] and [`Cannot::at_least`] tell: the one is
//! then less than the change found, the other nothing.
//!
//! All of it is done a gap at a time, so that whoever shows it can do so between frames. What a gap was found to be also
//! bounds it nearby, by the same rates, so most need not be asked again. Each work keeps the car that it was begun from,
//! so that no trial can be of another state.

mod change;
mod last;
mod lever;
mod mix;
mod order;
mod peak;
mod preferences;
mod probe;
mod proofs;
mod rates;
mod remedy;

use crate::model::Model;

pub use change::{Change, Mix, Nearest};
pub use last::{Last, LastWork};
pub use lever::LeverWork;
pub use mix::MixWork;
pub use preferences::{MOST, Preferences, STEP_SIZE, Step};
pub use probe::{Demand, When};
pub use rates::{Around, Rates};
pub use remedy::Remedy;

/// What one remedy alone can do.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The remedy.
    pub remedy: Remedy,
    /// Its present value, mm.
    pub present: f64,
    /// What it would take.
    pub outcome: Outcome,
}

/// What a remedy would take.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// All targets that it is judged by are met as it stands.
    Nothing,
    /// It can.
    Works(Works),
    /// It cannot, within its range.
    Cannot(Cannot),
}

/// A value that brings every surface to its targets.
#[derive(Debug, Clone, PartialEq)]
pub struct Works {
    /// The nearest value that works, mm.
    pub value: f64,
    /// Nothing works that is nearer to the present value than this, either way, mm; less than the change to `value` by
    /// what the certified gaps leave open.
    pub proven: f64,
    /// What comes to its target last.
    pub decides: Demand,
    /// The nearest step beyond that can be bought or set and works, mm, if one does.
    pub rounded: Option<f64>,
}

/// Why no value will do.
#[derive(Debug, Clone, PartialEq)]
pub struct Cannot {
    /// The value at which least is missing, mm.
    pub best: f64,
    /// What says no there.
    pub says_no: Demand,
    /// How much it is short of its target there, mm.
    pub missing: f64,
    /// No value leaves less missing than this, mm.
    pub at_least: f64,
}

/// The answers of every remedy, being worked out.
#[derive(Debug, Clone)]
pub struct AnswersWork {
    waiting: Vec<LeverWork>,
    found: Vec<Answer>,
}

impl AnswersWork {
    /// Begins the answers for one state.
    #[must_use]
    pub fn begin(model: &Model, preferences: &Preferences) -> Self {
        let begun = |remedy| LeverWork::begin(model, remedy, preferences);
        Self {
            waiting: Remedy::ALL.into_iter().rev().map(begun).collect(),
            found: Vec::new(),
        }
    }

    /// Does a little more; gives the answers with the last, in the order of [`Remedy::ALL`].
    pub fn step(&mut self) -> Option<Vec<Answer>> {
        if let Some(answer) = self.waiting.last_mut().and_then(LeverWork::step) {
            self.found.push(answer);
            self.waiting.pop();
        }
        self.waiting
            .is_empty()
            .then(|| std::mem::take(&mut self.found))
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Vec<Answer> {
        loop {
            if let Some(answers) = self.step() {
                return answers;
            }
        }
    }
}
