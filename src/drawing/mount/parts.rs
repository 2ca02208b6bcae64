//! The parts of the picture: hub and studs, the wheel and its ghosts, the body, the tightest spot.

use geometry::mount::Place;
use geometry::space::{Vec2, vec2};

use super::{Draft, tightest, words};
use crate::hatch::Hatch;
use crate::rear::{capital, seen_obstacle, side_all_on_sheet, side_on_sheet};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// How far an outline's chords may stay inside it, mm.
const SAGITTA: f64 = 0.1;
/// So many places before the one looked at are shown, so far apart as shares of the way.
const GHOSTS: u8 = 3;
const APART: f64 = 0.12;
/// Thickness of a stud, and where it stands, as a share of the flange's radius, mm (common practice, no source).
const STUD: f64 = 12.7;
const STUDS_AT: f64 = 0.72;
/// How much of the rail is drawn inboard of its face, mm; its true width is not known.
const RAIL_DEPTH: f64 = 30.0;
/// Radius of the balloon, pixels.
const BALLOON: f64 = 10.0;

impl Draft<'_> {
    fn seen(&self, place: Place, points: &[Vec2]) -> Vec<Vec2> {
        let mounting = self.mounting;
        let seen = |&point: &Vec2| side_on_sheet(mounting.side, mounting.seen(place, point));
        points.iter().map(seen).collect()
    }

    /// A box about the axle's line: from where to where out from the wheel's center plane, and its half height.
    fn on_axle(&self, from: f64, to: f64, [low, high]: [f64; 2]) -> Shape {
        let corners = [
            vec2(from, low),
            vec2(to, low),
            vec2(to, high),
            vec2(from, high),
        ];
        Shape::Area(self.seen(Place::default(), &corners))
    }
}

/// Axle, flange, hat and studs, hanging.
pub(super) fn hub(draft: &Draft) -> Group {
    let mut group = Group::new("hub", Some("The axle at its droop, its flange and studs"));
    let car = &draft.model.car;
    let (axle, face) = (&car.axle, car.wheel.offset());
    let flange = face - axle.hat - axle.spacer;
    let (tube, radius) = (axle.tube_diameter / 2.0, axle.flange_diameter / 2.0);
    // The tube is drawn as far in as the picture goes.
    let center = draft
        .model
        .solids
        .get(draft.mounting.side)
        .tire
        .center_plane;
    group.add(Role::Axle, draft.on_axle(-center, flange, [-tube, tube]));
    if face > flange {
        group.add(Role::Axle, draft.on_axle(flange, face, [-radius, radius]));
    }
    for at in [-STUDS_AT * radius, STUDS_AT * radius] {
        let thick = [at - STUD / 2.0, at + STUD / 2.0];
        group.add(
            Role::Axle,
            draft.on_axle(flange, face + axle.stud_length, thick),
        );
    }
    let ends = [vec2(flange, -radius), vec2(flange, radius)];
    group.add(
        Role::Flange,
        Shape::line(draft.seen(Place::default(), &ends)),
    );
    group
}

/// Where the wheel was before, and the way of its center.
pub(super) fn ghosts(draft: &Draft) -> Group {
    let mut group = Group::new(
        "ghosts",
        Some("Where the wheel was before, and the way of its center"),
    );
    let way = &draft.mounting.way;
    if way.is_empty() {
        return group;
    }
    let centers = way
        .iter()
        .flat_map(|stop| draft.seen(stop.place, &[vec2(0.0, 0.0)]));
    group.add(
        Role::CenterLine,
        Shape::line(centers.collect::<Vec<Vec2>>()),
    );
    for k in (1..=GHOSTS).rev() {
        let share = draft.share - APART * f64::from(k);
        if share >= 0.0 {
            for tire in tires(draft, draft.mounting.at(share)) {
                group.add(Role::Swept, Shape::Area(tire));
            }
        }
    }
    group
}

/// The tire's two sections at a place.
fn tires(draft: &Draft, place: Place) -> [Vec<Vec2>; 2] {
    let solids = draft.model.solids.get(draft.mounting.side);
    let upper = solids.tire.chain.outline(SAGITTA);
    let lower: Vec<Vec2> = upper.iter().map(|p| vec2(p.x, -p.y)).collect();
    [draft.seen(place, &upper), draft.seen(place, &lower)]
}

