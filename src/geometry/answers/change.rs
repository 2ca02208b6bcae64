//! What a mix changes.

use super::{Demand, Remedy};
use crate::car::Car;

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
    /// Nothing within the preferences does; this came nearest of all that was tried.
    Cannot(Option<Nearest>),
}

/// A mix that does not work, and what is missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearest {
    /// What it changes.
    pub changes: Vec<Change>,
    /// What says no.
    pub says_no: Demand,
    /// How much it is short of its target, mm.
    pub missing: f64,
}

impl Mix {
    /// The same car with the mix on it, or as it is where there is none.
    #[must_use]
    pub fn applied(&self, car: &Car) -> Car {
        match self {
            Mix::Works(changes) => Change::all_applied(changes, car),
            Mix::Nothing | Mix::Cannot(_) => car.clone(),
        }
    }
}

impl Change {
    /// What makes one car of another, in the order in which remedies are told. A track that only the wheel changed is
    /// no change of its own: this one is of the axle.
    #[must_use]
    pub fn between(before: &Car, after: &Car) -> Vec<Self> {
        let all = Remedy::ALL.into_iter().chain(Remedy::LAST);
        all.filter(|remedy| {
            let of = |car: &Car| match remedy {
                Remedy::TrackWidth => car.axle.width,
                other => other.get(car),
            };
            (of(after) - of(before)).abs() > 0.0
        })
        .map(|remedy| Self {
            remedy,
            from: remedy.get(before),
            to: remedy.get(after),
        })
        .collect()
    }

    /// The same car with all these changes on it as its plan: it keeps what was there before, through every plan that
    /// follows.
    #[must_use]
    pub fn all_planned(changes: &[Change], car: &Car) -> Car {
        let mut planned = Self::all_applied(changes, car);
        for change in changes {
            change.remedy.keep(car, &mut planned.before);
        }
        planned
    }

    /// The same car with all these changes on it.
    #[must_use]
    pub fn all_applied(changes: &[Change], car: &Car) -> Car {
        let mut changed = car.clone();
        for change in changes {
            change.remedy.set(&mut changed, change.to);
        }
        changed
    }
}
