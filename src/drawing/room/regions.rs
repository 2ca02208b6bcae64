//! The regions of the chart: hatched close where the tire hits, wide where it is tight, open where it clears; each with
//! its word and its limit drawn.

use geometry::check::Verdict;
use geometry::order;
use geometry::room::RowRoom;
use geometry::space::Vec2;

use super::LETTERS;
use crate::hatch::Hatch;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// Ranges of backspacing along a row, mm.
type Ranges = Vec<[f64; 2]>;

/// Corners of a piece of a region: backspacing and section width, mm.
type Piece = [[f64; 2]; 4];

/// A kind of limit: how it is drawn, and the ranges it ends.
type Limit = (Role, fn(&Row) -> &Ranges);

/// How a region is hatched.
const HITS: Hatch = Hatch {
    angle: std::f64::consts::FRAC_PI_4,
    spacing: 5.0,
};
const TIGHT: Hatch = Hatch {
    angle: -std::f64::consts::FRAC_PI_4,
    spacing: 12.0,
};

/// The shortest stroke drawn, sheet units.
const SPECK: f64 = 0.5;

/// A row with what hits, what is free and what clears.
struct Row {
    width: f64,
    hits: Ranges,
    free: Ranges,
    clear: Ranges,
}

impl Row {
    fn of(&self, verdict: Verdict) -> Ranges {
        match verdict {
            Verdict::Hits => self.hits.clone(),
            Verdict::Tight => without(&self.free, &self.clear),
            Verdict::Clears => self.clear.clone(),
        }
    }
}

/// All rows that a tire can be made for.
pub(super) struct Regions {
    rows: Vec<Row>,
}

impl Regions {
    pub fn of(rows: &[(f64, &RowRoom)], [from, to]: [f64; 2]) -> Self {
        let row = |&(width, room): &(f64, &RowRoom)| Row {
            width,
            hits: without(&[[from, to]], &room.free),
            free: room.free.clone(),
            clear: room.clear.clone(),
        };
        Self {
            rows: rows.iter().map(row).collect(),
        }
    }

    /// Draws hatching, limits and words; the words keep away from what is written beside `mark`.
    pub fn draw(&self, at: &dyn Fn([f64; 2]) -> Vec2, mark: Vec2, group: &mut Group) {
        let sheet = |piece: Piece| piece.map(at);
        let mut hits = Vec::new();
        let mut tight = Vec::new();
        for pair in self.rows.windows(2) {
            for piece in between(pair, |row| &row.hits) {
                hits.extend(HITS.inside(&sheet(piece)));
            }
            let clear: Vec<Piece> = between(pair, |row| &row.clear);
            for piece in between(pair, |row| &row.free) {
                let room = clear.iter().find(|clear| overlap(&piece, clear));
                let room = room.map_or_else(Vec::new, |clear| sheet(*clear).to_vec());
                let strokes = TIGHT.outside(&sheet(piece), &room);
                // Edges that both pieces share leave specks.
                tight.extend(strokes.into_iter().filter(|stroke| length(stroke) > SPECK));
            }
        }
        for (role, lines) in [(Role::TravelOverlap, hits), (Role::TightTicks, tight)] {
            if !lines.is_empty() {
                group.add(role, Shape::Lines(lines));
            }
        }
        let limits: [Limit; 2] = [
            (Role::Zero, |row| &row.free),
            (Role::Target, |row| &row.clear),
        ];
        for (role, ranges) in limits {
            let edges: Vec<Vec<Vec2>> = self
                .rows
                .windows(2)
                .flat_map(|pair| between(pair, ranges))
                .flat_map(|[a, b, c, d]| [vec![at(a), at(d)], vec![at(b), at(c)]])
                .collect();
            if !edges.is_empty() {
                group.add(role, Shape::Lines(joined(edges)));
            }
        }
        for verdict in [Verdict::Hits, Verdict::Tight, Verdict::Clears] {
            self.word(verdict, at, mark, group);
        }
    }

