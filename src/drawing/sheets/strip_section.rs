//! How the strip's laps lie on the flanges of outer half and tub: a section from behind, not to scale.

use geometry::space::{Vec2, vec2};

use super::paper::{LEADING, NOTE};
use super::plot::words;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};

/// Height of the figure, mm.
pub(super) const HEIGHT: f64 = 46.0;
/// Between two sheets that lie on each other, mm of the figure: wide enough to be told apart.
const APART: f64 = 1.6;
/// A flange's width, mm of the figure.
const FLANGE: f64 = 9.0;

/// Both ways in which a seam's flanges may be, side by side.
pub(super) fn sections(group: &mut Group, frame: View) {
    let half = frame.width / 2.0;
    for (column, stands, title) in [
        (0.0, true, "Where the flange stands up"),
        (half, false, "Where the flange lies flat"),
    ] {
        let part = View {
            x: frame.x + column,
            width: half - 6.0,
            ..frame
        };
        section(group, part, stands, title);
    }
}

fn section(group: &mut Group, frame: View, stands: bool, title: &str) {
    let at = |share: f64, up: f64| {
        vec2(
            frame.x + share * frame.width,
            frame.y + 0.62 * frame.height - up,
        )
    };
    let (old, new) = (at(0.33, 0.0), at(0.67, 0.0));
    let up = vec2(0.0, -FLANGE);
    let inward = vec2(FLANGE, 0.0);
    let apart = vec2(APART, 0.0);
    let above = vec2(0.0, -APART);
    // Outboard is on the left, as on the car's left seen from behind.
    let (outer, tub, strip, plugs): (Vec<Vec2>, Vec<Vec2>, Vec<Vec2>, [[Vec2; 2]; 2]) = if stands {
        let lift = up * 0.5;
        (
            vec![at(0.0, 0.0), old, old + up],
            vec![at(1.0, 0.0), new, new + up],
            vec![old + apart + up, old + apart, new - apart, new - apart + up],
            [
                [old - apart + lift, old + apart * 2.0 + lift],
                [new - apart * 2.0 + lift, new + apart + lift],
            ],
        )
    } else {
        let middle = inward * 0.5;
        (
            vec![at(0.0, 0.0), old],
            vec![at(1.0, 0.0), new],
            vec![old - inward + above, new + inward + above],
            [
                [old - middle + above * 2.0, old - middle - above],
                [new + middle + above * 2.0, new + middle - above],
            ],
        )
    };
    group.add(Role::Cut, Shape::line(outer));
    group.add(Role::Cut, Shape::line(tub));
    group.add(Role::Moved, Shape::line(strip));
    for plug in plugs {
        group.add(Role::Overlap, Shape::line(plug));
    }
    let label = |group: &mut Group, place: Vec2, anchor: Anchor, text: &str| {
        words(group, place, anchor, text);
    };
    let line = NOTE * LEADING;
    label(group, vec2(frame.x, frame.y + NOTE), Anchor::Start, title);
    label(group, at(0.5, FLANGE + 3.0), Anchor::Middle, "trunk side");
    label(group, at(0.0, -line), Anchor::Start, "outer half");
    label(group, at(0.5, -line), Anchor::Middle, "strip");
    label(group, at(1.0, -line), Anchor::End, "tub");
    label(group, at(0.5, -2.0 * line), Anchor::Middle, "wheel side");
    label(
        group,
        at(0.0, -3.0 * line),
        Anchor::Start,
        "Short strokes: plugs, through strip and flange",
    );
}
