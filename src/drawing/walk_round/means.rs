//! What it means: metal, orders, cautions.

use geometry::answers::Remedy;
use geometry::course::{Course, Found, Plan};
use geometry::metal::{Order, Plugs, Strip, gauge};
use geometry::side::Side;
use geometry::units::{Notation, format_length};
use geometry::warnings::{Topic, warnings};

use super::Telling;
use super::phrases::weight;
use crate::words::warning_words;

/// What has to be known before metal is cut.
const STRUCTURE: &str = "A wheelhouse carries the car: seat belts, shocks and springs may be fastened to it, and the body \
     panel hangs on it. The fuel tank, fuel and brake lines and wiring are near where it is welded: they come out, or \
     nobody welds. The zinc on the sheet gives off fume that nobody should breathe. Whoever does this work has to know \
     how; ask your local rules, and where they want one, a licensed engineer or an inspector.";

/// What the page is.
const GEOMETRY: &str = "These pages are geometry, not approval.";

/// What the panel is called.
pub(super) const HEADING: &str = "What that means";

pub(super) fn told(course: &Course, notation: Notation) -> Telling {
    let done = course.done();
    let mut sentences = match &course.plan {
        Plan::Nothing => vec!["No metal, no welding. What counts is the tire that arrives: have it measured before it is paid for.".to_owned()],
        Plan::Cannot(..) => vec!["Nothing should be cut or ordered yet.".to_owned()],
        _ if course.cuts() => metal(done, notation),
        _ => vec![format!("No metal, no welding. {}", order(course, notation))],
    };
    if course.cuts() {
        sentences.push(order(course, notation));
        sentences.push(STRUCTURE.to_owned());
        sentences.extend(no_cut(done));
    }
    sentences.push(GEOMETRY.to_owned());
    Telling {
        heading: HEADING,
        sentences,
        lines: warned(done, notation, |topic| !topic.is_of_the_rim()),
    }
}

/// The warnings of some topics, each with its caution.
pub(super) fn warned(
    found: &Found,
    notation: Notation,
    is_meant: fn(Topic) -> bool,
) -> Vec<(String, String)> {
    let all = warnings(&found.model, &found.check);
    let meant = all.iter().filter(|warning| is_meant(warning.topic));
    meant
        .map(|warning| warning_words(warning, notation))
        .collect()
}

/// The metal that is made and held, side by side.
fn metal(done: &Found, notation: Notation) -> Vec<String> {
    let spec = &done.model.car.metal;
    let say = |length: f64| format_length(length, notation);
    let Some(thickness) = gauge::thickness(spec.gauge) else {
        return Vec::new();
    };
    let plugs = Plugs::of(spec, thickness);
    let strips: Vec<Strip> = Side::BOTH
        .into_iter()
        .filter_map(|side| Strip::of(&done.model, side))
        .collect();
    let (mut area, mut welds) = (0.0, 0);
    for strip in &strips {
        area += strip.pattern(spec.lap).area();
        welds += 2 * plugs.count(strip.edge_length());
    }
    let Some(longest) = strips.iter().map(Strip::length).reduce(f64::max) else {
        return vec!["New sheet closes what the raised roof leaves open.".to_owned()];
    };
    let widest = strips.iter().map(|strip| strip.width).fold(0.0, f64::max);
    let kilograms = gauge::weight(area, thickness);
    let many = if strips.len() == 1 {
        "One fill strip"
    } else {
        "Two fill strips"
    };
    vec![format!(
        "{many} of {:.0} gauge steel sheet, up to {} long and {} wide between the seams, held by {welds} welds in all. \
         They add {} to the car.",
        spec.gauge,
        say(longest),
        say(widest),
        weight(kilograms, notation)
    )]
}

/// What is bought.
fn order(course: &Course, notation: Notation) -> String {
    let order = Order::of(&course.done().model.car);
    let say = |length: f64| format_length(length, notation);
    let axle = if order.axle_change.abs() > 0.0 {
        format!(
            " The axle is made {} wide over its flanges.",
            say(order.axle)
        )
    } else {
        String::new()
    };
    let largest = say(order.largest_width);
    let tire = if order.largest_width > order.section_width {
        format!("which may turn out up to {largest} wide")
    } else {
        format!("{largest} wide as it was measured")
    };
    let done = course.done();
    let rim = if warnings(&done.model, &done.check)
        .iter()
        .any(|warning| warning.topic.is_of_the_rim())
    {
        " That rim is not one that lists have for this tire, see above: its maker is asked before either is ordered."
    } else {
        ""
    };
    let others: String = course
        .changes()
        .iter()
        .filter_map(|change| match change.remedy {
            Remedy::Bump => Some(format!(
                " Bump stops are needed that leave {} for the axle to rise.",
                say(change.to)
            )),
            Remedy::RideHeight => Some(format!(
                " So is what changes the ride height by {}.",
                say((change.to - change.from).abs())
            )),
            _ => None,
        })
        .collect();
    format!(
        "To be ordered: a wheel {} wide with {} of backspacing, and the tire, {tire}.{rim}{axle}{others}",
        say(order.rim_width),
        say(order.backspacing),
    )
}

/// Where the shop marked that nothing may be cut.
fn no_cut(done: &Found) -> Option<String> {
    let zones = &done.model.car.no_cut;
    let names: Vec<&str> = zones.iter().map(|zone| zone.name.as_str()).collect();
    (!names.is_empty()).then(|| format!("Marked as not to be cut: {}.", names.join(", ")))
}
