//! Answers in words: what each remedy would take, or what says no, the same in a terminal and on the page.

use geometry::answers::{Answer, Cannot, Change, Demand, Last, Mix, Outcome, Remedy, When, Works};
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
            let cut = if changes.iter().any(|change| change.remedy.cuts()) {
                "that is the least cutting"
            } else {
                "nothing is cut"
            };
            format!("{}: {cut}", list(changes, say))
        }
        Mix::Cannot(Some(nearest)) => format!(
            "no mix within the preferences will do: the {} stays {} short of its target",
            demand(model, nearest.says_no),
            say(nearest.missing)
        ),
        Mix::Cannot(None) => "no mix within the preferences will do".to_owned(),
    }
}

/// What stands before the answers of the last remedies: why they were asked, and what is on the car besides.
#[must_use]
pub fn last(last: &Last, say: Say) -> String {
    let why = "Nothing of these will do, alone or together.";
    if last.besides.is_empty() {
        format!("{why} What would have to change instead:")
    } else {
        format!(
            "{why} Nor will what follows alone; with {} besides:",
            list(&last.besides, say)
        )
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
    let Change { remedy, from, to } = *change;
    format!(
        "{} {}",
        remedy.label().to_lowercase(),
        changed(remedy, [from, to], say)
    )
}

/// A remedy's value.
#[must_use]
pub fn value(remedy: Remedy, value: f64, say: Say) -> String {
    match remedy {
        Remedy::Ahead if value < 0.0 => format!("{} back", say(-value)),
        Remedy::RideHeight if value < 0.0 => format!("{} lower", say(-value)),
        Remedy::RideHeight if value > 0.0 => format!("{} higher", say(value)),
        _ => say(value),
    }
}

fn list(changes: &[Change], say: Say) -> String {
    let each: Vec<String> = changes.iter().map(|one| change(one, say)).collect();
    each.join(", ")
}

/// How much of what was stepped over may be unproved, mm, for the value found to be called the least: less than a tape
/// can tell.
const UNPROVED: f64 = 0.5;

fn works(model: &Model, answer: &Answer, works: &Works, say: Say) -> String {
    let (remedy, from) = (answer.remedy, answer.present);
    let least = works.value - from;
    let decides = demand(model, works.decides);
    let is_least = least.abs() - works.proven < UNPROVED;
    let least = by(remedy, least, say);
    match works.rounded {
        // A value that reads the same need not be told twice.
        Some(rounded) if by(remedy, rounded - from, say) == least => format!(
            "{} would do, and the {decides} decides",
            changed(remedy, [from, rounded], say)
        ),
        Some(rounded) => format!(
            "{} would do; the least {} {least}, and the {decides} decides",
            changed(remedy, [from, rounded], say),
            if is_least { "is" } else { "that was found is" },
        ),
        None => format!(
            "{} would do, but no whole step; the {decides} decides",
            changed(remedy, [from, works.value], say)
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
    let sure = if cannot.at_least > 0.0 {
        "cannot"
    } else {
        "nothing was found that would do"
    };
    format!(
        "{sure}: even at {}{limit}, the {} stays {} short of its target",
        value(remedy, cannot.best, say),
        demand(model, cannot.says_no),
        say(cannot.missing)
    )
}

/// A value, and by how much it differs from the present one, where that is not the same number.
fn changed(remedy: Remedy, [from, to]: [f64; 2], say: Say) -> String {
    if from.abs() > 0.0 {
        format!(
            "{} ({})",
            value(remedy, to, say),
            by(remedy, to - from, say)
        )
    } else {
        value(remedy, to, say)
    }
}

fn by(remedy: Remedy, change: f64, say: Say) -> String {
    let word = match (remedy, change < 0.0) {
        (Remedy::Ahead, true) => "further back",
        (Remedy::Ahead, false) => "further ahead",
        (Remedy::RideHeight, true) => "lower",
        (Remedy::RideHeight, false) => "higher",
        (_, true) => "less",
        (_, false) => "more",
    };
    format!("{} {word}", say(change.abs()))
}
