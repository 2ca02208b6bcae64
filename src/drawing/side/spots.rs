//! Where each surface's gap is least: a dot on the spot, and a letter that the key explains.

use geometry::math;
use geometry::space::{Vec2, vec2};

use super::{Draft, key::letter, on_sheet};
use crate::label::{Wish, place};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// Radius of a letter's circle, pixels.
const BALLOON: f64 = 9.0;
/// How much of the tire's radius away from the axle the letters stand.
const STANDS: f64 = 0.7;

/// The spots and their letters.
pub fn spots(draft: &Draft) -> Group {
    let mut group = Group::new(
        "spots",
        Some("Where each surface's gap through travel is least, by letter"),
    );
    let spots: Vec<(usize, Vec2, f64)> = draft
        .found
        .iter()
        .enumerate()
        .filter_map(|(index, found)| {
            let spot = found.travel.witness.at_body;
            let angle = math::atan2(spot.x, spot.z);
            angle
                .is_finite()
                .then(|| (index, on_sheet(draft.side(), vec2(spot.x, spot.z)), angle))
        })
        .collect();
    let radius = draft.model.tire.inputs.diameter / 2.0 * STANDS;
    let wishes: Vec<Wish> = spots
        .iter()
        .map(|&(.., angle)| Wish {
            middle: angle * radius,
            height: draft.px(2.0 * BALLOON + 3.0),
        })
        .collect();
    let half = std::f64::consts::PI * radius;
    let places = place(&wishes, -half, half);
    let dot = draft.px(3.5);
    for (&(index, spot, _), along) in spots.iter().zip(places) {
        let Some(found) = draft.found.get(index) else {
            continue;
        };
        let key = draft.key(found.id);
        let balloon = draft.polar(along / radius, radius);
        let to_spot = spot - balloon;
        let length = to_spot.length();
        if length > draft.px(BALLOON) {
            let start = balloon + to_spot * (draft.px(BALLOON) / length);
            group.add_keyed(Role::Dimension, Shape::line([start, spot]), key);
        }
        if draft.worst.is_some_and(|worst| worst.id == found.id) {
            let ring = Shape::Circle {
                center: spot,
                radius: 2.4 * dot,
            };
            group.add_keyed(Role::Underline, ring, key);
        }
        let spot = Shape::Circle {
            center: spot,
            radius: dot,
        };
        group.add_keyed(Role::Spot, spot, key);
        let circle = Shape::Circle {
            center: balloon,
            radius: draft.px(BALLOON),
        };
        group.add_keyed(Role::Balloon, circle, key);
        let (role, text) = draft.text(
            Role::Note,
            balloon + vec2(0.0, draft.px(4.0)),
            Anchor::Middle,
            letter(index),
        );
        group.add_keyed(role, text, key);
    }
    group
}
