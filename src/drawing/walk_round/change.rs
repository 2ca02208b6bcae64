//! What will be changed.

use geometry::answers::{Answer, Change, Outcome, Remedy};
use geometry::check::SurfaceCheck;
use geometry::course::{Course, Found, Plan};
use geometry::side::Side;
use geometry::units::{Notation, format_length};

use super::Telling;
use super::phrases::{between_on, each, named, on_the_road, what};
use super::tried::{at, whats_tried};

/// What the panel is called.
pub(super) const HEADING: &str = "What we will change";

pub(super) fn told(course: &Course, notation: Notation) -> Telling {
    let mut telling = Telling {
        heading: HEADING,
        ..Telling::default()
    };
    match &course.plan {
        Plan::Nothing => {
            telling.heading = "What has to change";
            telling.sentences.push(
                "Nothing. The wheelhouses stay as the factory made them, and nobody cuts anything."
                    .to_owned(),
            );
        }
        Plan::Stands(_) | Plan::Mix(..) => {
            if course.cuts() {
                telling.sentences.push(
                    "The tub is the inner half of the wheelhouse. It is cut loose along its seam, where it was joined to \
                     the outer half, and set toward the middle of the car. A strip of new metal, the fill strip, closes \
                     the gap that is left."
                        .to_owned(),
                );
                telling
                    .sentences
                    .push(format!("{}.", capital(&cut_words(course.done(), notation))));
            } else {
                telling.sentences.push(if course.changes().is_empty() {
                    "No metal. What is on the car already makes the room.".to_owned()
                } else {
                    "No metal. What is listed here makes the room.".to_owned()
                });
            }
            telling.sentences.extend(gained(course, notation));
            if matches!(course.plan, Plan::Mix(..)) {
                telling.sentences.push(
                    "This is a proposal: the Bench and the Sheets still show the car without it. There, under “What would \
                     make it fit”, the shop puts it on the car with one press."
                        .to_owned(),
                );
            }
            telling.lines = course
                .changes()
                .iter()
                .filter(|change| !change.remedy.cuts())
                .map(|change| line(change, notation))
                .collect();
        }
        Plan::Cannot(nearest, last) => {
            telling.heading = "What would have to change";
            telling.sentences.push(format!(
                "Moving the tub will not do, so we would not cut it: the {} is what stops the tire.",
                what(&course.bare)
            ));
            if let Some(nearest) = nearest {
                telling.sentences.push(format!(
                    "Even the best mix of wheel, axle, stance and tub leaves the {} {} {} short of its room.",
                    nearest.says_no.side.word(),
                    course.bare.model.name(nearest.says_no.id),
                    format_length(nearest.missing, notation)
                ));
            }
            telling.lines = last
                .answers
                .iter()
                .filter_map(|answer| remedy_line(answer, notation))
                .collect();
            telling.sentences.push(
                if telling.lines.is_empty() {
                    "Nothing else was found that would do. Another tire is the way."
                } else if last.besides.is_empty() {
                    "Any one of these would do instead (a roof on each side that is named):"
                } else {
                    "Together with that mix, any one of these would do:"
                }
                .to_owned(),
            );
        }
    }
    telling
}

/// The cutting in a phrase.
pub(super) fn cut_words(done: &Found, notation: Notation) -> String {
    let sides = &done.model.car.sides;
    let seam = Side::BOTH.map(|side| sides.get(side).seam_move);
    let roof = Side::BOTH.map(|side| sides.get(side).roof_raise);
    let mut parts = Vec::new();
    if seam.iter().any(|&moved| moved > 0.0) {
        parts.push(format!(
            "the tub is set inboard by {}",
            of_sides(seam, notation)
        ));
    }
    if roof.iter().any(|&raised| raised > 0.0) {
        parts.push(format!(
            "the roof is raised by {}",
            of_sides(roof, notation)
        ));
    }
    parts.join(", and ")
}

/// What is changed besides the cutting, in a phrase that goes on from it; nothing where nothing is.
pub(super) fn besides_words(course: &Course) -> String {
    let others: Vec<&str> = course
        .changes()
        .iter()
        .filter_map(|change| match change.remedy {
            Remedy::Backspacing => Some("another wheel"),
            Remedy::TrackWidth => Some("another axle"),
            Remedy::Bump => Some("taller bump stops"),
            Remedy::RideHeight => Some("another ride height"),
            Remedy::SectionWidth => Some("a narrower tire"),
            Remedy::Diameter => Some("a lower tire"),
            Remedy::Ahead => Some("the axle set further ahead or back"),
            Remedy::Seam(_) | Remedy::Roof(_) => None,
        })
        .collect();
    match others.split_last() {
        None => String::new(),
        Some((last, [])) => format!(", together with {last}"),
        Some((last, before)) => format!(", together with {} and {last}", before.join(", ")),
    }
}

/// A cut on each side that has one.
fn of_sides([left, right]: [f64; 2], notation: Notation) -> String {
    match (left > 0.0, right > 0.0) {
        (true, false) => format!("{} on the left only", format_length(left, notation)),
        (false, true) => format!("{} on the right only", format_length(right, notation)),
        _ => {
            let both = each(left, right, notation);
            if both.contains("right") {
                both
            } else {
                format!("{both} on both sides")
            }
        }
    }
}

/// What is changed where nothing is cut, in a phrase.
pub(super) fn no_cut_words(course: &Course, notation: Notation) -> String {
    let words: Vec<String> = course
        .changes()
        .iter()
        .map(|change| {
            let (name, to) = line(change, notation);
            format!("{} ({})", lower(&name), to.trim_end_matches('.'))
        })
        .collect();
    if words.is_empty() {
        "what is on the car already makes the room".to_owned()
    } else {
        format!("this makes the room: {}", words.join(", "))
    }
}

/// A change's name, and from where to where.
fn line(change: &Change, notation: Notation) -> (String, String) {
    let (from, to) = (
        format_length(change.from, notation),
        format_length(change.to, notation),
    );
    let words = match change.remedy {
        Remedy::RideHeight => format!("{}.", at(change.remedy, change.to - change.from, notation)),
        _ => format!("{to} instead of {from}."),
    };
    let name = match change.remedy {
        Remedy::Backspacing => {
            "A wheel with other backspacing, from its mounting face to its inner edge"
        }
        Remedy::TrackWidth => "An axle with the middles of the tires this far apart",
        Remedy::Bump => "Bump stops that let the axle rise",
        other => whats_tried(other),
    };
    (name.to_owned(), words)
}

fn remedy_line(answer: &Answer, notation: Notation) -> Option<(String, String)> {
    let Outcome::Works(works) = &answer.outcome else {
        return None;
    };
    let value = works.rounded.unwrap_or(works.value);
    Some((
        whats_tried(answer.remedy).to_owned(),
        format!("{}.", at(answer.remedy, value, notation)),
    ))
}

/// The room that comes of it, where it was missing most.
fn gained(course: &Course, notation: Notation) -> Option<String> {
    let (side, before) = course.bare.check.worst()?;
    let surfaces = &course.done().check.sides.get(side).surfaces;
    let after: &SurfaceCheck = surfaces.iter().find(|after| after.id == before.id)?;
    Some(format!(
        "Between the tire and the {}, on the road: before, {}; then, {}. {} is asked for.",
        named(&course.bare, side, before),
        between_on(&course.bare, side, before, on_the_road, notation),
        between_on(course.done(), side, after, on_the_road, notation),
        format_length(after.travel_target, notation)
    ))
}

fn capital(words: &str) -> String {
    crate::rear::capital(words)
}

fn lower(words: &str) -> String {
    super::phrases::lower(words)
}