    /// The word stands where its region is widest; of rows that are nearly as wide, in the middle one that is not in
    /// the mark's line, if there is such a row.
    fn word(&self, verdict: Verdict, at: &dyn Fn([f64; 2]) -> Vec2, mark: Vec2, group: &mut Group) {
        /// The share of the greatest width that counts as nearly as wide.
        const NEARLY: f64 = 0.9;
        /// How far above and below the mark its own word and line reach, sheet units.
        const LINE: f64 = 2.5 * LETTERS;
        let inner = self
            .rows
            .iter()
            .skip(1)
            .take(self.rows.len().saturating_sub(2));
        let ranges: Vec<(f64, [f64; 2])> = inner
            .flat_map(|row| {
                let ranges = row.of(verdict).into_iter();
                ranges.map(move |range| (row.width, range))
            })
            .collect();
        let length = |range: &[f64; 2]| range[1] - range[0];
        let most = ranges.iter().map(|(_, range)| length(range));
        let most = most.fold(0.0, f64::max);
        let wide: Vec<_> = ranges
            .iter()
            .filter(|(_, range)| length(range) >= NEARLY * most)
            .collect();
        let middle = wide.len() / 2;
        let mut nearest: Vec<_> = wide.iter().enumerate().collect();
        order::sort_by(&mut nearest, |a, b| {
            a.0.abs_diff(middle).cmp(&b.0.abs_diff(middle))
        });
        let places = nearest
            .iter()
            .map(|(_, (width, [from, to]))| at([f64::midpoint(*from, *to), *width]));
        let is_beside = |place: &Vec2| (place.y - mark.y).abs() > LINE;
        let Some(place) = places.clone().find(is_beside).or(places.clone().next()) else {
            return;
        };
        group.add(
            Role::Text,
            Shape::Text {
                at: place,
                anchor: Anchor::Middle,
                size: LETTERS + 1.0,
                text: verdict.word().to_owned(),
            },
        );
    }
}

/// A region between two rows. Where they have equally many ranges, these run over into each other; where not, each
/// row's stand for the half of the way that is next to it.
fn between(pair: &[Row], ranges: impl Fn(&Row) -> &Ranges) -> Vec<Piece> {
    let [low, high] = pair else {
        return Vec::new();
    };
    let (a, b) = (ranges(low), ranges(high));
    let piece = |a: &[f64; 2], from: f64, b: &[f64; 2], to: f64| {
        [[a[0], from], [a[1], from], [b[1], to], [b[0], to]]
    };
    if a.len() == b.len() {
        let runs = a.iter().zip(b);
        return runs
            .map(|(a, b)| piece(a, low.width, b, high.width))
            .collect();
    }
    let middle = f64::midpoint(low.width, high.width);
    let lower = a.iter().map(|a| piece(a, low.width, a, middle));
    let upper = b.iter().map(|b| piece(b, middle, b, high.width));
    lower.chain(upper).collect()
}

/// From a stroke's first point to its last.
fn length(stroke: &[Vec2]) -> f64 {
    let ends = stroke.first().zip(stroke.last());
    ends.map_or(0.0, |(from, to)| (*to - *from).length())
}

/// Whether two pieces between the same rows have backspacings in common.
fn overlap(a: &Piece, b: &Piece) -> bool {
    let ends = |piece: &Piece| (piece[0][0].min(piece[3][0]), piece[1][0].max(piece[2][0]));
    let ((a, b), (c, d)) = (ends(a), ends(b));
    a < d && c < b
}

/// What is left of the ranges without the others, which lie within them.
fn without(ranges: &[[f64; 2]], others: &[[f64; 2]]) -> Ranges {
    let mut left = Vec::new();
    for &[from, to] in ranges {
        let mut start = from;
        for &[begin, end] in others
            .iter()
            .filter(|other| other[0] < to && other[1] > from)
        {
            if begin > start {
                left.push([start, begin]);
            }
            start = start.max(end);
        }
        if to > start {
            left.push([start, to]);
        }
    }
    left
}

/// Strokes that end where another begins, joined.
fn joined(edges: Vec<Vec<Vec2>>) -> Vec<Vec<Vec2>> {
    let mut lines: Vec<Vec<Vec2>> = Vec::new();
    for edge in edges {
        let start = edge.first().copied();
        match lines.iter_mut().find(|line| line.last().copied() == start) {
            Some(line) => line.extend(edge.into_iter().skip(1)),
            None => lines.push(edge),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_away_leaves_both_ends() {
        assert_eq!(
            without(&[[0.0, 10.0], [20.0, 30.0]], &[[2.0, 3.0], [5.0, 10.0]]),
            [[0.0, 2.0], [3.0, 5.0], [20.0, 30.0]]
        );
        assert_eq!(without(&[[0.0, 1.0]], &[[0.0, 1.0]]), Ranges::new());
    }
}
