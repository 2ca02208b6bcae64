//! Phrases that more than one panel uses.

use geometry::body::Surface;
use geometry::check::{SurfaceCheck, Verdict};
use geometry::course::Found;
use geometry::side::Side;
use geometry::units::{KG_PER_POUND, Notation, format_length, shown};

/// Gaps nearer to each other than a tape can tell are the same on both sides, mm.
const SAME: f64 = 0.5;

/// What a surface is, in a few words, for whoever does not know its name.
pub(super) fn plainly(surface: Surface) -> &'static str {
    match surface {
        Surface::QuarterLip => "the folded edge of the body over the wheel",
        Surface::OuterHalf => "the outer side of the sheet-metal box round the tire",
        Surface::Roof => "the top of the sheet-metal box round the tire",
        Surface::TubCorner => "where the top of the sheet-metal box turns down into its inner side",
        Surface::TubWall => "the inner side of the sheet-metal box round the tire",
        Surface::FrameRail => "the beam that carries the car",
        Surface::Obstacle => "a part bolted near the tire",
    }
}

/// What stops the tire, without its article: `left tub wall`, `tub wall on both sides`.
pub(super) fn what(found: &Found) -> String {
    found
        .check
        .worst()
        .map_or("body".to_owned(), |(side, surface)| {
            named(found, side, surface)
        })
}

/// The same for any surface.
pub(super) fn named(found: &Found, side: Side, surface: &SurfaceCheck) -> String {
    match twin(found, side, surface) {
        Some(_) => format!("{} on both sides", surface.name),
        None => format!("{} {}", side.word(), surface.name),
    }
}

/// The same surface on the other side, where it fares alike.
fn twin<'f>(found: &'f Found, side: Side, surface: &SurfaceCheck) -> Option<&'f SurfaceCheck> {
    let other = match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    };
    let mut surfaces = found.check.sides.get(other).surfaces.iter();
    surfaces.find(|twin| {
        twin.id == surface.id && twin.name == surface.name && twin.verdict == surface.verdict
    })
}

/// Whether a gap is told of both sides, and a tape tells that the other side's is another.
fn differs(
    found: &Found,
    side: Side,
    surface: &SurfaceCheck,
    gap: fn(&SurfaceCheck) -> f64,
    notation: Notation,
) -> bool {
    let read = |surface: &SurfaceCheck| shown(gap(surface), notation);
    twin(found, side, surface).is_some_and(|twin| read(twin).total_cmp(&read(surface)).is_ne())
}

/// What is between the tire and a surface, on the side where it is worse: told of both sides, it is a limit.
pub(super) fn between_on(
    found: &Found,
    side: Side,
    surface: &SurfaceCheck,
    gap: fn(&SurfaceCheck) -> f64,
    notation: Notation,
) -> String {
    let (worse, length) = (gap(surface), format_length(gap(surface).abs(), notation));
    if !differs(found, side, surface, gap, notation) || shown(worse, notation) == 0.0 {
        between(worse, notation)
    } else if worse < 0.0 {
        format!("they overlap by up to {length}")
    } else {
        format!("{length} or more is left between them")
    }
}

/// What is between tire and metal: `they overlap by 1/8 in`, `3 in is left`, `they just touch`.
#[must_use]
pub fn between(gap: f64, notation: Notation) -> String {
    let length = format_length(gap.abs(), notation);
    if shown(gap, notation) == 0.0 {
        "they just touch".to_owned()
    } else if gap < 0.0 {
        format!("they overlap by {length}")
    } else {
        format!("{length} is left between them")
    }
}

/// A weight in both units, that of the notation first.
#[must_use]
pub fn weight(kilograms: f64, notation: Notation) -> String {
    let pounds = kilograms / KG_PER_POUND;
    match notation {
        Notation::Millimeters => format!("{kilograms:.1} kg ({pounds:.1} lb)"),
        Notation::InchFractions | Notation::InchDecimals => {
            format!("{pounds:.1} lb ({kilograms:.1} kg)")
        }
    }
}

/// A number for each side, said once where a tape cannot tell them apart: `1 1/2 in`, `1 in left and 2 in right`.
pub(super) fn each(left: f64, right: f64, notation: Notation) -> String {
    let say = |length: f64| format_length(length, notation);
    if (left - right).abs() < SAME
        || shown(left, notation)
            .total_cmp(&shown(right, notation))
            .is_eq()
    {
        say(left)
    } else {
        format!("{} on the left and {} on the right", say(left), say(right))
    }
}

/// The gap on the road.
pub(super) fn on_the_road(surface: &SurfaceCheck) -> f64 {
    surface.travel.low
}

/// The gap with the car standing still.
pub(super) fn standing_still(surface: &SurfaceCheck) -> f64 {
    surface.ride.low
}

/// What the whole car does, through travel and at rest, in a sentence: the sentence that follows a lever.
#[must_use]
pub fn hits_or_not(found: &Found, notation: Notation) -> String {
    let Some((side, surface)) = found.check.worst() else {
        return "There is nothing near the tire.".to_owned();
    };
    let what = named(found, side, surface);
    let say = |length: f64| format_length(length, notation);
    match surface.verdict {
        Verdict::Hits => {
            let overlap = surface.travel.low.min(surface.ride.low);
            let when = if shown(surface.ride.low, notation) > shown(overlap, notation) {
                " on the road"
            } else {
                ""
            };
            if shown(overlap, notation) == 0.0 {
                return format!("The tire just hits the {what}{when}.");
            }
            let least = |surface: &SurfaceCheck| surface.travel.low.min(surface.ride.low);
            let up_to = if differs(found, side, surface, least, notation) {
                "up to "
            } else {
                ""
            };
            format!(
                "The tire hits the {what}, by {up_to}{}{when}.",
                say(-overlap)
            )
        }
        Verdict::Tight => {
            let (gap, target, when) = short(surface);
            if shown(gap, notation)
                .total_cmp(&shown(target, notation))
                .is_eq()
            {
                return format!(
                    "The tire comes a hair nearer to the {what} {when} than the {} that is asked for.",
                    say(target)
                );
            }
            format!(
                "The tire comes as near as {} to the {what} {when}; {} is asked for.",
                say(gap),
                say(target)
            )
        }
        Verdict::Clears => format!(
            "The tire clears everything. The {what} stays {}{} away on the road.",
            if differs(found, side, surface, on_the_road, notation) {
                "at least "
            } else {
                ""
            },
            say(surface.travel.low)
        ),
    }
}

/// The gap that falls shortest of its target, the target, and when that is.
pub(super) fn short(surface: &SurfaceCheck) -> (f64, f64, &'static str) {
    let ride = surface.ride.low - surface.ride_target;
    if surface.travel.low - surface.travel_target <= ride {
        (surface.travel.low, surface.travel_target, "on the road")
    } else {
        (surface.ride.low, surface.ride_target, "standing still")
    }
}

/// The tire's size in a sentence, and what it does: the sentence that follows the width.
#[must_use]
pub fn size(found: &Found, notation: Notation) -> String {
    format!(
        "{} wide: {}",
        format_length(found.model.car.section_width(), notation),
        lower(&hits_or_not(found, notation))
    )
}

/// With a small letter at its start: the words are ours.
#[must_use]
pub fn lower(sentence: &str) -> String {
    let mut lower = sentence.to_owned();
    if let Some(first) = lower.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    lower
}
