//! A pattern at full size, over as many pages as it takes, with marks to join them and a ruler to check the print.

use geometry::space::{Vec2, vec2};

use super::flow::Flow;
use super::paper::Lie;
use super::plot::words;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};

/// How far a tile reaches over its neighbor, mm to either side of the joint.
const OVER: f64 = 8.0;
/// Half a registration cross, mm.
const CROSS: f64 = 4.0;
/// What the ruler takes at a tile's foot, mm.
const RULER: f64 = 17.0;
/// What the words take at a tile's head, mm.
const HEAD: f64 = 9.0;
/// Length of the check ruler, mm.
pub(super) const RULER_LENGTH: f64 = 100.0;

/// A line of the pattern.
pub(super) struct Line {
    pub role: Role,
    pub points: Vec<Vec2>,
}

/// Lettering of the pattern, from its lower left corner.
pub(super) struct Tag {
    pub at: Vec2,
    pub words: String,
}

/// What is printed: x along, y up, mm.
pub(super) struct Full {
    pub name: String,
    pub lines: Vec<Line>,
    pub tags: Vec<Tag>,
}

/// How a pattern falls into tiles.
pub(super) struct Grid {
    low: Vec2,
    step: Vec2,
    columns: usize,
    rows: usize,
}

impl Full {
    /// The corners of the box round all its lines.
    pub fn bounds(&self) -> [Vec2; 2] {
        let points = || self.lines.iter().flat_map(|line| &line.points);
        let end = |of: fn(f64, f64) -> f64, start: f64| {
            points().fold(vec2(start, start), |end, p| {
                vec2(of(end.x, p.x), of(end.y, p.y))
            })
        };
        [
            end(f64::min, f64::INFINITY),
            end(f64::max, f64::NEG_INFINITY),
        ]
    }

    /// How it falls into tiles that each have so much room on their page.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a pattern of meters over tiles of decimeters"
    )]
    pub fn grid(&self, room: View) -> Grid {
        let [low, high] = self.bounds();
        let step = vec2(
            room.width - 2.0 * OVER,
            room.height - RULER - HEAD - 2.0 * OVER,
        );
        let count = |length: f64, step: f64| (length / step).ceil().max(1.0);
        let (columns, rows) = (count(high.x - low.x, step.x), count(high.y - low.y, step.y));
        // What is left over is shared out, so that no tile is a sliver.
        let step = vec2((high.x - low.x) / columns, (high.y - low.y) / rows);
        Grid {
            low,
            step,
            columns: columns as usize,
            rows: rows as usize,
        }
    }
}

impl Grid {
    /// How many tiles there are.
    pub fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// How a tile is joined to those before it: of two ends that meet one alone is cut, so that the other keeps its
    /// crosses.
    fn join(&self, index: usize) -> String {
        let left = (!index.is_multiple_of(self.columns))
            .then(|| format!("its left end, laid on tile {index}"));
        let below = (index >= self.columns)
            .then(|| format!("its lower end, laid on tile {}", index + 1 - self.columns));
        let ends: Vec<String> = left.into_iter().chain(below).collect();
        if ends.is_empty() {
            ". Leave its ends on".to_owned()
        } else {
            format!(
                ". Cut off at the crosses, cross on cross: {}",
                ends.join("; ")
            )
        }
    }

    /// The lower left and upper right corner of each tile, along the first row, then the next.
    pub fn tiles(&self) -> impl Iterator<Item = [Vec2; 2]> + '_ {
        (0..self.rows).flat_map(move |row| {
            (0..self.columns).map(move |column| {
                let low = self.low + vec2(self.step.x * column as f64, self.step.y * row as f64);
                [low, low + self.step]
            })
        })
    }
}

/// Puts the pattern on pages, a tile each.
pub(super) fn tiles(flow: &mut Flow, full: &Full) {
    flow.page(Lie::Across);
    let grid = full.grid(flow.rest());
    let count = grid.count();
    for (index, corners) in grid.tiles().enumerate() {
        if index > 0 {
            flow.page(Lie::Across);
        }
        let rest = flow.rest();
        let title = format!(
            "{}: tile {} of {count}, full size{}",
            full.name,
            index + 1,
            grid.join(index)
        );
        tile(flow.figure_group(), rest, full, corners, &title, true);
    }
}

/// Puts a pattern that fits one tile on the page that was begun for it.
pub(super) fn tile_alone(flow: &mut Flow, full: &Full) {
    let (room, corners) = (flow.rest(), full.bounds());
    let title = format!("{}, full size", full.name);
    tile(flow.figure_group(), room, full, corners, &title, false);
}

