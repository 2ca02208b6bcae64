//! Lines of equal value over a bent grid, and the hatching below one.
//!
//! Each cell of the grid is two triangles, over which the value runs evenly: so a level crosses a triangle in one
//! straight piece or not at all, and there is no saddle to be guessed at. Pieces meet on the grid's edges and are joined
//! there by the edge's two nodes. A crate for contours wants an even grid and weighs more than this file.

use std::collections::BTreeMap;

use geometry::order;
use geometry::space::{Vec2, vec2};

use crate::hatch::Hatch;

/// A value and a place at each node of a grid, column by column.
pub struct Field {
    /// How many rows a column has.
    pub rows: usize,
    /// The values.
    pub values: Vec<f64>,
    /// The places on the sheet.
    pub places: Vec<Vec2>,
}

/// Strokes that come this near are one, sheet units.
const TOUCH: f64 = 1e-6;

/// An edge of the grid, by its two nodes, the lesser first.
type Edge = (usize, usize);

impl Field {
    /// The lines on which the value is `level`; closed ones end where they begin.
    pub fn lines(&self, level: f64) -> Vec<Vec<Vec2>> {
        let mut pieces: BTreeMap<Edge, Vec<Edge>> = BTreeMap::new();
        for corners in self.triangles() {
            let mut crossed = [(0, 1), (1, 2), (2, 0)]
                .into_iter()
                .map(|(i, j)| edge(corners[i], corners[j]))
                .filter(|&(a, b)| self.is_below(a, level) != self.is_below(b, level));
            if let (Some(from), Some(to)) = (crossed.next(), crossed.next()) {
                pieces.entry(from).or_default().push(to);
                pieces.entry(to).or_default().push(from);
            }
        }
        let mut lines = Vec::new();
        // Lines that run off the grid first, from their ends; what is left are rings.
        let ends: Vec<Edge> = pieces
            .iter()
            .filter(|(_, next)| next.len() == 1)
            .map(|(&edge, _)| edge)
            .collect();
        let all: Vec<Edge> = pieces.keys().copied().collect();
        for start in ends.into_iter().chain(all) {
            let mut line = vec![self.crossing(start, level)];
            let mut here = start;
            while let Some(next) = pieces.get_mut(&here).and_then(Vec::pop) {
                if let Some(back) = pieces.get_mut(&next) {
                    back.retain(|&other| other != here);
                }
                line.push(self.crossing(next, level));
                here = next;
            }
            if line.len() > 1 {
                lines.push(line);
            }
        }
        lines
    }

    /// Hatching where the value is below `level`.
    pub fn hatched_below(&self, level: f64, hatch: Hatch) -> Vec<Vec<Vec2>> {
        let along = Vec2::at_angle(hatch.angle);
        let mut rows: BTreeMap<i64, Vec<[f64; 2]>> = BTreeMap::new();
        for corners in self.triangles() {
            for piece in hatch.inside(&self.part_below(corners, level)) {
                let [a, b] = [piece[0], piece[1]].map(|p| p.dot(along));
                #[expect(
                    clippy::cast_possible_truncation,
                    reason = "hatch lines lie at whole numbers of the spacing, a few thousand at most"
                )]
                let row = (along.cross(piece[0]) / hatch.spacing).round() as i64;
                rows.entry(row).or_default().push([a.min(b), a.max(b)]);
            }
        }
        let across = vec2(-along.y, along.x);
        let mut lines = Vec::new();
        for (row, mut pieces) in rows {
            let height = across * (row as f64 * hatch.spacing);
            let mut add = |[from, to]: [f64; 2]| {
                lines.push(vec![along * from + height, along * to + height]);
            };
            order::sort_by(&mut pieces, |a, b| a[0].total_cmp(&b[0]));
            // Pieces of neighboring triangles touch: they are one stroke.
            let mut open: Option<[f64; 2]> = None;
            for piece in pieces {
                open = match open {
                    Some([from, to]) if piece[0] <= to + TOUCH => Some([from, to.max(piece[1])]),
                    Some(line) => {
                        add(line);
                        Some(piece)
                    }
                    None => Some(piece),
                };
            }
            if let Some(line) = open {
                add(line);
            }
        }
        lines
    }

    fn is_below(&self, node: usize, level: f64) -> bool {
        self.values[node] < level
    }

    /// Where a level crosses an edge.
    fn crossing(&self, (a, b): Edge, level: f64) -> Vec2 {
        let (from, to) = (self.values[a], self.values[b]);
        let share = ((level - from) / (to - from)).clamp(0.0, 1.0);
        self.places[a].lerp(self.places[b], share)
    }

    /// The part of a triangle where the value is below a level.
    fn part_below(&self, corners: [usize; 3], level: f64) -> Vec<Vec2> {
        let mut part = Vec::with_capacity(4);
        for k in 0..3 {
            let (a, b) = (corners[k], corners[(k + 1) % 3]);
            if self.is_below(a, level) {
                part.push(self.places[a]);
            }
            if self.is_below(a, level) != self.is_below(b, level) {
                part.push(self.crossing(edge(a, b), level));
            }
        }
        part
    }

    fn triangles(&self) -> impl Iterator<Item = [usize; 3]> + '_ {
        let rows = self.rows.max(1);
        let columns = self.values.len().min(self.places.len()) / rows;
        let cells = (1..columns).flat_map(move |column| (1..rows).map(move |row| (column, row)));
        cells.flat_map(move |(column, row)| {
            let at = |c: usize, r: usize| c * rows + r;
            let (a, b) = (at(column - 1, row - 1), at(column, row - 1));
            let (d, e) = (at(column, row), at(column - 1, row));
            [[a, b, d], [a, d, e]]
        })
    }
}

