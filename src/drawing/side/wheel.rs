//! What moves in the side view: tire and wheel at ride height, bump and droop, the axle's marks, the ground.

use geometry::chain::arc_points;
use geometry::math;
use geometry::space::{Vec2, vec2};
use geometry::travel::Pose;

use super::{Draft, edges, on_sheet};
use crate::label::{Wish, place};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// Half the length of a center mark's strokes, pixels.
const MARK: f64 = 7.0;

/// The ground under the tire at ride height.
pub fn ground(draft: &Draft) -> Group {
    let mut group = Group::new("ground", Some("The ground at ride height"));
    let [left, right] = edges(draft.frame.view);
    let line = vec![
        vec2(left, draft.frame.ground),
        vec2(right, draft.frame.ground),
    ];
    let ticks = crate::hatch::ticks(&line, 1.0, draft.px(9.0), draft.px(7.0));
    group.add(Role::Ground, Shape::line(line));
    group.add(Role::Hatch, Shape::Lines(ticks));
    group
}

/// Tire and wheel at ride height, the tire at bump and droop, and where the axle's center is in each.
pub fn wheel(draft: &Draft) -> Group {
    let mut group = Group::new(
        "wheel",
        Some(
            "The tire at ride height, thin at full bump and full droop; the axle's center in each",
        ),
    );
    let travel = &draft.model.car.travel;
    let radius = draft.model.tire.inputs.diameter / 2.0;
    let places = [
        ("bump", center(draft, travel.bump)),
        ("ride", center(draft, 0.0)),
        ("droop", center(draft, -travel.droop)),
    ];
    let ride = places[1].1;
    group.add(Role::Tire, Shape::Area(standing(draft, ride, radius)));
    group.add(
        Role::Wheel,
        Shape::Circle {
            center: ride,
            radius: draft.model.car.tire.rim_diameter() / 2.0,
        },
    );
    for (_, center) in [places[0], places[2]] {
        group.add(Role::Swept, Shape::line(standing(draft, center, radius)));
    }
    let wishes = places.map(|(_, at)| Wish {
        middle: at.y,
        height: draft.px(13.0),
    });
    let [top, bottom] = [-radius, radius];
    for ((name, at), middle) in places.into_iter().zip(place(&wishes, top, bottom)) {
        let mark = draft.px(MARK);
        group.add(
            Role::Dimension,
            Shape::Lines(vec![
                vec![at - vec2(mark, 0.0), at + vec2(mark, 0.0)],
                vec![at - vec2(0.0, mark), at + vec2(0.0, mark)],
            ]),
        );
        let foot = vec2(at.x + draft.px(MARK + 4.0), middle + draft.px(4.0));
        let (role, text) = draft.text(Role::Note, foot, Anchor::Start, name.to_owned());
        group.add(role, text);
    }
    group
}

/// The wheel's center on the sheet with both wheels so far above ride height.
fn center(draft: &Draft, up: f64) -> Vec2 {
    let motion = &draft.model.motion;
    let out = draft.side().sign() * motion.track_width / 2.0;
    let p = motion
        .at(Pose::heave(up))
        .body_from_axle(geometry::space::vec3(0.0, out, 0.0));
    on_sheet(draft.side(), vec2(p.x, p.z))
}

/// The tire as it stands: round, as far as it is above the ground at ride height.
fn standing(draft: &Draft, center: Vec2, radius: f64) -> Vec<Vec2> {
    /// How far the chords may stay inside the circle, pixels: less than an eye can tell.
    const SAGITTA: f64 = 0.1;
    let down = (draft.frame.ground - center.y).min(radius);
    // The flat spans the angles whose points would lie below the ground.
    let flat = math::acos(down / radius);
    let turn = std::f64::consts::TAU - 2.0 * flat;
    let start = std::f64::consts::FRAC_PI_2 + flat;
    arc_points(center, radius, (start, turn), draft.px(SAGITTA)).collect()
}