fn tile(
    group: &mut Group,
    room: View,
    full: &Full,
    [low, high]: [Vec2; 2],
    title: &str,
    joins: bool,
) {
    words(group, vec2(room.x, room.y + 4.0), Anchor::Start, title);
    let size = high - low;
    let left = room.x + (room.width - size.x) / 2.0;
    let top = room.y + HEAD + OVER + (room.height - RULER - HEAD - 2.0 * OVER - size.y) / 2.0;
    // True size: nothing is scaled, the page's y runs down.
    let at = |p: Vec2| vec2(left + (p.x - low.x), top + (high.y - p.y));
    let over = vec2(OVER, OVER);
    for line in &full.lines {
        let pieces = clipped(&line.points, [low - over, high + over]);
        let placed = pieces
            .into_iter()
            .map(|piece| piece.into_iter().map(at).collect())
            .collect();
        group.add(line.role, Shape::Lines(placed));
    }
    for tag in &full.tags {
        let is_here = (low.x..high.x).contains(&tag.at.x)
            && (low.y - OVER..high.y + OVER).contains(&tag.at.y);
        if is_here {
            words(group, at(tag.at), Anchor::Start, &tag.words);
        }
    }
    if joins {
        for corner in [low, vec2(high.x, low.y), vec2(low.x, high.y), high] {
            cross(group, at(corner));
        }
    }
    ruler(group, vec2(room.x, room.y + room.height - RULER + 4.0));
    words(
        group,
        vec2(room.x + RULER_LENGTH + 20.0, room.y + room.height - 8.0),
        Anchor::Start,
        "Print at 100 %. Both rulers must measure true.",
    );
}

fn cross(group: &mut Group, at: Vec2) {
    let arm = |way: Vec2| Shape::line([at - way * CROSS, at + way * CROSS]);
    group.add(Role::Dimension, arm(vec2(1.0, 0.0)));
    group.add(Role::Dimension, arm(vec2(0.0, 1.0)));
    group.add(
        Role::Dimension,
        Shape::Circle {
            center: at,
            radius: CROSS / 2.0,
        },
    );
}

/// A hundred millimeters, and four inches, with their marks.
fn ruler(group: &mut Group, at: Vec2) {
    for (length, step, every, y, unit, to) in [
        (RULER_LENGTH, 5.0, 2, 0.0, "100 mm", 1.0),
        (4.0 * 25.4, 12.7, 2, 9.0, "4 in", -1.0),
    ] {
        let base = vec2(at.x, at.y + y);
        group.add(
            Role::Ruler,
            Shape::line([base, vec2(base.x + length, base.y)]),
        );
        let mut marks = Vec::new();
        let mut k = 0;
        while f64::from(k) * step <= length + 1e-9 {
            let x = base.x + f64::from(k) * step;
            let tall = if k % every == 0 { 3.0 } else { 1.8 };
            marks.push(vec![vec2(x, base.y), vec2(x, base.y + to * tall)]);
            k += 1;
        }
        group.add(Role::Dimension, Shape::Lines(marks));
        words(
            group,
            vec2(base.x + length + 2.0, base.y + 1.0),
            Anchor::Start,
            unit,
        );
    }
}

/// The pieces of a line that lie in a box.
fn clipped(points: &[Vec2], [low, high]: [Vec2; 2]) -> Vec<Vec<Vec2>> {
    let mut pieces: Vec<Vec<Vec2>> = Vec::new();
    for pair in points.windows(2) {
        let (a, way) = (pair[0], pair[1] - pair[0]);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (start, by, least, most) in [(a.x, way.x, low.x, high.x), (a.y, way.y, low.y, high.y)] {
            if by.abs() > 0.0 {
                let (near, far) = ((least - start) / by, (most - start) / by);
                from = from.max(near.min(far));
                to = to.min(near.max(far));
            } else if start < least || start > most {
                to = -1.0;
            }
        }
        if from > to {
            continue;
        }
        let (start, end) = (a + way * from, a + way * to);
        match pieces.last_mut() {
            Some(piece) if piece.last() == Some(&start) => piece.push(end),
            _ => pieces.push(vec![start, end]),
        }
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_kept_where_it_is_in_the_box() {
        let line = [
            vec2(-5.0, 1.0),
            vec2(5.0, 1.0),
            vec2(5.0, 9.0),
            vec2(15.0, 9.0),
        ];
        let pieces = clipped(&line, [vec2(0.0, 0.0), vec2(10.0, 5.0)]);
        assert_eq!(
            pieces,
            [vec![vec2(0.0, 1.0), vec2(5.0, 1.0), vec2(5.0, 5.0)]]
        );
        assert!(clipped(&line, [vec2(20.0, 0.0), vec2(30.0, 5.0)]).is_empty());
    }
}
