//! The map's contour lines with their values, and the hatching where tire and sheet overlap.

use geometry::order;
use geometry::space::{Vec2, vec2};
use geometry::units::{LengthUnit, format_length};

use super::Draft;
use crate::hatch::Hatch;
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// Size of a contour's value, pixels.
const LETTERS: f64 = 11.5;
/// A line shorter than this has no room for its value, pixels.
const SHORT: f64 = 60.0;
/// Lines of one level that are lettered at most, the longest first.
const LETTERED: usize = 3;
/// Spacing of the hatching, pixels.
const SPACING: f64 = 5.0;
/// Levels besides touching and the target, in inches and in millimeters: finer near the metal.
const INCHES: [f64; 9] = [-2.0, -1.0, -0.5, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0];
const MILLIMETERS: [f64; 9] = [-50.0, -25.0, -10.0, 5.0, 10.0, 25.0, 50.0, 100.0, 200.0];

/// Draws all levels; values keep off what is `taken`.
pub fn draw(draft: &Draft, overlap: &mut Group, contours: &mut Group, taken: &mut Vec<[f64; 4]>) {
    let hatch = Hatch {
        angle: std::f64::consts::FRAC_PI_4,
        spacing: SPACING,
    };
    let strokes = draft.field.hatched_below(0.0, hatch);
    if !strokes.is_empty() {
        overlap.add(Role::Overlap, Shape::Lines(strokes));
    }
    let unit = draft.options.notation.unit();
    let levels = match unit {
        LengthUnit::Inch => INCHES,
        LengthUnit::Millimeter => MILLIMETERS,
    }
    .map(|level| level * unit.millimeters());
    let target = draft.model.car.targets.travel;
    // What matters most takes its place first.
    let mut lines = vec![(0.0, Role::Zero), (target, Role::Target)];
    lines.extend(
        levels
            .into_iter()
            .filter(|level| (level - target).abs() > 1.0)
            .map(|level| (level, Role::Contour)),
    );
    for (level, role) in lines {
        let drawn = draft.field.lines(level);
        let mut longest: Vec<&Vec<Vec2>> = drawn.iter().collect();
        order::sort_by(&mut longest, |a, b| length(b).total_cmp(&length(a)));
        let text = match role {
            Role::Zero => "touching".to_owned(),
            _ => format_length(level, draft.options.notation),
        };
        for line in longest.into_iter().take(LETTERED) {
            let Some(at) = room(line, &text, taken, draft.layout.plot) else {
                continue;
            };
            let shape = Shape::Text {
                at,
                anchor: Anchor::Middle,
                size: LETTERS,
                text: text.clone(),
            };
            contours.add(Role::Note, shape);
        }
        if !drawn.is_empty() {
            // Under the values, that they may cut their lines.
            contours.items.insert(
                0,
                crate::scene::Item {
                    role,
                    shape: Shape::Lines(drawn),
                    key: None,
                },
            );
        }
    }
}

fn length(line: &[Vec2]) -> f64 {
    line.windows(2)
        .map(|ends| (ends[1] - ends[0]).length())
        .sum()
}

/// A place on a line for its value, clear of all that is taken; takes it.
fn room(
    line: &[Vec2],
    text: &str,
    taken: &mut Vec<[f64; 4]>,
    [left, top, right, bottom]: [f64; 4],
) -> Option<Vec2> {
    const SHARES: [f64; 9] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.42, 0.58];
    let whole = length(line);
    if whole < SHORT {
        return None;
    }
    let half = width(text, LETTERS) / 2.0 + 3.0;
    SHARES.into_iter().find_map(|share| {
        let p = along(line, whole * share);
        let spot = [p.x - half, p.y - 8.0, p.x + half, p.y + 8.0];
        let inside = spot[0] >= left && spot[1] >= top && spot[2] <= right && spot[3] <= bottom;
        let apart = |other: &[f64; 4]| {
            spot[2] <= other[0] || other[2] <= spot[0] || spot[3] <= other[1] || other[3] <= spot[1]
        };
        (inside && taken.iter().all(apart)).then(|| {
            taken.push(spot);
            vec2(p.x, p.y + 0.36 * LETTERS)
        })
    })
}

/// The point so far along a line.
fn along(line: &[Vec2], mut left: f64) -> Vec2 {
    for ends in line.windows(2) {
        let step = (ends[1] - ends[0]).length();
        if left <= step && step > 0.0 {
            return ends[0].lerp(ends[1], left / step);
        }
        left -= step;
    }
    line.last().copied().unwrap_or_default()
}
