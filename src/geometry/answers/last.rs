//! What would do where neither a lever nor a mix of them will: asked only then.

use super::{Answer, Change, LeverWork, Nearest, Outcome, Preferences, Remedy};
use crate::model::Model;

/// What each of the last remedies would take.
#[derive(Debug, Clone, PartialEq)]
pub struct Last {
    /// What is on the car besides: nothing, or, where none alone will do, the mix that came nearest.
    pub besides: Vec<Change>,
    /// The answers, in the order of [`Remedy::LAST`].
    pub answers: Vec<Answer>,
}

impl Last {
    /// Whether anything would do: any of them, but the roofs only as many as need it.
    #[must_use]
    pub fn is_any(&self) -> bool {
        let roof = |answer: &&Answer| matches!(answer.remedy, Remedy::Roof(_));
        let works = |answer: &Answer| matches!(answer.outcome, Outcome::Works(_));
        let cannot = |answer: &Answer| matches!(answer.outcome, Outcome::Cannot(_));
        let mut roofs = self.answers.iter().filter(roof);
        let whole = self.answers.iter().filter(|answer| !roof(answer));
        whole.into_iter().any(works) || !roofs.any(cannot)
    }
}

/// The last remedies being worked out.
#[derive(Debug, Clone)]
pub struct LastWork {
    model: Model,
    preferences: Preferences,
    /// What came nearest, until it is on the car.
    nearest: Option<Nearest>,
    besides: Vec<Change>,
    lever: Option<LeverWork>,
    answers: Vec<Answer>,
}

impl LastWork {
    /// Begins the last remedies for one state, of which this mix came nearest.
    #[must_use]
    pub fn begin(model: &Model, nearest: Option<Nearest>, preferences: &Preferences) -> Self {
        Self {
            model: model.clone(),
            preferences: preferences.clone(),
            nearest,
            besides: Vec::new(),
            lever: None,
            answers: Vec::new(),
        }
    }

    /// Does a little more; gives the answers with the last.
    pub fn step(&mut self) -> Option<Last> {
        if let Some(lever) = &mut self.lever {
            if let Some(answer) = lever.step() {
                self.answers.push(answer);
                self.lever = None;
            }
            return None;
        }
        if let Some(&remedy) = Remedy::LAST.get(self.answers.len()) {
            self.lever = Some(LeverWork::begin(&self.model, remedy, &self.preferences));
            return None;
        }
        let last = Last {
            besides: std::mem::take(&mut self.besides),
            answers: std::mem::take(&mut self.answers),
        };
        if !last.is_any()
            && let Some(nearest) = self.nearest.take()
            && let Ok(model) = Model::new(&Change::all_applied(&nearest.changes, &self.model.car))
        {
            self.model = model;
            self.besides = nearest.changes;
            return None;
        }
        Some(last)
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Last {
        loop {
            if let Some(last) = self.step() {
                return last;
            }
        }
    }
}