fn edge(a: usize, b: usize) -> Edge {
    (a.min(b), a.max(b))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of so many nodes each way, one apart, with the value of each place.
    fn field(count: u32, value: impl Fn(Vec2) -> f64) -> Field {
        let places: Vec<Vec2> = (0..count)
            .flat_map(|c| (0..count).map(move |r| vec2(f64::from(c), f64::from(r))))
            .collect();
        Field {
            rows: count as usize,
            values: places.iter().map(|&p| value(p)).collect(),
            places,
        }
    }

    #[test]
    fn an_even_slope_has_one_straight_line() {
        let lines = field(9, |p| p.x).lines(3.5);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].iter().all(|p| (p.x - 3.5).abs() < 1e-12));
        let ends = [lines[0][0].y, lines[0][lines[0].len() - 1].y];
        assert!((ends[0] - ends[1]).abs() > 7.999, "{ends:?}");
    }

    #[test]
    fn a_hill_has_one_closed_line_that_holds_its_area() {
        let field = field(41, |p| (p - vec2(20.0, 20.0)).length());
        let lines = field.lines(12.3);
        assert_eq!(lines.len(), 1);
        let ring = &lines[0];
        assert_eq!(ring[0], ring[ring.len() - 1]);
        assert!(
            ring.iter()
                .all(|&p| ((p - vec2(20.0, 20.0)).length() - 12.3).abs() < 0.05)
        );
        let hatch = Hatch {
            angle: 0.7,
            spacing: 0.25,
        };
        let strokes = field.hatched_below(12.3, hatch);
        let area: f64 = strokes.iter().map(|s| (s[1] - s[0]).length()).sum::<f64>() * 0.25;
        let disc = std::f64::consts::PI * 12.3 * 12.3;
        assert!((area - disc).abs() < 0.01 * disc, "{area} is not {disc}");
        // A disc takes one stroke a line.
        assert!(strokes.len() <= 100, "{}", strokes.len());
    }

    #[test]
    fn a_saddle_and_odd_grids_are_drawn() {
        let saddle = field(8, |p| (p.x - 3.5) * (p.y - 3.5));
        assert!(saddle.lines(0.0).len() >= 2);
        let empty = Field {
            rows: 0,
            values: Vec::new(),
            places: Vec::new(),
        };
        assert!(empty.lines(0.0).is_empty());
        let odd = field(5, |p| if p.x > 2.0 { f64::NAN } else { p.y });
        for line in odd.lines(1.5) {
            assert!(line.len() > 1);
        }
    }
}
