//! What else was tried, and why it falls short.

use geometry::answers::{Answer, Outcome, Remedy};
use geometry::body::Surface;
use geometry::check::Check;
use geometry::course::{Course, Found, Plan};
use geometry::model::Model;
use geometry::side::Side;
use geometry::units::{Notation, format_length};

use super::Telling;
use super::change;
use super::phrases::{between, hits_or_not};

/// What the panel is called.
pub(super) const HEADING: &str = "What else was tried";

pub(super) fn told(course: &Course, notation: Notation) -> Telling {
    let shown = |answer: &&Answer| {
        !matches!(answer.remedy, Remedy::Seam(_)) || matches!(course.plan, Plan::Cannot(..))
    };
    let lines: Vec<(String, String)> = course
        .tried
        .iter()
        .filter(shown)
        .filter_map(|answer| line(&course.bare.model, answer, notation))
        .collect();
    let alone = course.tried.iter().filter(|answer| !answer.remedy.cuts());
    let does = alone
        .filter(|answer| matches!(answer.outcome, Outcome::Works(_)))
        .count();
    let sentence = match (&course.plan, does) {
        (Plan::Nothing, _) => "Nothing else had to be tried: it fits as it is.",
        (_, 0) => {
            "Cutting comes last. Each of these was worked out on its own first, for every place the axle can be in, and none of them makes the room."
        }
        (_, 1) => {
            "Cutting comes last. Each of these was worked out on its own first, for every place the axle can be in. One of them makes the room without cutting."
        }
        _ => {
            "Cutting comes last. Each of these was worked out on its own first, for every place the axle can be in. Some of them make the room without cutting."
        }
    };
    Telling {
        heading: HEADING,
        sentences: std::iter::once(sentence.to_owned())
            .chain(together(course, notation))
            .collect(),
        lines,
    }
}

/// What all that is planned comes to without its cutting.
fn together(course: &Course, notation: Notation) -> Option<String> {
    let is_joined = course.changes().iter().any(|change| !change.remedy.cuts());
    if !(course.cuts() && is_joined) {
        return None;
    }
    let uncut = Found::uncut(&course.done().model);
    Some(format!(
        "Nor is it enough to do together, as far as each may go, what is listed under “{}”, all but the cutting. {}",
        change::HEADING,
        hits_or_not(&uncut, notation)
    ))
}

/// A remedy's name and what it comes to, a line.
fn line(model: &Model, answer: &Answer, notation: Notation) -> Option<(String, String)> {
    let remedy = answer.remedy;
    let words = match &answer.outcome {
        Outcome::Nothing => return None,
        Outcome::Works(works) => format!(
            "would do alone, {}.",
            at(remedy, works.rounded.unwrap_or(works.value), notation)
        ),
        Outcome::Cannot(cannot) => {
            let no = if cannot.at_least > 0.0 {
                "not enough"
            } else {
                "nothing was found that would do"
            };
            format!(
                "{no}. At best, {}, the {} {} still lacks {} of the room asked for.",
                at(remedy, cannot.best, notation),
                cannot.says_no.side.word(),
                model.name(cannot.says_no.id),
                format_length(cannot.missing, notation)
            )
        }
    };
    Some((whats_tried(remedy).to_owned(), words))
}

/// What is tried, as an owner would call it.
pub(super) fn whats_tried(remedy: Remedy) -> &'static str {
    match remedy {
        Remedy::Backspacing => "Another wheel, which sits further in or out",
        Remedy::TrackWidth => "A narrower or wider axle",
        Remedy::Bump => "Taller bump stops, so that the axle rises less",
        Remedy::RideHeight => "The body set higher",
        Remedy::SectionWidth => "A narrower tire",
        Remedy::Seam(Side::Left) => "The left tub cut loose and set inboard",
        Remedy::Seam(Side::Right) => "The right tub cut loose and set inboard",
        Remedy::Ahead => "The axle set further ahead or back",
        Remedy::Diameter => "A lower tire",
        Remedy::Roof(Side::Left) => "The left wheelhouse's roof raised",
        Remedy::Roof(Side::Right) => "The right wheelhouse's roof raised",
    }
}

/// A remedy's value in a phrase.
pub(super) fn at(remedy: Remedy, value: f64, notation: Notation) -> String {
    let size = format_length(value.abs(), notation);
    match remedy {
        Remedy::Backspacing => {
            format!(
                "with {size} from the wheel's mounting face to its inner edge (the backspacing)"
            )
        }
        Remedy::TrackWidth => format!("with the middles of the two tires {size} apart"),
        Remedy::Bump => format!("with {size} for the axle to rise"),
        Remedy::RideHeight if value < 0.0 => format!("{size} lower"),
        Remedy::RideHeight => format!("{size} higher"),
        Remedy::SectionWidth => format!("{size} wide"),
        Remedy::Seam(_) => format!("{size} inboard, as far as the frame rail lets it"),
        Remedy::Ahead if value < 0.0 => format!("{size} back from where it was meant to be"),
        Remedy::Ahead => format!("{size} ahead of where it was meant to be"),
        Remedy::Diameter => format!("{size} tall"),
        Remedy::Roof(_) => format!("by {size}"),
    }
}

/// Where the room is spent with this backspacing: the sentence that follows the wheel.
#[must_use]
pub fn spent(found: &Found, notation: Notation) -> String {
    let [inner, outer] = room_each_way(&found.check);
    format!(
        "With {} of backspacing: toward the middle of the car {}; toward the lip {}.",
        format_length(found.model.car.wheel.backspacing, notation),
        between(inner, notation),
        between(outer, notation)
    )
}

/// The least gap through travel toward the car's middle and toward the lip, mm, of both sides.
#[must_use]
pub fn room_each_way(check: &Check) -> [f64; 2] {
    let least = |is_of: fn(Surface) -> bool| {
        let surfaces = check.sides.iter().flat_map(|(_, list)| &list.surfaces);
        surfaces
            .filter(|surface| is_of(surface.id.surface))
            .map(|surface| surface.travel.low)
            .fold(f64::INFINITY, f64::min)
    };
    [
        least(|surface| {
            matches!(
                surface,
                Surface::TubCorner | Surface::TubWall | Surface::FrameRail
            )
        }),
        least(|surface| matches!(surface, Surface::QuarterLip | Surface::OuterHalf)),
    ]
}
