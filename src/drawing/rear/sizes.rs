//! Sizes in the rear view: track width, axle, backspacing, seam move.

use geometry::model::WheelSection;
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, vec2};
use geometry::units::format_length;

use super::{Dimensions, Draft, on_sheet, side_on_sheet};
use crate::dimension::level;
use crate::scene::Group;

/// From the roof to the line of the seam move, pixels.
const SEAM_LINE: f64 = 20.0;
/// Wheels that stand apart by less than this, mm, count as level.
const LEVEL: f64 = 0.5;
/// A seam that moved by less than this, mm, counts as not moved.
const LEAST_MOVE: f64 = 0.05;
/// How much of the band above the wheelhouse the seam move takes with its value, pixels.
pub const SEAM_BAND: f64 = 42.0;

/// The sizes, where they are asked for.
pub fn sizes(draft: &Draft, wheels: &Sides<WheelSection>) -> Group {
    let mut group = Group::new(
        "sizes",
        Some("Sizes of axle, track, backspacing and seam move"),
    );
    if draft.options.dimensions == Dimensions::All && draft.is_roomy() {
        // Level lines would tell the sizes of a tilted axle wrongly, and a swung section cuts the wheel off its middle.
        if !draft.is_swung() && (draft.options.pose.left - draft.options.pose.right).abs() < LEVEL {
            track(draft, wheels, &mut group);
            axle(draft, wheels, &mut group);
            for side in draft.sides() {
                backspacing(draft, side, wheels.get(side), &mut group);
            }
        }
        for side in draft.sides() {
            seam_move(draft, side, &mut group);
        }
    }
    group
}

/// Whether one side's seam move is dimensioned.
pub fn shows_seam_move(draft: &Draft, side: Side) -> bool {
    let moved = |[was, is]: [Vec2; 2]| (was.x - is.x).abs() > LEAST_MOVE;
    draft.options.dimensions == Dimensions::All
        && draft.is_roomy()
        && seams(draft, side).is_some_and(moved)
}

/// The moved tub's seam on one side, `(out, up)`.
pub fn moved_seam(draft: &Draft, side: Side) -> Option<Vec2> {
    let station = draft.moved(side);
    station
        .points
        .get(station.fill.map_or(station.seam, |fill| fill + 1))
        .copied()
}

/// The height of the wheelhouse's highest point on the sheet.
pub fn roof(draft: &Draft, side: Side) -> f64 {
    let points = |station: &geometry::body::Station| {
        station
            .points
            .iter()
            .map(|point| -point.y)
            .fold(0.0, f64::min)
    };
    points(draft.stock(side)).min(points(draft.moved(side)))
}

fn words(draft: &Draft, name: &str, length: f64) -> String {
    format!("{name} {}", format_length(length, draft.options.notation))
}

fn track(draft: &Draft, wheels: &Sides<WheelSection>, group: &mut Group) {
    let axle = &draft.model.car.axle;
    let to_center = axle.hat + axle.spacer - draft.model.car.wheel.offset();
    let y = draft.view.y + draft.view.height - draft.lettering.px(14.0);
    let foot = |side: Side| {
        let lowest = wheels
            .get(side)
            .tire_bottom
            .iter()
            .map(|&point| on_sheet(point).y)
            .fold(0.0, f64::max);
        vec2(
            on_sheet(wheels.get(side).hub).x - side.sign() * to_center,
            lowest,
        )
    };
    let (left, right) = (foot(Side::Left), foot(Side::Right));
    match draft.options.shown {
        super::Shown::Both => {
            let text = words(draft, "track width", draft.model.car.track_width());
            level(group, left, right, y, text, draft.lettering);
        }
        super::Shown::One(side) => {
            let tire = *Sides { left, right }.get(side);
            let text = words(draft, "half track", tire.x.abs());
            level(group, tire, vec2(0.0, y), y, text, draft.lettering);
        }
    }
}

fn axle(draft: &Draft, wheels: &Sides<WheelSection>, group: &mut Group) {
    if draft.options.shown == super::Shown::Both {
        // Close under the tube, between the flanges themselves: they serve as extension lines.
        let under = draft.model.car.axle.tube_diameter / 2.0 + draft.lettering.px(22.0);
        let at = |side: Side| on_sheet(wheels.get(side).hub) + vec2(0.0, under);
        let (left, right) = (at(Side::Left), at(Side::Right));
        let y = left.y.max(right.y);
        let text = words(draft, "flange to flange", draft.model.car.axle.width);
        level(group, left, right, y, text, draft.lettering);
    }
}

/// From the mounting face to the rim's inboard outer edge, drawn inside the wheel's lower half.
fn backspacing(draft: &Draft, side: Side, wheel: &WheelSection, group: &mut Group) {
    let car = &draft.model.car;
    let hub = on_sheet(wheel.hub);
    let rim = wheel
        .wheel
        .iter()
        .map(|&point| on_sheet(point).y)
        .fold(hub.y, f64::max);
    let y = hub.y + (rim - hub.y) * 0.8;
    let face = hub.x - side.sign() * (car.axle.hat + car.axle.spacer);
    let inboard = face + side.sign() * car.wheel.backspacing;
    let flange = wheel.flange.map(|point| on_sheet(point).y);
    let text = format_length(car.wheel.backspacing, draft.options.notation);
    level(
        group,
        vec2(face, flange[0].max(flange[1])),
        vec2(inboard, y),
        y,
        text,
        draft.lettering,
    );
}

fn seam_move(draft: &Draft, side: Side, group: &mut Group) {
    if let (true, Some([was, is])) = (shows_seam_move(draft, side), seams(draft, side)) {
        let y = roof(draft, side) - draft.lettering.px(SEAM_LINE);
        let text = words(draft, "seam move", was.x - is.x);
        level(
            group,
            side_on_sheet(side, was),
            side_on_sheet(side, is),
            y,
            text,
            draft.lettering,
        );
    }
}

/// The seam as it was and as it is to be.
fn seams(draft: &Draft, side: Side) -> Option<[Vec2; 2]> {
    let stock = draft.stock(side);
    Some([
        stock.points.get(stock.seam).copied()?,
        moved_seam(draft, side)?,
    ])
}
