//! The body in the rear view: wheelhouse as it was and as it is to be, rails, parts bolted nearby.

use geometry::body::{Obstacle, Surface, SurfaceId};
use geometry::math;
use geometry::order;
use geometry::side::Side;
use geometry::space::{Vec2, Vec3, vec2};

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
        let (was, is) = (draft.stock(side), draft.moved(side));
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
        Some("The wheelhouses, from quarter lip to tub, cut by the section"),
    );
    for side in draft.sides() {
        let station = draft.moved(side);
        let points = side_all_on_sheet(side, &station.points);
        let changed = station.points != draft.stock(side).points;
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
    let mut group = Group::new("rails", Some("The frame rails, cut by the section"));
    for side in draft.sides() {
        let rail = draft.model.rails.get(side);
        let key = draft.key(side, Surface::FrameRail.into());
        let depth = draft.lettering.px(RAIL_DEPTH).min(rail.face.max(0.0));
        let inboard = rail.face - depth;
        let corner = |out: f64, up: f64| side_on_sheet(side, vec2(out, up));
        let hatch = Hatch {
            angle: side.sign() * std::f64::consts::FRAC_PI_4,
            spacing: draft.lettering.px(SECTION_SPACING),
        };
        for [low, high] in cuts(draft, side) {
            let area = vec![
                corner(inboard, high),
                corner(rail.face, high),
                corner(rail.face, low),
                corner(inboard, low),
            ];
            group.add_keyed(Role::Section, Shape::Area(area.clone()), key);
            group.add(Role::Hatch, Shape::Lines(hatch.inside(&area)));
            let [top, bottom] = [area[0], area[3]];
            group.add_keyed(Role::Cut, Shape::line(area), key);
            group.add(
                Role::Break,
                break_line(top, bottom, draft.lettering.px(3.0)),
            );
        }
    }
    group
}

/// Where the section cuts one side's rail, as far as the picture goes: near level it would run along the rail.
pub fn cuts(draft: &Draft, side: Side) -> Vec<[f64; 2]> {
    let (highest, lowest) = (-draft.view.y, -(draft.view.y + draft.view.height));
    let mut cuts = draft.model.rail_section(side, draft.angle);
    cuts.retain_mut(|[low, high]| {
        (*low, *high) = (low.max(lowest), high.min(highest));
        low < high
    });
    cuts
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

/// The parts bolted nearby: straight up as they lie behind the section or in it, else where the section cuts them.
pub fn obstacles(draft: &Draft) -> Group {
    let mut group = Group::new("obstacles", Some("Parts bolted near the tires"));
    for (index, obstacle) in draft.model.car.obstacles.iter().enumerate() {
        if draft.shows(obstacle.side) {
            let outline = if draft.is_swung() {
                cut_obstacle(draft, index)
            } else {
                capsule(draft, index)
            };
            if outline.is_empty() {
                continue;
            }
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

/// The outline that the section cuts out of an obstacle, on the sheet; empty where it passes by.
///
/// The part is every ball of its radius along its center line. Each ball near enough leaves a disc in the section, and
/// the outline is the hull of such discs, for the part is convex.
pub fn cut_obstacle(draft: &Draft, index: usize) -> Vec<Vec2> {
    const BALLS: u8 = 24;
    const ROUND: u8 = 24;
    let Some(obstacle) = draft.model.car.obstacles.get(index) else {
        return Vec::new();
    };
    let (sin, cos) = (math::sin(draft.angle), math::cos(draft.angle));
    let mut points = Vec::new();
    for i in 0..=BALLS {
        let p = obstacle
            .from
            .lerp(obstacle.to, f64::from(i) / f64::from(BALLS));
        let off = p.x * cos - p.z * sin;
        let square = obstacle.radius * obstacle.radius - off * off;
        if square >= 0.0 {
            let center = side_on_sheet(obstacle.side, vec2(p.y, p.x * sin + p.z * cos));
            let turn = |k: u8| std::f64::consts::TAU * f64::from(k) / f64::from(ROUND);
            points.extend((0..ROUND).map(|k| center + Vec2::at_angle(turn(k)) * square.sqrt()));
        }
    }
    hull(points)
}

/// The convex hull, by Andrew's monotone chain.
fn hull(mut points: Vec<Vec2>) -> Vec<Vec2> {
    points.retain(|p| p.is_finite());
    order::sort_by(&mut points, |a, b| {
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    let mut hull: Vec<Vec2> = Vec::new();
    for half in 0..2 {
        let start = hull.len();
        for &p in &points {
            while let [.., a, b] = hull[start..] {
                if (b - a).cross(p - b) > 0.0 {
                    break;
                }
                hull.pop();
            }
            hull.push(p);
        }
        hull.pop();
        if half == 0 {
            points.reverse();
        }
    }
    hull
}

/// The outline of an obstacle as seen from behind, on the sheet.
pub fn capsule(draft: &Draft, index: usize) -> Vec<Vec2> {
    let obstacles = &draft.model.car.obstacles;
    obstacles.get(index).map_or(Vec::new(), seen_obstacle)
}

/// The same of an obstacle that is at hand.
pub fn seen_obstacle(obstacle: &Obstacle) -> Vec<Vec2> {
    const HALF_TURN: u8 = 10;
    let end = |point: Vec3| side_on_sheet(obstacle.side, vec2(point.y, point.z));
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
