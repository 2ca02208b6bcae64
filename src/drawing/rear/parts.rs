//! The parts by their names, for whoever does not know them yet.

use geometry::body::Surface;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};

use super::gaps::{Tag, hang, inner, outer};
use super::{Dimensions, Draft, side_on_sheet};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// Height of a name, pixels.
const NAME: f64 = 22.0;

/// The names of lip, wheelhouse, seam, tub, rail and tire, if they are asked for.
pub fn parts(draft: &Draft) -> Option<Group> {
    if draft.options.dimensions != Dimensions::Parts || !draft.is_roomy() {
        return None;
    }
    let mut group = Group::new("parts", Some("The parts, named"));
    for side in draft.sides() {
        let station = draft.moved(side);
        let middle = |surface: Surface| {
            let mut of_it = station.segments().filter(|(of, ..)| *of == surface);
            of_it.next().map(|(_, a, b)| a.lerp(b, 0.5))
        };
        let rail = draft.model.rails.get(side);
        let tag = |(name, at): (&str, Option<Vec2>)| {
            Some(Tag {
                leader: side_on_sheet(side, at?),
                name: String::new(),
                value: name.to_owned(),
                key: None,
            })
        };
        let outside = [
            ("wheelhouse", middle(Surface::OuterHalf)),
            ("quarter lip", station.points.first().copied()),
        ];
        let inside = [
            ("seam", station.points.get(station.seam).copied()),
            ("tub", middle(Surface::TubWall)),
            (
                "frame rail",
                Some(vec2(rail.face, rail.top.midpoint(rail.bottom))),
            ),
        ];
        for (column, names) in [
            (outer(draft, side), &outside[..]),
            (inner(draft, side), &inside[..]),
        ] {
            let tags: Vec<Tag> = names.iter().copied().filter_map(tag).collect();
            hang(draft, &column, NAME, &tags, &mut group);
        }
        group.add(Role::Text, tire(draft, side));
    }
    Some(group)
}

/// The tire's name, on its tread's upper side.
fn tire(draft: &Draft, side: Side) -> Shape {
    let model = draft.model;
    let inputs = &model.tire.inputs;
    let up = model.motion.ride + (inputs.diameter + inputs.rim_diameter) / 4.0;
    Shape::Text {
        at: side_on_sheet(side, vec2(model.car.track_width() / 2.0, up)),
        anchor: Anchor::Middle,
        size: draft.lettering.value(),
        text: "tire".to_owned(),
    }
}
