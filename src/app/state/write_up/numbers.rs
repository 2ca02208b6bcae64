//! The numbers that the Write-up's sentences follow, chapter by chapter.

use std::f64::consts::FRAC_PI_2;

use drawing::walk_round::{
    between, hits_or_not, lower, room_each_way, seen as seen_from_behind, weight,
};
use drawing::{bearing, mount_finding};
use geometry::body::Surface;
use geometry::car::Lever;
use geometry::check::{SurfaceCheck, Verdict};
use geometry::course::Found;
use geometry::math;
use geometry::metal::{Plugs, Strip, gauge};
use geometry::side::Side;
use geometry::tire::Arrival;
use geometry::units::{Notation, format_length, shown};

use super::Numbers;
use crate::state::around::pose_words;
use crate::state::exhibit::{Knob, Seen};

/// An eighth of an inch, mm: what a reading may be off.
const EIGHTH: f64 = 3.175;

fn say(length: f64, notation: Notation) -> String {
    format_length(length, notation)
}

/// The surfaces of both sides, each with its side.
fn surfaces(found: &Found) -> impl Iterator<Item = (Side, &SurfaceCheck)> {
    let sides = found.check.sides.iter();
    sides.flat_map(|(side, list)| list.surfaces.iter().map(move |surface| (side, surface)))
}

pub(super) fn of_side(found: &Found, side: Side, surface: Surface) -> Option<&SurfaceCheck> {
    let surfaces = &found.check.sides.get(side).surfaces;
    surfaces.iter().find(|found| found.id.surface == surface)
}

pub(super) fn stands(seen: &Seen) -> Numbers {
    let at_rest = surfaces(seen.found).min_by(|(_, a), (_, b)| a.ride.low.total_cmp(&b.ride.low));
    let (name, gap) = at_rest.map_or((String::new(), f64::INFINITY), |(_, surface)| {
        (surface.name.clone(), surface.ride.low)
    });
    vec![
        (
            "width",
            say(seen.found.model.car.section_width(), seen.notation),
        ),
        ("verdict", lower(&hits_or_not(seen.found, seen.notation))),
        ("surface", name),
        ("gap", between(gap, seen.notation)),
    ]
}

pub(super) fn measure(seen: &Seen) -> Numbers {
    let wall = |found: &Found| {
        of_side(found, Side::Left, Surface::TubWall).map_or(0.0, |wall| wall.ride.low)
    };
    let reading = Knob::TubHigh.value(&seen.found.model.car);
    let off = |by: f64| {
        let found = Knob::TubHigh.moved(seen.base, reading + by);
        found.map_or(wall(seen.found), |found| wall(&found))
    };
    let gaps = [off(-EIGHTH), off(EIGHTH)];
    let (least, most) = (gaps[0].min(gaps[1]), gaps[0].max(gaps[1]));
    let target = seen.found.model.car.targets.ride;
    let turns = if Verdict::of(least, target) == Verdict::of(most, target) {
        ""
    } else {
        " That is enough to turn the verdict, so it is measured again."
    };
    let mut largest = seen.found.model.car.clone();
    largest.tire.arrival = Arrival::Largest;
    vec![
        ("reading", say(reading, seen.notation)),
        ("gap", between(wall(seen.found), seen.notation)),
        ("least", say(least, seen.notation)),
        ("most", say(most, seen.notation)),
        ("turns", turns.to_owned()),
        (
            "nominal",
            say(seen.found.model.car.section_width(), seen.notation),
        ),
        ("largest", say(largest.section_width(), seen.notation)),
    ]
}

pub(super) fn backspacing(seen: &Seen) -> Numbers {
    let [inner, outer] = room_each_way(&seen.found.check);
    let asked = 2.0 * seen.found.model.car.targets.travel;
    // What the car has, wherever the lever stands.
    let enough = if room_each_way(&seen.base.check).iter().sum::<f64>() >= asked {
        format!(
            "Twice the gap that is asked for is {}: there is a wheel with which this tire has it on both sides.",
            say(asked, seen.notation)
        )
    } else {
        format!(
            "Twice the gap that is asked for is {}: no wheel will do for this tire, and no axle either.",
            say(asked, seen.notation)
        )
    };
    vec![
        (
            "backspacing",
            say(seen.found.model.car.wheel.backspacing, seen.notation),
        ),
        ("inner", between(inner, seen.notation)),
        ("outer", between(outer, seen.notation)),
        ("sum", say(inner + outer, seen.notation)),
        ("enough", enough),
    ]
}

