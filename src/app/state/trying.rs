//! Trying an answer on the car: the step that it is, what was on the car before, and what each row of the answers says.

use drawing::answers::{answer as told, change, value};
use geometry::answers::{Answer, Change, Outcome, Remedy};
use geometry::car::Car;
use geometry::model::Model;
use geometry::units::{Notation, format_length};

use super::history::History;
use super::work::Work;

/// What is tried: one remedy, or the mix.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Trial {
    /// One remedy, with what it needs besides.
    One(Remedy),
    /// The mix that cuts least.
    Mix,
}

/// One remedy's answer in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The remedy.
    pub remedy: Remedy,
    /// Its present value.
    pub now: String,
    /// What it would take, or what says no, as a sentence.
    pub told: String,
    /// Whether it can, or need not.
    pub can: bool,
    /// What trying it changes; nothing where there is nothing to try.
    pub changes: Vec<Change>,
}

impl Trial {
    /// What the step is called.
    pub fn step(self) -> String {
        match self {
            Trial::One(remedy) => format!("Try {}", remedy.label().to_lowercase()),
            Trial::Mix => "Try the mix".to_owned(),
        }
    }
}

/// The trial that is on the car, and the work that it was tried on: the last step, as long as nothing came after it.
pub fn on_the_car(history: &History<Work>) -> Option<(Trial, &Work)> {
    let step = history.past().last()?;
    if history.present() != history.settled() || !step.state.same_car(history.settled()) {
        return None;
    }
    let one = Remedy::ALL.into_iter().chain(Remedy::LAST).map(Trial::One);
    let trial = one
        .chain([Trial::Mix])
        .find(|trial| trial.step() == step.what)?;
    Some((trial, &step.state))
}

/// The answers' rows for one state of the car, each tried with `besides` on the car.
pub fn rows(model: &Model, answers: &[Answer], besides: &[Change], notation: Notation) -> Vec<Row> {
    let say = |length: f64| format_length(length, notation);
    answers
        .iter()
        .map(|answer| {
            let to = match &answer.outcome {
                Outcome::Works(works) => Some(works.rounded.unwrap_or(works.value)),
                Outcome::Nothing | Outcome::Cannot(_) => None,
            };
            Row {
                remedy: answer.remedy,
                now: value(answer.remedy, answer.present, &say),
                told: sentence(&told(model, answer, &say)),
                can: !matches!(answer.outcome, Outcome::Cannot(_)),
                changes: to.map_or(Vec::new(), |to| with(besides, answer, to)),
            }
        })
        .collect()
}

/// What is changed besides, then the answer's own remedy.
fn with(besides: &[Change], answer: &Answer, to: f64) -> Vec<Change> {
    let own = Change {
        remedy: answer.remedy,
        from: answer.present,
        to,
    };
    let others = besides.iter().filter(|change| change.remedy != own.remedy);
    others.copied().chain([own]).collect()
}

/// Puts all changes on a car, as its plan.
pub fn put_on(changes: &[Change], car: &mut Car) {
    *car = Change::all_planned(changes, car);
}

/// The parts of a mix, in words.
pub fn parts(changes: &[Change], notation: Notation) -> Vec<String> {
    let say = |length: f64| format_length(length, notation);
    let part = |one: &Change| sentence(&change(one, &say));
    changes.iter().map(part).collect()
}

/// Whether sheet metal is cut for any of these.
pub fn cuts(changes: &[Change]) -> bool {
    changes.iter().any(|change| change.remedy.cuts())
}

/// Words as a sentence.
pub fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    format!(
        "{}{}.",
        first.into_iter().flatten().collect::<String>(),
        letters.as_str().trim_end_matches('.')
    )
}

#[cfg(test)]
mod tests {
    use geometry::answers::{LeverWork, Preferences};

    use super::*;
    use crate::state::opening;

    /// The first invented car, and its answer of the left seam.
    fn asked() -> (Work, Row) {
        let work = opening::invented(0).expect("the first invented car opens");
        let model = Model::new(&work.car).expect("a sound car");
        let left = Remedy::ALL[5];
        let answer = LeverWork::begin(&model, left, &Preferences::default()).whole();
        let row = rows(&model, &[answer], &[], Notation::InchFractions).swap_remove(0);
        (work, row)
    }

    #[test]
    fn a_trial_is_one_step_and_known_for_what_it_is_until_something_comes_after_it() {
        let (work, row) = asked();
        let trial = Trial::One(row.remedy);
        assert!(row.can && row.now == "0 in", "{row:?}");
        let mut history = History::new(work.clone());
        assert_eq!(on_the_car(&history), None);
        history.commit(
            &trial.step(),
            work.with(|car| put_on(&row.changes, car)),
            0.0,
        );
        assert!(history.settled().car.sides.left.seam_move > 0.0);
        assert_eq!(on_the_car(&history), Some((trial, &work)));
        history.preview(work.with(|car| car.axle.spacer = 5.0));
        assert_eq!(on_the_car(&history), None);
        history.commit("Spacer", work.with(|car| car.axle.spacer = 5.0), 9e9);
        assert_eq!(on_the_car(&history), None);
        history.undo();
        history.undo();
        assert_eq!((on_the_car(&history), history.settled()), (None, &work));
    }

    #[test]
    fn every_trial_has_a_step_of_its_own() {
        let one = Remedy::ALL.into_iter().chain(Remedy::LAST).map(Trial::One);
        let mut steps: Vec<String> = one.chain([Trial::Mix]).map(Trial::step).collect();
        let count = steps.len();
        steps.sort();
        steps.dedup();
        assert_eq!(steps.len(), count);
    }

    #[test]
    fn words_become_a_sentence() {
        assert_eq!(sentence("nothing is needed"), "Nothing is needed.");
        assert_eq!(sentence("1/2 in would do."), "1/2 in would do.");
        assert_eq!(sentence(""), ".");
    }
}
