//! What it will look like from behind.

use geometry::body::Surface;
use geometry::course::{Course, Found, Plan};
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::units::{Notation, format_length, shown};

use super::Telling;
use super::phrases::each;

/// What the panel is called.
pub(super) const HEADING: &str = "What it will look like";

pub(super) fn told(course: &Course, notation: Notation) -> Telling {
    let first = match course.plan {
        Plan::Cannot(..) => "From behind, with the tire that was asked for, if it went on:",
        _ => "From behind, the car standing still:",
    };
    Telling {
        heading: HEADING,
        sentences: vec![format!("{first} {}", seen(course.done(), notation))],
        lines: Vec::new(),
    }
}

/// Where the tire stands under the body: the sentence that follows the ride height.
#[must_use]
pub fn seen(found: &Found, notation: Notation) -> String {
    let model = &found.model;
    let outside = Sides::each(|side| tread_outside(model, side));
    let tucked = Sides::each(|side| tucked(model, side));
    format!(
        "the tread ends {}, and {}.",
        inside_or_out(outside, notation),
        hidden(tucked, notation)
    )
}

/// How far the tread's edge stands outside the quarter lip straight up, mm.
pub(super) fn tread_outside(model: &Model, side: Side) -> f64 {
    let tread = f64::midpoint(model.car.track_width(), model.tire.tread_width);
    let station = model.moved.get(side);
    let lip = station
        .segments()
        .filter(|(surface, ..)| *surface == Surface::QuarterLip)
        .map(|(_, a, b)| a.x.max(b.x))
        .fold(f64::NEG_INFINITY, f64::max);
    tread - lip
}

/// How far the tire's top stands above the edge of the lip at ride height, mm.
fn tucked(model: &Model, side: Side) -> f64 {
    let top = model.motion.ride + model.tire.inputs.diameter / 2.0;
    let edge = model.moved.get(side).points.first();
    top - edge.map_or(top, |edge| edge.y)
}

fn inside_or_out(outside: Sides<f64>, notation: Notation) -> String {
    let word = |value: f64| {
        if shown(value, notation) == 0.0 {
            ("even with", 0.0)
        } else if value > 0.0 {
            ("outside", value)
        } else {
            ("inside", -value)
        }
    };
    let (left, right) = (word(outside.left), word(outside.right));
    let say = |(word, by): (&str, f64)| {
        if by > 0.0 {
            format!("{} {word}", format_length(by, notation))
        } else {
            word.to_owned()
        }
    };
    if left.0 == right.0 {
        let by = each(left.1, right.1, notation);
        if left.1 > 0.0 {
            format!("{} the edge of the body by {by}", left.0)
        } else {
            "even with the edge of the body".to_owned()
        }
    } else {
        format!(
            "{} the edge of the body on the left, {} it on the right",
            say(left),
            say(right)
        )
    }
}

fn hidden(tucked: Sides<f64>, notation: Notation) -> String {
    let both = each(tucked.left.max(0.0), tucked.right.max(0.0), notation);
    if tucked.left.max(tucked.right) > 0.0 {
        format!("the body hides {both} of the tire's top")
    } else {
        "the body leaves the whole tire in sight".to_owned()
    }
}
