//! What moves: axle, wheels, tires, the room they take, and the ground under them.

use geometry::math;
use geometry::model::WheelSection;
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, vec2};

use super::{Draft, all_on_sheet, on_sheet};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};
use crate::thin::thin;

/// All the room the tires take, and the same with the gap asked for.
pub fn envelope(draft: &Draft) -> Group {
    /// How far what is painted may be off, pixels: less than an eye can tell.
    const UNSEEN: f64 = 0.1;
    let mut group = Group::new(
        "envelope",
        Some("All the room the tires take through travel, and the gap asked for round it"),
    );
    for envelope in draft.sides().filter_map(|side| draft.envelope(side)) {
        for (role, outline) in [
            (Role::Margin, &envelope.margin),
            (Role::Envelope, &envelope.outline),
        ] {
            if !outline.is_empty() {
                let outline = thin(&all_on_sheet(outline), draft.lettering.px(UNSEEN));
                group.add(role, Shape::Area(outline));
            }
        }
    }
    group
}

/// The ground under the tires, and the car's center plane.
pub fn ground(draft: &Draft, wheels: &Sides<WheelSection>) -> Group {
    const HATCH: f64 = 9.0;
    /// Height of the band that tells which section it is, pixels.
    const BAND: f64 = 30.0;
    let mut group = Group::new("ground", Some("The ground, and the car's center plane"));
    let (view, px) = (draft.view, |pixels| draft.lettering.px(pixels));

    // The ground stays under the tires: it rises and tilts as the wheels do.
    let level = draft.model.ground();
    let under = |side: Side, up: f64| vec2(-wheels.get(side).hub.x, -(level + up));
    let (left, right) = (
        under(Side::Left, draft.options.pose.left),
        under(Side::Right, draft.options.pose.right),
    );
    let slope = if right.x > left.x {
        (right.y - left.y) / (right.x - left.x)
    } else {
        0.0
    };
    // A swung section meets the ground further off, and past a quarter turn not at all.
    let upright = math::cos(draft.angle);
    let at = |x: f64| vec2(x, (left.y + (x - left.x) * slope) / upright);
    let line = vec![at(view.x), at(view.x + view.width)];
    let lowest = view.y + view.height - px(BAND);
    if upright > 0.0 && line.iter().all(|p| !draft.is_swung() || p.y < lowest) {
        let ticks = crate::hatch::ticks(&line, 1.0, px(HATCH), px(7.0));
        group.add(Role::Ground, Shape::line(line));
        group.add(Role::Hatch, Shape::Lines(ticks));
    }
    if draft.is_swung() {
        group.add(
            Role::Text,
            Shape::Text {
                at: vec2(view.x + view.width / 2.0, view.y + view.height - px(8.0)),
                anchor: Anchor::Middle,
                size: draft.lettering.value(),
                text: format!("Section {}", super::which(draft.angle)),
            },
        );
    }

    let top = view.y + px(14.0);
    let bottom = view.y + view.height - px(6.0);
    group.add(
        Role::CenterLine,
        Shape::line([vec2(0.0, top), vec2(0.0, bottom)]),
    );
    group
}

/// Axle, wheels and tires.
pub fn wheels(draft: &Draft, wheels: &Sides<WheelSection>) -> Group {
    let mut group = Group::new("wheels", Some("Axle, wheels and tires, cut by the section"));
    for side in draft.sides() {
        let wheel = wheels.get(side);
        group.add(Role::TireSide, Shape::Area(between(wheel)));
        for outline in [&wheel.tire_top, &wheel.tire_bottom] {
            group.add(Role::Tire, Shape::Area(all_on_sheet(outline)));
        }
        group.add(Role::Wheel, Shape::Area(all_on_sheet(&wheel.wheel)));
        group.add(Role::Wheel, mounting_face(draft, wheel));
    }
    tube(draft, wheels, &mut group);
    for side in draft.sides() {
        group.add(
            Role::Flange,
            Shape::line(all_on_sheet(&wheels.get(side).flange)),
        );
    }
    group
}

/// The wheel's mounting face, from rim to rim: what backspacing is measured from.
fn mounting_face(draft: &Draft, wheel: &WheelSection) -> Shape {
    let axle = &draft.model.car.axle;
    let [low, high] = wheel.flange.map(on_sheet);
    let up = high - low;
    let size = up.length().max(1e-6);
    let up = up * (1.0 / size);
    let hub = on_sheet(wheel.hub);
    let out = vec2(hub.x.signum(), 0.0) * (axle.hat + axle.spacer);
    let radius = draft.model.car.tire.rim_diameter() / 2.0;
    Shape::line([hub + out - up * radius, hub + out + up * radius])
}

/// The tire between its upper and its lower cut: straight down from its widest to the hub, then into
/// the bulge.
fn between(wheel: &WheelSection) -> Vec<Vec2> {
    let (top, bottom) = (widest(&wheel.tire_top), widest(&wheel.tire_bottom));
    let ([left, right], [low_left, low_right]) = (top, bottom);
    let hub = on_sheet(wheel.hub).y;
    let mut outline = vec![left];
    outline.extend(ease(vec2(left.x, hub), low_left));
    let mut back: Vec<Vec2> = ease(vec2(right.x, hub), low_right).collect();
    back.reverse();
    outline.extend(back);
    outline.push(right);
    outline
}

/// The outermost points of an outline on the sheet, left and right.
fn widest(outline: &[Vec2]) -> [Vec2; 2] {
    let points = || outline.iter().map(|&point| on_sheet(point));
    let least = points()
        .min_by(|a, b| a.x.total_cmp(&b.x))
        .unwrap_or_default();
    let most = points()
        .max_by(|a, b| a.x.total_cmp(&b.x))
        .unwrap_or_default();
    [least, most]
}

/// From one point down to the other, upright at both ends.
fn ease(from: Vec2, to: Vec2) -> impl Iterator<Item = Vec2> {
    const STEPS: u8 = 6;
    (0..=STEPS).map(move |i| {
        let t = f64::from(i) / f64::from(STEPS);
        vec2(
            from.x + (to.x - from.x) * t * t * (3.0 - 2.0 * t),
            from.y + (to.y - from.y) * t,
        )
    })
}

/// The axle's tube between the flanges, or to the center line when only one side is shown.
fn tube(draft: &Draft, wheels: &Sides<WheelSection>, group: &mut Group) {
    let (left, right) = (on_sheet(wheels.left.hub), on_sheet(wheels.right.hub));
    let span = right - left;
    if span.length() < 1e-6 {
        return;
    }
    let across = vec2(-span.y, span.x) * (draft.model.car.axle.tube_diameter / 2.0 / span.length());
    let edge = |x: f64| left.lerp(right, ((x - left.x) / span.x).clamp(0.0, 1.0));
    let (from, to) = (edge(draft.view.x), edge(draft.view.x + draft.view.width));
    group.add(
        Role::Axle,
        Shape::Area(vec![from + across, to + across, to - across, from - across]),
    );
}
