//! Answers in words: what each remedy would take, or what says no, the same in a terminal and on the page.

use geometry::answers::{Answer, Cannot, Change, Demand, Mix, Outcome, Remedy, When, Works};
use geometry::model::Model;

/// How a length is written.
pub type Say<'a> = &'a dyn Fn(f64) -> String;

/// What one remedy alone would take, as the rest of a sentence that begins with its name.
#[must_use]
pub fn answer(model: &Model, answer: &Answer, say: Say) -> String {
    match &answer.outcome {
        Outcome::Nothing => "nothing is needed".to_owned(),
        Outcome::Works(found) => works(model, answer, found, say),
        Outcome::Cannot(none) => cannot(model, answer.remedy, none, say),
    }
}

/// The mix that cuts least, as a whole sentence without its stop.
#[must_use]
pub fn mix(model: &Model, mix: &Mix, say: Say) -> String {
    match mix {
        Mix::Nothing => "every target is met as the car stands".to_owned(),
        Mix::Works(changes) => {
            let list: Vec<String> = changes.iter().map(|one| change(one, say)).collect();
            let cut = if changes.iter().any(|change| change.remedy.cuts()) {
                "that is the least cutting"
            } else {
                "nothing is cut"
            };
            format!("{}: {cut}", list.join(", "))
        }
        Mix::Cannot(Some((says_no, missing))) => format!(
            "no mix within the preferences will do: the {} stays {} short of its target",
            demand(model, *says_no),
            say(*missing)
        ),
        Mix::Cannot(None) => "no mix within the preferences will do".to_owned(),
    }
}

/// Which surface, on which side, and when.
#[must_use]
pub fn demand(model: &Model, demand: Demand) -> String {
    let when = match demand.when {
        When::AtRide => "at ride height",
        When::ThroughTravel => "through travel",
    };
    format!(
        "{} on the {}, {when},",
        model.name(demand.id),
        demand.side.word()
    )
}

/// One part of a mix: what it is changed to, and by how much.
#[must_use]
pub fn change(change: &Change, say: Say) -> String {
    format!(
        "{} {}",
        change.remedy.label().to_lowercase(),
        value(change.from, change.to, say)
    )
}

fn works(model: &Model, answer: &Answer, works: &Works, say: Say) -> String {
    let least = works.value - answer.present;
    let decides = demand(model, works.decides);
    match works.rounded {
        Some(rounded) => format!(
            "{} would do; the least is {}, and the {decides} decides",
            value(answer.present, rounded, say),
            by(least, say)
        ),
        None => format!(
            "{} would do, but no whole step; the {decides} decides",
            value(answer.present, works.value, say)
        ),
    }
}

fn cannot(model: &Model, remedy: Remedy, cannot: &Cannot, say: Say) -> String {
    let limit = match remedy {
        Remedy::Seam(side) if cannot.best >= *model.seam_limit.get(side) => {
            ", where tub and frame rail meet"
        }
        _ => "",
    };
    format!(
        "cannot: even at {}{limit}, the {} stays {} short of its target",
        say(cannot.best),
        demand(model, cannot.says_no),
        say(cannot.missing)
    )
}

/// A value, and by how much it differs from the present one, where that is not the same number.
fn value(from: f64, to: f64, say: Say) -> String {
    if from.abs() > 0.0 {
        format!("{} ({})", say(to), by(to - from, say))
    } else {
        say(to)
    }
}

fn by(change: f64, say: Say) -> String {
    let word = if change < 0.0 { "less" } else { "more" };
    format!("{} {word}", say(change.abs()))
}
