//! The drawings of the tape sheet: where each letter is measured, from behind and from the side.

use geometry::body::tape::HAND;
use geometry::body::{Station, Surface};
use geometry::math;
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};

use super::plot::{Plot, balloon, extension, lettered, words};
use super::tape::letter;
use crate::role::Role;
use crate::scene::{Anchor, Group, View};

/// Height of the drawing from behind, mm.
pub(super) const REAR_HEIGHT: f64 = 126.0;
/// Height of the drawing from the side, mm.
pub(super) const SIDE_HEIGHT: f64 = 92.0;

/// Room for dimensions beside what is drawn, mm on the car.
const BESIDE: f64 = 90.0;
/// How far below the axle's center what is drawn begins, mm on the car.
const BELOW: f64 = 150.0;
/// From one level dimension to the next, mm on the car.
const STEP: f64 = 48.0;
/// Straight pieces that an arch is drawn in.
const CURVE: u32 = 60;
/// The flange as it is drawn, half its height, mm on the car.
const FLANGE: f64 = 70.0;

/// The left side from behind, with what is measured along the axle and straight up.
pub(super) fn rear(group: &mut Group, frame: View, model: &Model) {
    let station = &model.stock.left;
    let tape = &model.car.sides.left.tape;
    let rail = &model.rails.left;
    let face = model.car.axle.measured_face();
    // The car's left is on the left, as one sees it from behind.
    let at = |out: f64, up: f64| vec2(-out, up);
    let lip = station.points.first().map_or(face, |p| p.x);
    let top = station.points.iter().map(|p| p.y).fold(0.0, f64::max);
    let section = rail.section();
    let inner = section[2].x.min(
        station
            .points
            .iter()
            .map(|p| p.x)
            .fold(f64::INFINITY, f64::min),
    );
    let plot = Plot::fit(
        at(lip + 2.0 * BESIDE, -BELOW - 5.0 * STEP),
        at(inner - 1.6 * BESIDE, top + BESIDE),
        frame,
    );
    let page = |out: f64, up: f64| plot.at(at(out, up));

    let sheet = station.points.iter().map(|p| at(p.x, p.y));
    group.add(Role::Cut, plot.line(sheet));
    group.add(Role::Section, plot.area(section.map(|p| at(p.x, p.y))));
    let closed = section.iter().chain(section.first());
    group.add(Role::Cut, plot.line(closed.map(|p| at(p.x, p.y))));
    let tube = model.car.axle.tube_diameter / 2.0;
    for up in [-tube, tube] {
        let ends = [at(inner - BESIDE, up), at(face, up)];
        group.add(Role::Dimension, plot.line(ends));
    }
    group.add(
        Role::Flange,
        plot.line([at(face, -FLANGE), at(face, FLANGE)]),
    );
    group.add(
        Role::CenterLine,
        plot.line([at(lip + BESIDE, 0.0), at(inner - BESIDE, 0.0)]),
    );

    let low = -BELOW;
    let mut level = |key: &str, out: f64, up: f64, row: f64| {
        let y = low - row * STEP;
        extension(group, page(out, up), page(out, y));
        lettered(group, page(face, y), page(out, y), letter(key), 0.5);
    };
    level("to_rail", rail.face, rail.bottom, 4.0);
    level("to_tub_low", face - tape.to_tub_low.value, 0.0, 3.0);
    let high = tape.roof_up.value - HAND;
    level("to_tub_high", face - tape.to_tub_high.value, high, 2.0);
    let seam = station
        .points
        .get(station.seam)
        .copied()
        .unwrap_or_default();
    level("to_seam", seam.x, seam.y, 1.0);
    level("to_lip", face + tape.to_lip.value, tape.lip_up.value, 0.0);
    extension(group, page(face, -FLANGE), page(face, low - 4.4 * STEP));

    let mut upright = |key: &str, from: Vec2, out: f64, share: f64| {
        let foot = page(out, 0.0);
        extension(group, page(from.x, from.y), page(out, from.y));
        lettered(group, foot, page(out, from.y), letter(key), share);
    };
    let roof = vec2(face - tape.to_tub_low.value, tape.roof_up.value);
    upright("roof_up", roof, inner - 1.2 * BESIDE, 0.6);
    upright("rail_top_up", section[1], inner - 0.75 * BESIDE, 0.6);
    upright("rail_bottom_up", section[0], inner - 0.35 * BESIDE, 0.5);
    upright(
        "lip_up",
        vec2(lip, tape.lip_up.value),
        lip + 0.6 * BESIDE,
        0.5,
    );
    details(group, station, &page);
    let note = page(seam.x, seam.y);
    words(group, vec2(note.x, note.y - 2.0), Anchor::Middle, "seam");
    words(
        group,
        page(face, FLANGE + 6.0),
        Anchor::Middle,
        "flange face",
    );
    words(
        group,
        page(section[2].x, section[2].y + 8.0),
        Anchor::Middle,
        "rail",
    );
}

