//! The body in the rear view: wheelhouse as it was and as it is to be, rails, parts bolted nearby.

use geometry::body::{Surface, SurfaceId};
use geometry::math;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};

use super::{Draft, side_all_on_sheet, side_on_sheet};
use crate::hatch::Hatch;
use crate::role::Role;
use crate::scene::{Group, Shape};

/// How much of the rail is drawn inboard of its face, pixels; its true width is not known.
const RAIL_DEPTH: f64 = 26.0;
/// Spacing of section hatching, pixels.
const SECTION_SPACING: f64 = 6.0;

/// The wheelhouse as the factory made it, where it differs from what it is to be.
pub fn stock(draft: &Draft) -> Group {
    let mut group = Group::new(
        "stock",
        Some("The wheelhouses as the factory made them, dashed"),
    );
    for side in draft.sides().filter(|_| draft.options.stock) {
        let (was, is) = (draft.model.stock.get(side), draft.model.moved.get(side));
        if was.points != is.points {
            group.add(
                Role::Stock,
                Shape::line(side_all_on_sheet(side, &was.points)),
            );
        }
    }
    group
}

/// The wheelhouse with the seam moved: lip and outer half, fill strip, tub.
pub fn body(draft: &Draft) -> Group {
    let mut group = Group::new(
        "body",
        Some("The wheelhouses, from quarter lip to tub, cut at the axle"),
    );
    for side in draft.sides() {
        let station = draft.model.moved.get(side);
        let points = side_all_on_sheet(side, &station.points);
        let changed = station.points != draft.model.stock.get(side).points;
        let role = |span: usize| match station.fill {
            Some(fill) if span == fill => Role::Fill,
            Some(fill) if span > fill && changed => Role::Moved,
            _ => Role::Cut,
        };
        // One line for each run of spans that are the same surface in the same role.
        let mut from = 0;
        while from < station.spans.len() {
            let (surface, as_what) = (station.spans[from], role(from));
            let run = (from..station.spans.len())
                .take_while(|&span| station.spans[span] == surface && role(span) == as_what)
                .count();
            if let Some(line) = points.get(from..=from + run) {
                group.add_keyed(as_what, Shape::line(line), draft.key(side, surface.into()));
            }
            from += run;
        }
        if let (Some(seam), true) = (station.points.get(station.seam), station.fill.is_none()) {
            group.add(Role::Cut, flange(draft, side, *seam));
        }
    }
    group
}

/// The seam's flange, standing up from the roof.
fn flange(draft: &Draft, side: Side, seam: Vec2) -> Shape {
    let foot = side_on_sheet(side, seam);
    Shape::line([foot, foot - vec2(0.0, draft.lettering.px(7.0))])
}

/// The frame rails, cut, broken off inboard.
pub fn rails(draft: &Draft) -> Group {
    let mut group = Group::new("rails", Some("The frame rails, cut at the axle"));
    for side in draft.sides() {
        let rail = draft.model.rails.get(side);
        let key = draft.key(side, Surface::FrameRail.into());
        let depth = draft.lettering.px(RAIL_DEPTH).min(rail.face.max(0.0));
        let inboard = rail.face - depth;
        let corner = |out: f64, up: f64| side_on_sheet(side, vec2(out, up));
        let area = vec![
            corner(inboard, rail.top),
            corner(rail.face, rail.top),
            corner(rail.face, rail.bottom),
            corner(inboard, rail.bottom),
        ];
        let hatch = Hatch {
            angle: side.sign() * std::f64::consts::FRAC_PI_4,
            spacing: draft.lettering.px(SECTION_SPACING),
        };
        group.add_keyed(Role::Section, Shape::Area(area.clone()), key);
        group.add(Role::Hatch, Shape::Lines(hatch.inside(&area)));
        let [top, bottom] = [area[0], area[3]];
        group.add_keyed(Role::Cut, Shape::line(area), key);
        group.add(
            Role::Break,
            break_line(top, bottom, draft.lettering.px(3.0)),
        );
    }
    group
}

/// A thin zigzag: the part goes on.
fn break_line(top: Vec2, bottom: Vec2, depth: f64) -> Shape {
    let at = |share: f64, aside: f64| top.lerp(bottom, share) + vec2(aside, 0.0);
    Shape::line([
        at(0.0, 0.0),
        at(0.42, 0.0),
        at(0.46, depth),
        at(0.54, -depth),
        at(0.58, 0.0),
        at(1.0, 0.0),
    ])
}

/// The parts bolted nearby, as they lie behind the section or in it.
pub fn obstacles(draft: &Draft) -> Group {
    let mut group = Group::new("obstacles", Some("Parts bolted near the tires"));
    for (index, obstacle) in draft.model.car.obstacles.iter().enumerate() {
        if draft.shows(obstacle.side) {
            let outline = capsule(draft, index);
            let key = draft.key(
                obstacle.side,
                SurfaceId {
                    surface: Surface::Obstacle,
                    index,
                },
            );
            group.add_keyed(Role::Obstacle, Shape::Area(outline), key);
        }
    }
    group
}

/// The outline of an obstacle as seen from behind, on the sheet.
pub fn capsule(draft: &Draft, index: usize) -> Vec<Vec2> {
    const HALF_TURN: u8 = 10;
    let Some(obstacle) = draft.model.car.obstacles.get(index) else {
        return Vec::new();
    };
    let end = |point: geometry::space::Vec3| side_on_sheet(obstacle.side, vec2(point.y, point.z));
    let (from, to) = (end(obstacle.from), end(obstacle.to));
    let along = to - from;
    let start = math::atan2(along.y, along.x) + std::f64::consts::FRAC_PI_2;
    let turn = |center: Vec2, start: f64| {
        (0..=HALF_TURN).map(move |i| {
            let angle = start + std::f64::consts::PI * f64::from(i) / f64::from(HALF_TURN);
            center + Vec2::at_angle(angle) * obstacle.radius
        })
    };
    turn(from, start)
        .chain(turn(to, start + std::f64::consts::PI))
        .collect()
}
