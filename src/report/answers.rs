//! The answers as text and as JSON: what each lever alone would take, or what says no, and the mix that cuts least.

use geometry::answers::{
    Answer, AnswersWork, Change, Demand, Last, LastWork, Mix, MixWork, Outcome, Preferences, When,
};
use geometry::check::{ACCURACY, Check};
use geometry::model::Model;
use geometry::units::{Notation, format_length};
use serde::Serialize;

/// All answers for one state.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// What each lever alone would take.
    pub levers: Vec<Answer>,
    /// The mix that cuts least.
    pub mix: Mix,
    /// What would do where neither will.
    pub last: Option<Last>,
}

impl Answers {
    /// Works them out.
    #[must_use]
    pub fn of(model: &Model, preferences: &Preferences) -> Self {
        let mix = MixWork::begin(model, preferences).whole();
        let last = match &mix {
            Mix::Cannot(nearest) => {
                Some(LastWork::begin(model, nearest.clone(), preferences).whole())
            }
            Mix::Nothing | Mix::Works(_) => None,
        };
        Self {
            levers: AnswersWork::begin(model, preferences).whole(),
            mix,
            last,
        }
    }

    /// A lever a line, then the mix.
    #[must_use]
    pub fn to_text(&self, model: &Model) -> String {
        let last = self.last.as_ref();
        let labels = self
            .levers
            .iter()
            .chain(last.map_or(&[][..], |last| &last.answers));
        let widest = labels
            .map(|answer| answer.remedy.label().chars().count())
            .max()
            .unwrap_or(0);
        let lines = |answers: &[Answer]| {
            let line = |answer: &Answer| {
                let told = drawing::answers::answer(model, answer, &both);
                format!("{:widest$}  {told}\n", answer.remedy.label())
            };
            answers.iter().map(line).collect::<String>()
        };
        let mix = drawing::answers::mix(model, &self.mix, &both);
        let last = last.map_or(String::new(), |last| {
            let head = drawing::answers::last(last, &both);
            format!("\n{head}\n\n{}", lines(&last.answers))
        });
        format!(
            "{}\n\n{}\n{:widest$}  {mix}\n{last}",
            model.car.name,
            lines(&self.levers),
            "Mix"
        )
    }

    /// The same for programs; lengths are millimeters.
    #[must_use]
    pub fn to_json(&self, model: &Model, check: &Check) -> String {
        let report = Report {
            car: &model.car.name,
            verdict: check.verdict().word(),
            accuracy_mm: ACCURACY,
            levers: self
                .levers
                .iter()
                .map(|answer| lever(model, answer))
                .collect(),
            mix: mix(model, &self.mix),
            last: self.last.as_ref().map(|last| LastRow {
                besides: last.besides.iter().map(changed).collect(),
                levers: last
                    .answers
                    .iter()
                    .map(|answer| lever(model, answer))
                    .collect(),
            }),
        };
        // Only a map with keys that are no text could fail, and there is none in here.
        serde_json::to_string_pretty(&report).unwrap_or_default()
    }
}

fn both(length: f64) -> String {
    format!(
        "{} / {}",
        format_length(length, Notation::InchFractions),
        format_length(length, Notation::Millimeters)
    )
}

#[derive(Serialize)]
struct Report<'a> {
    car: &'a str,
    verdict: &'a str,
    accuracy_mm: f64,
    levers: Vec<LeverRow>,
    mix: MixRow,
    last: Option<LastRow>,
}

#[derive(Serialize)]
struct LastRow {
    besides: Vec<ChangeRow>,
    levers: Vec<LeverRow>,
}

#[derive(Serialize)]
struct LeverRow {
    lever: &'static str,
    present_mm: f64,
    #[serde(flatten)]
    outcome: Row,
}

#[derive(Serialize)]
#[serde(tag = "outcome", rename_all = "lowercase")]
enum Row {
    Nothing,
    Works {
        least_mm: f64,
        nothing_within_mm: f64,
        rounded_mm: Option<f64>,
        decides: Place,
    },
    Cannot {
        best_mm: f64,
        missing_mm: f64,
        missing_at_least_mm: f64,
        says_no: Place,
    },
}

#[derive(Serialize)]
#[serde(tag = "outcome", rename_all = "lowercase")]
enum MixRow {
    Nothing,
    Works {
        cuts: bool,
        changes: Vec<ChangeRow>,
    },
    Cannot {
        missing_mm: Option<f64>,
        says_no: Option<Place>,
    },
}

#[derive(Serialize)]
struct ChangeRow {
    lever: &'static str,
    from_mm: f64,
    to_mm: f64,
}

#[derive(Serialize)]
struct Place {
    side: &'static str,
    surface: String,
    when: &'static str,
}

fn lever(model: &Model, answer: &Answer) -> LeverRow {
    let outcome = match &answer.outcome {
        Outcome::Nothing => Row::Nothing,
        Outcome::Works(works) => Row::Works {
            least_mm: works.value,
            nothing_within_mm: works.proven,
            rounded_mm: works.rounded,
            decides: surface(model, works.decides),
        },
        Outcome::Cannot(cannot) => Row::Cannot {
            best_mm: cannot.best,
            missing_mm: cannot.missing,
            missing_at_least_mm: cannot.at_least,
            says_no: surface(model, cannot.says_no),
        },
    };
    LeverRow {
        lever: answer.remedy.key(),
        present_mm: answer.present,
        outcome,
    }
}

fn mix(model: &Model, mix: &Mix) -> MixRow {
    match mix {
        Mix::Nothing => MixRow::Nothing,
        Mix::Works(changes) => MixRow::Works {
            cuts: changes.iter().any(|change| change.remedy.cuts()),
            changes: changes.iter().map(changed).collect(),
        },
        Mix::Cannot(nearest) => MixRow::Cannot {
            missing_mm: nearest.as_ref().map(|nearest| nearest.missing),
            says_no: nearest
                .as_ref()
                .map(|nearest| surface(model, nearest.says_no)),
        },
    }
}

fn changed(change: &Change) -> ChangeRow {
    ChangeRow {
        lever: change.remedy.key(),
        from_mm: change.from,
        to_mm: change.to,
    }
}

fn surface(model: &Model, demand: Demand) -> Place {
    Place {
        side: demand.side.word(),
        surface: model.name(demand.id),
        when: match demand.when {
            When::AtRide => "ride",
            When::ThroughTravel => "travel",
        },
    }
}
