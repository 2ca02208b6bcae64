//! What stops the tire in the wheelhouses as the factory made them.

use geometry::body::SurfaceId;
use geometry::check::{SurfaceCheck, Verdict};
use geometry::course::Found;
use geometry::gap::Gap;
use geometry::side::{Side, Sides};
use geometry::units::{Notation, format_length, shown};

use super::Telling;
use super::phrases::{between, between_on, named, on_the_road, plainly, standing_still};

pub(super) fn told(bare: &Found, notation: Notation) -> Telling {
    let Some((side, surface)) = bare.check.worst() else {
        return Telling {
            heading: "What stops it",
            sentences: vec!["Nothing: there is no metal near the tire.".to_owned()],
            lines: Vec::new(),
        };
    };
    let what = named(bare, side, surface);
    let meaning = plainly(surface.id.surface);
    let say = |length: f64| format_length(length, notation);
    let still = between_on(bare, side, surface, standing_still, notation);
    let road = between_on(bare, side, surface, on_the_road, notation);
    let (heading, mut sentences) = match surface.verdict {
        Verdict::Clears => (
            "What comes nearest",
            vec![format!(
                "Nothing stops it. What comes nearest to being in the way is the {what}: {meaning}. On the road {road}; {} is asked for.",
                say(surface.travel_target)
            )],
        ),
        Verdict::Hits => (
            "What stops it",
            vec![
                format!("The {what} stops it: {meaning}."),
                if shown(surface.ride.low, notation) < 0.0 {
                    format!(
                        "Tire and metal would be in the same place: with the car standing still {still}. On the road, where the axle rises and tilts, {road}."
                    )
                } else {
                    format!(
                        "With the car standing still {still}. On the road, where the axle rises and tilts, {road}: the metal would cut the tire."
                    )
                },
            ],
        ),
        Verdict::Tight => (
            "What stops it",
            vec![
                format!("The {what} is too near: {meaning}."),
                format!(
                    "With the car standing still {still}. On the road, where the axle rises and tilts, {road}. The room asked for is {} standing still and {} on the road, because tires flex and bodies do too.",
                    say(surface.ride_target),
                    say(surface.travel_target)
                ),
            ],
        ),
    };
    sentences.extend(others(bare, surface));
    Telling {
        heading,
        sentences,
        lines: Vec::new(),
    }
}

/// What else is in the way, and what is too near.
fn others(bare: &Found, first: &SurfaceCheck) -> Vec<String> {
    let of_first = bare.model.name(first.id);
    let named = |verdict: Verdict, but: &[String]| {
        let mut names: Vec<String> = Vec::new();
        let surfaces = bare.check.sides.iter().flat_map(|(_, list)| &list.surfaces);
        for surface in surfaces.filter(|other| other.verdict == verdict) {
            if surface.name != of_first
                && !names.contains(&surface.name)
                && !but.contains(&surface.name)
            {
                names.push(surface.name.clone());
            }
        }
        names
    };
    let hit = named(Verdict::Hits, &[]);
    let near = named(Verdict::Tight, &hit);
    let lists = [("In the way as well", hit), ("Too near as well", near)];
    let sentence = |(what, names): (&str, Vec<String>)| {
        let (last, before) = names.split_last()?;
        Some(if before.is_empty() {
            format!("{what}: the {last}.")
        } else {
            format!("{what}: the {} and the {last}.", before.join(", the "))
        })
    };
    lists.into_iter().filter_map(sentence).collect()
}

/// How near it is where the axle is held: the sentence that follows the bump.
#[must_use]
pub fn held(
    bare: &Found,
    gaps: &Sides<Vec<(SurfaceId, Gap)>>,
    pose_words: &str,
    notation: Notation,
) -> String {
    let Some((side, worst)) = bare.check.worst() else {
        return String::new();
    };
    let gap = |side: Side| {
        let mut here = gaps.get(side).iter();
        here.find(|(id, _)| *id == worst.id).map(|(_, gap)| gap.low)
    };
    match gap(side) {
        Some(gap) => format!(
            "{pose_words}, tire and {} {}: {}.",
            side.word(),
            worst.name,
            between(gap, notation)
        ),
        None => String::new(),
    }
}
