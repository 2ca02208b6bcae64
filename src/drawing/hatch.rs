//! Hatching as lines: of a region, of what of it lies outside another, and of what two have in common.
//!
//! Each hatch line crosses both outlines; between two crossings it is inside or outside of each by the
//! even-odd rule, and that alone decides whether the piece is drawn. No outline is ever cut, so there is
//! nothing that could fail on touching or self-crossing ones.

use geometry::math;
use geometry::order;
use geometry::space::{Vec2, vec2};

/// More lines than this are not drawn: something far off the sheet is being hatched.
const MOST_LINES: f64 = 4000.0;

/// Direction and spacing of hatch lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hatch {
    /// Angle from the sheet's x axis toward its y axis, radians.
    pub angle: f64,
    /// Distance of two lines, sheet units.
    pub spacing: f64,
}

impl Hatch {
    /// The lines inside `region`.
    pub fn inside(self, region: &[Vec2]) -> Vec<Vec<Vec2>> {
        self.pieces(region, &[], |a, _| a)
    }

    /// The lines inside `region` that are not in `room`.
    pub fn outside(self, region: &[Vec2], room: &[Vec2]) -> Vec<Vec<Vec2>> {
        self.pieces(region, room, |a, b| a && !b)
    }

    /// The lines inside both.
    pub fn common(self, one: &[Vec2], other: &[Vec2]) -> Vec<Vec<Vec2>> {
        self.pieces(one, other, |a, b| a && b)
    }

    fn pieces(self, one: &[Vec2], other: &[Vec2], keep: fn(bool, bool) -> bool) -> Vec<Vec<Vec2>> {
        let along = vec2(math::cos(self.angle), math::sin(self.angle));
        let across = vec2(-along.y, along.x);
        let turn = |points: &[Vec2]| -> Vec<Vec2> {
            points
                .iter()
                .map(|&p| vec2(p.dot(along), p.dot(across) / self.spacing))
                .collect()
        };
        let one = turn(one);
        let (first, last) = one
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), p| {
                (least.min(p.y), most.max(p.y))
            });
        let count = (last - first).ceil() + 1.0;
        if !(count.is_finite() && count <= MOST_LINES && one.iter().all(|p| p.is_finite())) {
            return Vec::new();
        }
        // Lines lie at whole numbers across, so that hatching of neighbors lines up.
        let base = first.ceil();
        let mut lines = vec![Vec::new(); index(count)];
        collect(&one, true, base, &mut lines);
        collect(&turn(other), false, base, &mut lines);

        let mut pieces = Vec::new();
        for (row, mut crossings) in lines.into_iter().enumerate() {
            order::sort_by(&mut crossings, |a, b| a.0.total_cmp(&b.0));
            let height = (base + row as f64) * self.spacing;
            let (mut in_one, mut in_other, mut from) = (false, false, None);
            for (at, is_one) in crossings {
                if is_one {
                    in_one = !in_one;
                } else {
                    in_other = !in_other;
                }
                match (from, keep(in_one, in_other)) {
                    (None, true) => from = Some(at),
                    (Some(start), false) => {
                        pieces.push(vec![
                            along * start + across * height,
                            along * at + across * height,
                        ]);
                        from = None;
                    }
                    _ => {}
                }
            }
        }
        pieces
    }
}

/// Notes where each line crosses the outline.
fn collect(outline: &[Vec2], is_one: bool, base: f64, lines: &mut [Vec<(f64, bool)>]) {
    for (i, &a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
        // Half open, so that a line through a corner counts it once.
        let first = (low.y.ceil() - base).max(0.0);
        let end = (high.y.ceil() - base).min(lines.len() as f64);
        if first.is_finite() && first < end {
            for (row, line) in lines
                .iter_mut()
                .enumerate()
                .take(index(end))
                .skip(index(first))
            {
                let share = (base + row as f64 - low.y) / (high.y - low.y);
                line.push((low.x + (high.x - low.x) * share, is_one));
            }
        }
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between zero and MOST_LINES, as the callers see to"
)]
fn index(count: f64) -> usize {
    count as usize
}

/// Short slanted strokes along the back of `line`, where `back` is +1 when the back is to the right of
/// the direction of travel on the sheet, and -1 when it is to the left.
pub fn ticks(line: &[Vec2], back: f64, spacing: f64, length: f64) -> Vec<Vec<Vec2>> {
    let mut strokes = Vec::new();
    let mut next = spacing / 2.0;
    for pair in line.windows(2) {
        let step = pair[1] - pair[0];
        let span = step.length();
        if !(span > 0.0 && span / spacing < MOST_LINES) {
            continue;
        }
        let along = step * (1.0 / span);
        let behind = vec2(-along.y, along.x) * back;
        while next < span {
            let foot = pair[0] + along * next;
            strokes.push(vec![
                foot,
                foot + (along + behind) * (length * std::f64::consts::FRAC_1_SQRT_2),
            ]);
            next += spacing;
        }
        next -= span;
    }
    strokes
}

#[cfg(test)]
mod tests {
    use super::*;

    const LEVEL: Hatch = Hatch {
        angle: 0.0,
        spacing: 1.0,
    };

    fn square(x: f64, y: f64, side: f64) -> Vec<Vec2> {
        vec![
            vec2(x, y),
            vec2(x + side, y),
            vec2(x + side, y + side),
            vec2(x, y + side),
        ]
    }

    #[track_caller]
    fn expect_area(pieces: &[Vec<Vec2>], area: f64) {
        // Length of hatching times its spacing.
        let length: f64 = pieces
            .iter()
            .map(|piece| (piece[1] - piece[0]).length())
            .sum();
        assert!(
            (length - area).abs() < 0.02 * area + 1e-9,
            "{length} is not {area}"
        );
    }

    #[test]
    fn hatching_covers_the_region() {
        expect_area(&LEVEL.inside(&square(0.5, 0.5, 10.0)), 100.0);
        expect_area(
            &Hatch {
                angle: 0.7,
                spacing: 0.1,
            }
            .inside(&square(0.0, 0.0, 10.0)),
            1000.0,
        );
    }

    #[test]
    fn only_what_is_outside_the_room_or_common_is_hatched() {
        let (tire, room) = (square(0.5, 0.5, 10.0), square(4.5, -50.0, 100.0));
        expect_area(&LEVEL.outside(&tire, &room), 40.0);
        expect_area(&LEVEL.common(&tire, &room), 60.0);
        expect_area(&LEVEL.common(&tire, &square(20.0, 0.0, 5.0)), 0.0);
    }

    #[test]
    fn odd_outlines_are_hatched_or_left_alone() {
        for outline in [
            vec![],
            vec![vec2(1.0, 1.0)],
            vec![vec2(0.0, 0.0), vec2(f64::NAN, 1.0), vec2(1.0, 5.0)],
            vec![vec2(0.0, -1e300), vec2(1.0, 1e300), vec2(2.0, 0.0)],
            vec![vec2(0.0, 0.0); 4],
        ] {
            assert!(LEVEL.inside(&outline).is_empty(), "{outline:?}");
            LEVEL.outside(&square(0.0, 0.0, 3.0), &outline);
        }
    }

    #[test]
    fn ticks_go_on_round_corners() {
        let line = [vec2(0.0, 0.0), vec2(5.0, 0.0), vec2(5.0, 5.0)];
        assert_eq!(ticks(&line, 1.0, 1.0, 1.0).len(), 10);
        assert!(ticks(&[vec2(f64::NAN, 0.0), vec2(1.0, 1.0)], 1.0, 1.0, 1.0).is_empty());
    }
}