/// Where tire and metal come nearest through travel.
pub fn nearest(found: &Found) -> Option<(Side, &SurfaceCheck)> {
    surfaces(found).min_by(|(_, a), (_, b)| a.travel.low.total_cmp(&b.travel.low))
}

/// The angle round the wheel of the spot where it is nearest, as far as a section goes, radians.
pub fn spot_angle(surface: &SurfaceCheck) -> f64 {
    let at = surface.travel.witness.at_body;
    math::atan2(at.x, at.z).clamp(-FRAC_PI_2, FRAC_PI_2)
}

pub(super) fn travel(seen: &Seen) -> Numbers {
    let Some((_, surface)) = nearest(seen.found) else {
        return Vec::new();
    };
    vec![
        ("bump", say(seen.found.model.car.travel.bump, seen.notation)),
        ("surface", surface.name.clone()),
        ("angle", bearing(spot_angle(surface))),
        (
            "pose",
            pose_words(surface.travel.witness.pose, seen.notation),
        ),
        ("gap", between(surface.travel.low, seen.notation)),
        ("rest", between(surface.ride.low, seen.notation)),
    ]
}

pub(super) fn seam(seen: &Seen) -> Numbers {
    let tub = |found: &Found| {
        let of_tub = |(_, surface): &(Side, &SurfaceCheck)| {
            matches!(surface.id.surface, Surface::TubWall | Surface::TubCorner)
        };
        let gaps = surfaces(found)
            .filter(of_tub)
            .map(|(_, surface)| surface.travel.low);
        gaps.fold(f64::INFINITY, f64::min)
    };
    let stock = Found::uncut(&seen.found.model);
    let limit = &seen.found.model.seam_limit;
    let more = tub(seen.found) - tub(&stock);
    let gain = if shown(more, seen.notation) > 0.0 {
        format!("{} more than", say(more, seen.notation))
    } else {
        "as much as".to_owned()
    };
    vec![
        (
            "seam",
            say(Lever::SeamMove.get(&seen.found.model.car), seen.notation),
        ),
        ("gap", between(tub(seen.found), seen.notation)),
        ("gain", gain),
        (
            "surface",
            nearest(seen.found).map_or(String::new(), |(_, surface)| surface.name.clone()),
        ),
        ("limit", say(limit.left.min(limit.right), seen.notation)),
    ]
}

pub(super) fn metal(seen: &Seen) -> Numbers {
    let model = &seen.found.model;
    let spec = &model.car.metal;
    let thickness = gauge::thickness(spec.gauge).unwrap_or_default();
    let plugs = Plugs::of(spec, thickness);
    let strip = Strip::of(model, Side::Left);
    let made = strip.as_ref().map_or_else(
        || "with the seam where it is, there is no strip to make.".to_owned(),
        |strip| {
            format!(
                "with the seam moved {}, each strip is {} long and {} wide from seam to seam. Of {:.0} gauge sheet it weighs {} with its laps and spare ends.",
                say(Lever::SeamMove.get(&model.car), seen.notation),
                say(strip.length(), seen.notation),
                say(strip.width, seen.notation),
                spec.gauge,
                weight(
                    gauge::weight(strip.pattern(spec.lap).area(), thickness),
                    seen.notation
                )
            )
        },
    );
    let count = strip.map_or(String::new(), |strip| {
        format!(": {} on each edge", plugs.count(strip.edge_length()))
    });
    vec![
        ("made", made),
        ("hole", say(plugs.hole, seen.notation)),
        ("pitch", say(plugs.pitch, seen.notation)),
        ("count", count),
    ]
}

pub(super) fn mount(seen: &Seen) -> Numbers {
    let verdict = seen.mounting.map_or_else(
        || "The way on is being searched.".to_owned(),
        |mounting| mount_finding(&seen.found.model, mounting, seen.notation),
    );
    vec![("verdict", verdict)]
}

pub(super) fn checks(seen: &Seen) -> Numbers {
    vec![("seen", seen_from_behind(seen.found, seen.notation))]
}
