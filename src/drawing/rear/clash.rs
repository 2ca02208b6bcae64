//! Where tire and metal overlap, and where the gap is below its target: told by hatching.

use geometry::body::Surface;
use geometry::check::Verdict;
use geometry::model::WheelSection;
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, vec2};

use super::{Draft, all_on_sheet, body, side_all_on_sheet, side_on_sheet, solids};
use crate::hatch::{Hatch, ticks};
use crate::role::Role;
use crate::scene::{Group, Shape};

/// Far enough to be off every sheet, mm.
const FAR: f64 = 20_000.0;
/// Spacing of overlap hatching, pixels: denser than that of sections.
const SPACING: f64 = 3.5;
const TRAVEL_SPACING: f64 = 6.0;

/// Hatching over overlaps at this pose and through travel, ticks along metal that is too near.
pub fn overlaps(draft: &Draft, wheels: &Sides<WheelSection>) -> Group {
    let mut group = Group::new(
        "overlaps",
        Some("Hatched where tire and metal overlap, ticked where the gap is below its target"),
    );
    for side in draft.sides() {
        let room = room(draft, side);
        let rails = rails(draft, side);

        if let Some(envelope) = draft.envelope(side) {
            let envelope = all_on_sheet(&envelope.outline);
            let wide = hatch(draft, -1.0, TRAVEL_SPACING);
            add(
                &mut group,
                Role::TravelOverlap,
                wide.outside(&envelope, &room),
            );
            for rail in &rails {
                add(
                    &mut group,
                    Role::TravelOverlap,
                    wide.common(&envelope, rail),
                );
            }
        }

        let dense = hatch(draft, 1.0, SPACING);
        for solid in solids(wheels.get(side)) {
            let solid = all_on_sheet(solid);
            add(&mut group, Role::Overlap, dense.outside(&solid, &room));
            for rail in &rails {
                add(&mut group, Role::Overlap, dense.common(&solid, rail));
            }
            for outline in hit_obstacles(draft, side) {
                add(&mut group, Role::Overlap, dense.common(&solid, &outline));
            }
        }
        tight(draft, side, &mut group);
    }
    group
}

fn hatch(draft: &Draft, slant: f64, pixels: f64) -> Hatch {
    Hatch {
        angle: slant * std::f64::consts::FRAC_PI_4,
        spacing: draft.lettering.px(pixels),
    }
}

fn add(group: &mut Group, role: Role, lines: Vec<Vec<Vec2>>) {
    if !lines.is_empty() {
        group.add(role, Shape::Lines(lines));
    }
}

/// The room that the sheet metal leaves: below the line from lip to tub; beside it where there is none.
fn room(draft: &Draft, side: Side) -> Vec<Vec2> {
    let points = &draft.moved(side).points;
    let (Some(lip), Some(tub)) = (points.first(), points.last()) else {
        return side_all_on_sheet(
            side,
            &[
                vec2(-FAR, FAR),
                vec2(FAR, FAR),
                vec2(FAR, -FAR),
                vec2(-FAR, -FAR),
            ],
        );
    };
    let mut room = points.clone();
    room.extend([
        vec2(-FAR, tub.y),
        vec2(-FAR, -FAR),
        vec2(FAR, -FAR),
        vec2(FAR, lip.y),
    ]);
    side_all_on_sheet(side, &room)
}

/// The rail where the section cuts it, as deep as it may be.
fn rails(draft: &Draft, side: Side) -> Vec<Vec<Vec2>> {
    let face = draft.model.rails.get(side).face;
    let area = |[low, high]: [f64; 2]| {
        [(0.0, high), (face, high), (face, low), (0.0, low)]
            .map(|(out, up)| side_on_sheet(side, vec2(out, up)))
            .to_vec()
    };
    body::cuts(draft, side).into_iter().map(area).collect()
}

/// Outlines of the obstacles that the tire does hit: seen from behind, one that only lies ahead of the
/// tire would seem to overlap too.
fn hit_obstacles(draft: &Draft, side: Side) -> impl Iterator<Item = Vec<Vec2>> {
    let surfaces = draft.check.sides.get(side).surfaces.iter();
    surfaces
        .filter(|found| found.id.surface == Surface::Obstacle && found.ride.low < 0.0)
        .map(|found| {
            if draft.is_swung() {
                body::cut_obstacle(draft, found.id.index)
            } else {
                body::capsule(draft, found.id.index)
            }
        })
}

/// Ticks on the back of metal whose gap is below its target.
fn tight(draft: &Draft, side: Side, group: &mut Group) {
    let px = |pixels| draft.lettering.px(pixels);
    let station = draft.moved(side);
    let points = side_all_on_sheet(side, &station.points);
    // Seen on the sheet, the line from the lip inward has the room on its right on the car's left.
    let back = -side.sign();
    let mut from = 0;
    while from < station.spans.len() {
        let surface = station.spans[from];
        let run = station.spans[from..]
            .iter()
            .take_while(|&&other| other == surface)
            .count();
        let key = draft.key(side, surface.into());
        if let (Verdict::Tight, Some(line)) = (key.verdict, points.get(from..=from + run)) {
            group.add_keyed(
                Role::TightTicks,
                Shape::Lines(ticks(line, back, px(5.0), px(6.0))),
                key,
            );
        }
        from += run;
    }
    let rail = draft.model.rails.get(side);
    let key = draft.key(side, Surface::FrameRail.into());
    if key.verdict == Verdict::Tight {
        for [low, high] in body::cuts(draft, side) {
            let face = side_all_on_sheet(side, &[vec2(rail.face, high), vec2(rail.face, low)]);
            group.add_keyed(
                Role::TightTicks,
                Shape::Lines(ticks(&face, back, px(5.0), px(6.0))),
                key,
            );
        }
    }
}
