//! Dimension lines as ISO 129-1 draws them: closed filled narrow arrowheads, extension lines that start
//! a little off the part and run a little past the line, the value above an unbroken line.

use geometry::space::{Vec2, vec2};

use crate::lettering::{Lettering, width};
use crate::role::Role;
use crate::scene::{Anchor, Group, Key, Shape};

/// Length of an arrowhead, pixels.
const ARROW: f64 = 9.0;
/// Half its width: an included angle of 15 to 20 degrees.
const ARROW_HALF: f64 = 1.5;
/// How far the line runs on behind an arrowhead that stands outside, pixels.
const TAIL: f64 = 9.0;
/// Between the part and its extension line, pixels.
const OFF: f64 = 3.0;
/// How far the extension line runs past the dimension line, pixels.
const PAST: f64 = 4.0;
/// From a line to the foot of the lettering on it, pixels.
pub const LIFT: f64 = 4.0;

/// A level dimension from one point to another, its line at height `y` of the sheet. Where the value does
/// not fit between, it stands beyond `to`.
pub fn level(group: &mut Group, from: Vec2, to: Vec2, y: f64, text: String, lettering: Lettering) {
    for foot in [from, to] {
        let away = if y >= foot.y { 1.0 } else { -1.0 };
        let start = vec2(foot.x, foot.y + away * lettering.px(OFF));
        let end = vec2(foot.x, y + away * lettering.px(PAST));
        if (end.y - start.y) * away > 0.0 {
            group.add(Role::Dimension, Shape::line([start, end]));
        }
    }
    let (a, b) = (vec2(from.x, y), vec2(to.x, y));
    let letters = width(&text, lettering.value());
    let fits = letters + lettering.px(2.0 * ARROW + 6.0) <= (b.x - a.x).abs();
    let tip = arrows(group, a, b, lettering, None);
    let foot = y - lettering.px(LIFT);
    let (at, anchor) = if fits {
        (vec2(f64::midpoint(a.x, b.x), foot), Anchor::Middle)
    } else {
        // Too tight between the arrows: the value stands above the line's extension.
        let (run, anchor) = if b.x >= a.x {
            (letters, Anchor::Start)
        } else {
            (-letters, Anchor::End)
        };
        group.add(Role::Dimension, Shape::line([tip, vec2(tip.x + run, y)]));
        (vec2(tip.x, foot), anchor)
    };
    group.add(
        Role::Text,
        Shape::Text {
            at,
            anchor,
            size: lettering.value(),
            text,
        },
    );
}

/// The line from `a` to `b` with its arrowheads, outside when there is no room between. Gives the end of
/// the line beyond `b`.
pub fn arrows(group: &mut Group, a: Vec2, b: Vec2, lettering: Lettering, key: Option<Key>) -> Vec2 {
    let span = (b - a).length();
    let along = if span > 1e-9 {
        (b - a) * (1.0 / span)
    } else {
        vec2(1.0, 0.0)
    };
    let outside = span < lettering.px(3.0 * ARROW);
    let tail = along * lettering.px(if outside { ARROW + TAIL } else { 0.0 });
    let (start, end) = (a - tail, b + tail);
    let heading = if outside { along } else { -along };
    put(group, Role::Dimension, Shape::line([start, end]), key);
    put(group, Role::Arrow, head(a, heading, lettering), key);
    put(group, Role::Arrow, head(b, -heading, lettering), key);
    end
}

/// An arrowhead with its tip at `tip`, pointing along `heading`.
pub fn head(tip: Vec2, heading: Vec2, lettering: Lettering) -> Shape {
    let back = tip - heading * lettering.px(ARROW);
    let across = vec2(-heading.y, heading.x) * lettering.px(ARROW_HALF);
    Shape::Area(vec![tip, back + across, back - across])
}

/// Adds a shape, with its key if it has one.
pub fn put(group: &mut Group, role: Role, shape: Shape, key: Option<Key>) {
    match key {
        Some(key) => group.add_keyed(role, shape, key),
        None => group.add(role, shape),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LETTERING: Lettering = Lettering { pixel: 1.0 };

    fn drawn(span: f64) -> Group {
        let mut group = Group::new("test", None);
        level(
            &mut group,
            vec2(0.0, 0.0),
            vec2(span, 0.0),
            50.0,
            "12 in".into(),
            LETTERING,
        );
        group
    }

    fn text_at(group: &Group) -> (Vec2, Anchor) {
        group
            .items
            .iter()
            .find_map(|item| match &item.shape {
                Shape::Text { at, anchor, .. } => Some((*at, *anchor)),
                _ => None,
            })
            .expect("a dimension has a value")
    }

    #[test]
    fn the_value_stands_above_the_line_between_the_arrows() {
        assert_eq!(text_at(&drawn(200.0)), (vec2(100.0, 46.0), Anchor::Middle));
    }

    #[test]
    fn in_tight_space_the_value_moves_onto_the_extension() {
        let (at, anchor) = text_at(&drawn(8.0));
        assert!(at.x > 8.0 + ARROW && anchor == Anchor::Start);
    }
}
