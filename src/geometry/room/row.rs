//! One row of the room chart: the ranges of backspacing at one section width, found a question at a time.

use super::ACCURACY;
use super::face::PLACES;
use super::tracks::Tracks;
use super::tub::{Level, Tub};
use super::wheel::Wheel;
use crate::order;

/// The row's wheel, and the poses that it is asked in.
type At<'a> = (&'a Wheel, &'a mut Tracks);

/// How closely the spots' own crossing is found, mm; the rest of [`ACCURACY`] is for what they do not know of.
const CROSSING: f64 = ACCURACY / 16.0;
/// The most questions of a row: it takes far fewer, unless a gap stays at what is asked of it.
const MOST_ASKED: usize = 400;

/// A stretch of the row, and whether there is room at its ends; `None` where nobody asked yet.
#[derive(Debug, Clone, Copy)]
struct Part {
    ends: [f64; 2],
    free: [Option<bool>; 2],
}

/// The ranges with room at one level, being found.
#[derive(Debug, Clone)]
pub(super) struct RowWork {
    level: Level,
    open: Vec<Part>,
    found: Vec<[f64; 2]>,
    left: usize,
    turn: usize,
}

impl RowWork {
    /// For these stretches, each cut where a look is likely to pay.
    pub fn begin(level: Level, stretches: &[[f64; 2]], hints: &[f64]) -> Self {
        let mut open = Vec::new();
        for &[from, to] in stretches {
            let mut start = from;
            let within = |hint: &&f64| from < **hint && **hint < to;
            for &end in hints.iter().filter(within).chain([&to]) {
                open.push(Part {
                    ends: [start, end],
                    free: [None; 2],
                });
                start = end;
            }
        }
        Self {
            level,
            open,
            found: Vec::new(),
            left: MOST_ASKED,
            turn: 0,
        }
    }

    /// Asks one question more; gives the ranges once there is none left.
    pub fn step(&mut self, tub: &mut Tub, (wheel, tracks): At) -> Option<Vec<[f64; 2]>> {
        let Some(part) = self.open.pop() else {
            return Some(joined(std::mem::take(&mut self.found)));
        };
        match part.free {
            [None, _] | [_, None] => {
                let end = usize::from(part.free[0].is_some());
                let mut asked = part;
                asked.free[end] = Some(self.ask(tub, (wheel, tracks), part.ends[end], None));
                self.open.push(asked);
            }
            [Some(true), Some(true)] => self.both_free(part, tub, (wheel, tracks)),
            [Some(false), Some(false)] => self.both_stopped(part, tub, (wheel, tracks)),
            [Some(free), Some(_)] => self.limit(part, usize::from(free), tub, (wheel, tracks)),
        }
        None
    }

    fn ask(&mut self, tub: &mut Tub, (wheel, tracks): At, at: f64, limit: Option<usize>) -> bool {
        if self.left == 0 {
            return false;
        }
        self.left -= 1;
        // The first places are for the limits, each level's lower and upper.
        let place = limit.map_or_else(
            || {
                self.turn += 1;
                4 + self.turn % (PLACES - 4)
            },
            |end| 2 * self.level as usize + end,
        );
        tub.ask((wheel, tracks), at, self.level, place)
    }

    fn split(&mut self, part: Part, at: f64, free: bool) {
        let ([from, to], [first, last]) = (part.ends, part.free);
        self.open.push(Part {
            ends: [from, at],
            free: [first, Some(free)],
        });
        self.open.push(Part {
            ends: [at, to],
            free: [Some(free), last],
        });
    }

    /// What is known at the ends of other rows and here vouches for all of it, or is asked about.
    fn both_free(&mut self, part: Part, tub: &mut Tub, (wheel, tracks): At) {
        match tub.open(part.ends, self.level, ACCURACY) {
            Some([from, to]) if self.left > 0 => {
                let at = f64::midpoint(from, to);
                let free = self.ask(tub, (wheel, tracks), at, None);
                self.split(part, at, free);
            }
            _ => self.found.push(part.ends),
        }
    }

    /// One spot stops all of it, or it falls into halves.
    fn both_stopped(&mut self, part: Part, tub: &mut Tub, (wheel, tracks): At) {
        let [from, to] = part.ends;
        if to - from <= ACCURACY || self.left == 0 || tub.stops_all(wheel, part.ends, self.level) {
            return;
        }
        let at = f64::midpoint(from, to);
        let free = self.ask(tub, (wheel, tracks), at, None);
        self.split(part, at, free);
    }

    /// There is a limit in it; `stopped` is the end without room.
    fn limit(&mut self, part: Part, stopped: usize, tub: &mut Tub, (wheel, tracks): At) {
        let (mut out, free) = (part.ends[stopped], part.ends[1 - stopped]);
        let toward = (free - out).signum();
        // Where the spots known so far cross zero, to the nearest place in which they still stop the tire.
        let mut over = |at: f64| tub.over(wheel, at, self.level);
        let (mut out_over, mut in_, mut in_over) = (over(out), free, over(free));
        let mut halve = false;
        while (in_ - out).abs() > CROSSING && out_over < 0.0 && in_over >= 0.0 {
            let share = out_over / (out_over - in_over);
            let line = out + (in_ - out) * share;
            // A step beyond the crossing makes the bracket short from both ends.
            let at = if halve || !line.is_finite() {
                f64::midpoint(out, in_)
            } else {
                line + toward * CROSSING / 2.0
            };
            let at = at.clamp(out.min(in_), out.max(in_));
            let before = (in_ - out).abs();
            let found = over(at);
            if found < 0.0 {
                (out, out_over) = (at, found);
            } else {
                (in_, in_over) = (at, found);
            }
            halve = (in_ - out).abs() > before / 2.0;
        }
        let near = out + toward * (ACCURACY - CROSSING);
        let (at, is_free) = if (free - near) * toward <= 0.0 {
            (free, true)
        } else {
            (near, self.ask(tub, (wheel, tracks), near, Some(stopped)))
        };
        let part_of = |from: f64, to: f64, free: [bool; 2]| {
            let free = free.map(Some);
            if from < to {
                Part {
                    ends: [from, to],
                    free,
                }
            } else {
                Part {
                    ends: [to, from],
                    free: [free[1], free[0]],
                }
            }
        };
        self.open
            .push(part_of(part.ends[stopped], out, [false, false]));
        self.open.push(part_of(at, free, [is_free, true]));
    }
}

/// Ranges in rising order, those that touch made one.
fn joined(mut pieces: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    order::sort_by(&mut pieces, |a, b| a[0].total_cmp(&b[0]));
    let mut ranges: Vec<[f64; 2]> = Vec::new();
    for [from, to] in pieces {
        match ranges.last_mut() {
            Some(last) if from <= last[1] => last[1] = last[1].max(to),
            _ => ranges.push([from, to]),
        }
    }
    ranges
}
