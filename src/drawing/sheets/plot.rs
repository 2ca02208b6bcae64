//! Figures of a sheet: points of the car placed in a frame, with dimensions and lettered balloons.

use geometry::space::{Vec2, vec2};

use super::paper::NOTE;
use crate::lettering::Lettering;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};

/// Lettering whose pixel is a point of print, so that arrowheads keep their size on paper.
pub(super) const PRINT: Lettering = Lettering { pixel: 0.25 };
/// Radius of a balloon, mm.
const BALLOON: f64 = 2.6;

/// Points of a drawing as they lie on the page: x to the right, y up, at one scale.
pub(super) struct Plot {
    scale: f64,
    origin: Vec2,
}

impl Plot {
    /// Fits the box between two corners into a frame, in its middle.
    pub fn fit(low: Vec2, high: Vec2, frame: View) -> Self {
        let size = high - low;
        let scale = (frame.width / size.x).min(frame.height / size.y);
        let left = frame.x + (frame.width - size.x * scale) / 2.0;
        let bottom = frame.y + f64::midpoint(frame.height, size.y * scale);
        Self {
            scale,
            origin: vec2(left - low.x * scale, bottom + low.y * scale),
        }
    }

    pub fn at(&self, p: Vec2) -> Vec2 {
        vec2(
            self.origin.x + p.x * self.scale,
            self.origin.y - p.y * self.scale,
        )
    }

    pub fn line(&self, points: impl IntoIterator<Item = Vec2>) -> Shape {
        Shape::line(points.into_iter().map(|p| self.at(p)).collect::<Vec<_>>())
    }

    pub fn area(&self, points: impl IntoIterator<Item = Vec2>) -> Shape {
        Shape::Area(points.into_iter().map(|p| self.at(p)).collect())
    }
}

/// A dimension between two points of the page with its letter in a balloon, at a share of the way.
pub(super) fn lettered(group: &mut Group, a: Vec2, b: Vec2, letter: char, share: f64) {
    crate::dimension::arrows(group, a, b, PRINT, None);
    balloon(group, a.lerp(b, share), letter);
}

/// A line across from a point of the part to a dimension.
pub(super) fn extension(group: &mut Group, from: Vec2, to: Vec2) {
    group.add(Role::Dimension, Shape::line([from, to]));
}

/// A letter in its circle.
pub(super) fn balloon(group: &mut Group, at: Vec2, letter: char) {
    group.add(
        Role::Balloon,
        Shape::Circle {
            center: at,
            radius: BALLOON,
        },
    );
    words(
        group,
        vec2(at.x, at.y + NOTE * 0.36),
        Anchor::Middle,
        &letter.to_string(),
    );
}

/// A line of lettering.
pub(super) fn words(group: &mut Group, at: Vec2, anchor: Anchor, text: &str) {
    group.add(
        Role::Text,
        Shape::Text {
            at,
            anchor,
            size: NOTE,
            text: text.to_owned(),
        },
    );
}
