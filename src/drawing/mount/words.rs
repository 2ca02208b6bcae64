//! What the picture says: whether it goes on, how tight it gets, and where the wheel is.

use geometry::math;
use geometry::model::Model;
use geometry::mount::{Finding, Mounting, Place, Spot};
use geometry::units::{Notation, degrees, format_length, shown, speak_length};

use super::tightest;
use crate::rear::capital;
use crate::words::bearing;

/// Whether the wheel goes on, in a sentence or two.
#[must_use]
pub fn mount_finding(model: &Model, mounting: &Mounting, notation: Notation) -> String {
    let side = mounting.side.word();
    let tight = capital(&tightest_words(model, mounting, notation));
    match mounting.finding {
        Finding::GoesOn => format!(
            "The {side} wheel goes on with the axle at full droop, {}. {tight}.",
            how(mounting, notation)
        ),
        Finding::WithDroop(extra) => format!(
            "The {side} wheel does not go on as the axle hangs: it takes {} more droop, or the body lifted so much over the axle; then it goes on, {}. {tight}.",
            format_length(extra, notation),
            how(mounting, notation)
        ),
        Finding::NoWay { .. } if mounting.seated.gap < 0.0 => format!(
            "The {side} wheel cannot sit on its flange as the axle hangs: it overlaps the {} by {}.",
            model.name(mounting.seated.surface),
            format_length(-mounting.seated.gap, notation)
        ),
        Finding::NoWay {
            up_to,
            searched_through,
        } => format!(
            "No way was found to bring the {side} wheel onto its flange, with up to {} more droop{}.",
            format_length(up_to, notation),
            if searched_through {
                ""
            } else {
                "; the search was given up before all was looked at"
            }
        ),
    }
}

/// Where the wheel is at a share of the way and what is nearest there.
#[must_use]
pub fn mount_here(model: &Model, mounting: &Mounting, share: f64, notation: Notation) -> String {
    let place = mounting.at(share);
    let words = capital(&place_words(place, notation));
    match mounting.nearest_stop(place) {
        Some(stop) => format!(
            "{words}; nearest is the {}.",
            spot_words(model, &stop.spot, notation)
        ),
        None => format!("{words}."),
    }
}

/// How it goes: straight in, or lowered and tilted.
fn how(mounting: &Mounting, notation: Notation) -> String {
    let most = |of: fn(&Place) -> f64| {
        let places = mounting.way.iter().map(|stop| of(&stop.place));
        places.fold(0.0, f64::max)
    };
    let (down, out, inward) = (
        most(|place| -place.up),
        most(|place| place.tilt),
        most(|place| -place.tilt),
    );
    let mut ways = Vec::new();
    if shown(down, notation) > 0.0 {
        ways.push(format!("fed from {} below", format_length(down, notation)));
    }
    for (tilt, word) in [(out, "out"), (inward, "in")] {
        if degrees(tilt) >= 0.5 {
            ways.push(format!(
                "its top leaned {word} by {:.0}\u{b0}",
                degrees(tilt)
            ));
        }
    }
    if ways.is_empty() {
        "straight in".to_owned()
    } else {
        ways.join(", ")
    }
}

/// `tightest at the quarter lip, 35° behind, 3/8 in free`.
fn tightest_words(model: &Model, mounting: &Mounting, notation: Notation) -> String {
    format!(
        "tightest at the {}",
        spot_words(model, tightest(mounting), notation)
    )
}

/// `quarter lip, 35° behind, 3/8 in free`.
pub(super) fn spot_words(model: &Model, spot: &Spot, notation: Notation) -> String {
    let around = bearing(math::atan2(spot.at_body.x, spot.at_body.z));
    let room = if shown(spot.gap, notation) > 0.0 {
        format!("{} free", format_length(spot.gap, notation))
    } else if spot.gap >= -geometry::mount::OVERLAP {
        "touching".to_owned()
    } else {
        format!("overlapping by {}", format_length(-spot.gap, notation))
    };
    format!("{}, {around}, {room}", model.name(spot.surface))
}

/// `4 in out, 1 1/2 in down, top leaned out 6°`; `on the flange`.
pub(super) fn place_words(place: Place, notation: Notation) -> String {
    told(place, notation, format_length, "\u{b0}")
}

/// The same at a share of the way, as a screen reader says it.
#[must_use]
pub fn mount_spoken(mounting: &Mounting, share: f64, notation: Notation) -> String {
    told(mounting.at(share), notation, speak_length, " degrees")
}

/// A place in words, its lengths told by `length`, its angle in `degree`.
fn told(
    place: Place,
    notation: Notation,
    length: fn(f64, Notation) -> String,
    degree: &str,
) -> String {
    let mut parts = Vec::new();
    for (value, more, less) in [(place.sideways, "out", "in"), (place.up, "up", "down")] {
        if shown(value.abs(), notation) > 0.0 {
            let word = if value > 0.0 { more } else { less };
            parts.push(format!("{} {word}", length(value.abs(), notation)));
        }
    }
    let tilt = degrees(place.tilt);
    if tilt.abs() >= 0.5 {
        let word = if tilt > 0.0 { "out" } else { "in" };
        parts.push(format!("top leaned {word} {:.0}{degree}", tilt.abs()));
    }
    if parts.is_empty() {
        "on the flange".to_owned()
    } else {
        parts.join(", ")
    }
}