/// Corner, fall of the roof, and the lip's own sizes: a balloon with its leader each.
fn details(group: &mut Group, station: &Station, page: &dyn Fn(f64, f64) -> Vec2) {
    let mut leader = |key: &str, spot: Vec2, way: Vec2| {
        let from = page(spot.x, spot.y);
        let to = from + way;
        group.add(Role::Dimension, crate::scene::Shape::line([from, to]));
        balloon(group, to, letter(key));
    };
    let middle_of = |surface: Surface| {
        let spans: Vec<(Vec2, Vec2)> = station
            .segments()
            .filter(|(of, ..)| *of == surface)
            .map(|(_, a, b)| (a, b))
            .collect();
        spans.get(spans.len() / 2).map(|(a, b)| a.lerp(*b, 0.5))
    };
    if let Some(corner) = middle_of(Surface::TubCorner) {
        leader("corner_radius", corner, vec2(9.0, -7.0));
    }
    if let Some(outer) = middle_of(Surface::OuterHalf) {
        leader("roof_fall", outer, vec2(-6.0, -9.0));
    }
    if let [edge, inside, top, ..] = station.points[..] {
        leader("lip_depth", inside.lerp(top, 0.7), vec2(9.0, 1.0));
        leader("lip_thickness", edge.lerp(inside, 0.5), vec2(8.0, 8.0));
    }
}

/// The left side as seen from the left, with what is measured forward and rearward.
pub(super) fn side(group: &mut Group, frame: View, model: &Model) {
    let table = model.stock_wheelhouses.get(Side::Left);
    let tape = &model.car.sides.left.tape;
    let (edge, height) = model.rails.left.profile();
    // Forward is to the left.
    let at = |forward: f64, up: f64| vec2(-forward, up);
    let around = |of: &dyn Fn(&Station) -> f64| -> Vec<Vec2> {
        let spot = |station: &Station| {
            let radius = of(station);
            at(
                radius * math::sin(station.angle),
                radius * math::cos(station.angle),
            )
        };
        // The sheet runs evenly in its radius between two stations: a few degrees show that as a curve.
        let ends = [table.stations.first(), table.stations.last()];
        let [from, to] = ends.map(|station| station.map_or(0.0, |station| station.angle));
        (0..=CURVE)
            .filter_map(|k| table.at(from + (to - from) * f64::from(k) / f64::from(CURVE)))
            .map(|station| spot(&station))
            .collect()
    };
    let wall = around(&|station| station.points.iter().map(|p| p.y).fold(0.0, f64::max));
    let opening = around(&|station| station.points.first().map_or(0.0, |p| p.y));
    let ahead = tape.wall_ahead.value.max(tape.kick_ahead.value);
    let behind = tape.wall_behind.value.max(tape.kick_behind.value);
    let top = wall.iter().map(|p| p.y).fold(0.0, f64::max);
    let plot = Plot::fit(
        at(ahead + 1.4 * BESIDE, -BELOW - 3.4 * STEP),
        at(-behind - 1.4 * BESIDE, top + 0.5 * BESIDE),
        frame,
    );
    let page = |forward: f64, up: f64| plot.at(at(forward, up));

    group.add(Role::Cut, plot.line(wall));
    group.add(Role::Stock, plot.line(opening));
    let lower: Vec<Vec2> = edge.iter().map(|p| at(p.x, p.z)).collect();
    let upper = edge.iter().map(|p| at(p.x, p.z + height));
    group.add(Role::Hidden, plot.line(lower.iter().copied()));
    group.add(Role::Hidden, plot.line(upper));
    group.add(
        Role::CenterLine,
        plot.line([at(ahead + BESIDE, 0.0), at(-behind - BESIDE, 0.0)]),
    );
    group.add(
        Role::CenterLine,
        plot.line([at(0.0, top + 20.0), at(0.0, -BELOW - 3.0 * STEP)]),
    );

    let mut level = |key: &str, forward: f64, row: f64| {
        let y = -BELOW * 0.75 - row * STEP;
        extension(group, page(forward, 0.0), page(forward, y));
        lettered(
            group,
            page(0.0, y),
            page(forward, y),
            letter(key),
            0.5 + 0.1 * row,
        );
    };
    level("opening_ahead", tape.opening_ahead.value, 0.0);
    level("opening_behind", -tape.opening_behind.value, 0.0);
    level("wall_ahead", tape.wall_ahead.value, 1.0);
    level("wall_behind", -tape.wall_behind.value, 1.0);
    level("kick_ahead", tape.kick_ahead.value, 2.0);
    level("kick_behind", -tape.kick_behind.value, 2.0);
    if let [first, second, ..] = edge[..]
        && first.z < second.z
    {
        let beside = first.x + 0.35 * BESIDE;
        extension(group, page(second.x, second.z), page(beside, second.z));
        extension(group, page(first.x, first.z), page(beside, first.z));
        lettered(
            group,
            page(beside, second.z),
            page(beside, first.z),
            letter("kick_drop"),
            0.5,
        );
    }
    words(group, page(0.0, top + 24.0), Anchor::Middle, "axle");
    if let Some(end) = edge.last() {
        let beside = page(end.x, end.z + height);
        words(group, vec2(beside.x + 1.5, beside.y), Anchor::Start, "rail");
    }
    let tag = page(ahead + 1.3 * BESIDE, top);
    words(group, tag, Anchor::Start, "front");
    words(
        group,
        page(tape.opening_ahead.value * 0.35, tape.lip_up.value * 1.04),
        Anchor::Middle,
        "wheel opening",
    );
}