/// The wheel with its tire where it is now.
pub(super) fn wheel(draft: &Draft) -> Group {
    let mut group = Group::new("wheel", Some("The wheel with its tire, cut by the section"));
    let place = draft.mounting.at(draft.share);
    let solids = draft.model.solids.get(draft.mounting.side);
    let outline = solids.tire.chain.outline(SAGITTA);
    let widest = |sign: f64| {
        let points = outline.iter().copied();
        points
            .max_by(|a, b| (sign * a.x).total_cmp(&(sign * b.x)))
            .unwrap_or_default()
    };
    let (inner, outer) = (widest(-1.0), widest(1.0));
    let between = [
        inner,
        outer,
        vec2(outer.x, -outer.y),
        vec2(inner.x, -inner.y),
    ];
    group.add(Role::TireSide, Shape::Area(draft.seen(place, &between)));
    for tire in tires(draft, place) {
        group.add(Role::Tire, Shape::Area(tire));
    }
    let wheel = solids.wheel.chain.outline(SAGITTA);
    group.add(Role::Wheel, Shape::Area(draft.seen(place, &wheel)));
    let face = draft.model.car.wheel.offset();
    let rim = draft.model.car.tire.rim_diameter() / 2.0;
    group.add(
        Role::Wheel,
        Shape::line(draft.seen(place, &[vec2(face, -rim), vec2(face, rim)])),
    );
    group
}

/// The sheet metal straight up, the lip's edge behind it, the rail and the parts bolted nearby.
pub(super) fn body(draft: &Draft) -> Group {
    let mut group = Group::new(
        "body",
        Some(
            "The wheelhouse straight up, the edge of the quarter lip behind it dashed, and the frame rail",
        ),
    );
    let (model, side) = (draft.model, draft.mounting.side);
    let stations = &model.wheelhouses.get(side).stations;
    let behind = stations.iter().filter(|station| station.angle <= 0.0);
    let edge: Vec<Vec2> = behind
        .filter_map(|station| {
            let lip = station.points.first()?;
            let up = lip.y * geometry::math::cos(station.angle);
            Some(side_on_sheet(side, vec2(lip.x, up)))
        })
        .collect();
    group.add(Role::Hidden, Shape::line(edge));
    for obstacle in model.car.obstacles.iter().filter(|part| part.side == side) {
        group.add(Role::Obstacle, Shape::Area(seen_obstacle(obstacle)));
    }
    let rail = model.rails.get(side);
    for [low, high] in model.rail_section(side, 0.0) {
        let inboard = rail.face - RAIL_DEPTH;
        let corners = [
            vec2(inboard, high),
            vec2(rail.face, high),
            vec2(rail.face, low),
            vec2(inboard, low),
        ];
        let area = side_all_on_sheet(side, &corners);
        let hatch = Hatch {
            angle: side.sign() * std::f64::consts::FRAC_PI_4,
            spacing: draft.lettering.px(6.0),
        };
        group.add(Role::Section, Shape::Area(area.clone()));
        group.add(Role::Hatch, Shape::Lines(hatch.inside(&area)));
        group.add(Role::Cut, Shape::line(area));
    }
    let station = model.moved.get(side);
    group.add(
        Role::Cut,
        Shape::line(side_all_on_sheet(side, &station.points)),
    );
    group
}

/// The tightest spot with its letter, and the two lines above the picture.
pub(super) fn tightest_group(draft: &Draft) -> Group {
    let mut group = Group::new("tightest", None);
    let px = |pixels: f64| draft.lettering.px(pixels);
    let (side, view) = (draft.mounting.side, draft.view);
    let spot = tightest(draft.mounting);
    let at = side_on_sheet(side, vec2(side.sign() * spot.at_body.y, spot.at_body.z));
    // The balloon stands outboard and above, where there is air.
    let center = at + vec2(-side.sign() * px(26.0), -px(26.0));
    let inside = |least: f64, most: f64, value: f64| value.clamp(least, most.max(least));
    let center = vec2(
        inside(view.x + px(12.0), view.x + view.width - px(12.0), center.x),
        inside(view.y + px(64.0), view.y + view.height - px(12.0), center.y),
    );
    group.add(Role::Dimension, Shape::line([at, center]));
    group.add(
        Role::Spot,
        Shape::Circle {
            center: at,
            radius: px(3.5),
        },
    );
    group.add(
        Role::Balloon,
        Shape::Circle {
            center,
            radius: px(BALLOON),
        },
    );
    let text = |at: Vec2, anchor: Anchor, size: f64, text: String| Shape::Text {
        at,
        anchor,
        size,
        text,
    };
    let (value, note) = (draft.lettering.value(), draft.lettering.note());
    group.add(
        Role::Text,
        text(
            center + vec2(0.0, 0.36 * value),
            Anchor::Middle,
            value,
            "A".to_owned(),
        ),
    );
    let line = |down: f64| vec2(view.x + px(10.0), view.y + px(down));
    let notation = draft.options.notation;
    let head = words::spot_words(draft.model, spot, notation);
    group.add(
        Role::Text,
        text(
            line(20.0),
            Anchor::Start,
            value,
            format!("A  {}", capital(&head)),
        ),
    );
    let here = words::place_words(draft.mounting.at(draft.share), notation);
    group.add(Role::Note, text(line(40.0), Anchor::Start, note, here));
    group
}
