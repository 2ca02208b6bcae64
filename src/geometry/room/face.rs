//! One face of the metal, and the places of the chart in which its gap is known.

use crate::gap::{Above, Face, Told};
use crate::side::Side;
use crate::space::{Vec2, Vec3};

/// Places kept of each face: one for each limit of a row at either level, and some for what lies between.
pub(super) const PLACES: usize = 8;

/// What is known from one place.
#[derive(Debug, Clone, Copy)]
struct Known {
    backspacing: f64,
    lines: [Line; 4],
}

/// A bound that changes with the backspacing.
#[derive(Debug, Clone, Copy)]
struct Line {
    /// Not above the gap in the place itself, but for what the section has grown, mm.
    low: f64,
    /// The least that it gains for each millimeter outboard, and for each inboard, mm.
    gains: [f64; 2],
}

impl Known {
    const NOTHING: Self = Self {
        backspacing: 0.0,
        lines: [Line {
            low: f64::NEG_INFINITY,
            gains: [0.0; 2],
        }; 4],
    };

    fn at(&self, backspacing: f64) -> f64 {
        let inboard = backspacing - self.backspacing;
        let way = usize::from(inboard > 0.0);
        let bounds = self
            .lines
            .iter()
            .map(|line| line.low + line.gains[way] * inboard.abs());
        bounds.fold(f64::INFINITY, f64::min)
    }

    /// From where to where it stays at least `least`; an empty stretch where it nowhere does.
    fn reach(&self, least: f64) -> [f64; 2] {
        let mut reach = [f64::NEG_INFINITY, f64::INFINITY];
        for line in &self.lines {
            let [from, to] = line.reach(least);
            reach = [reach[0].max(from), reach[1].min(to)];
        }
        reach.map(|way| self.backspacing + way)
    }
}

impl Line {
    fn reach(&self, least: f64) -> [f64; 2] {
        let over = self.low - least;
        let [out, inboard] = self.gains;
        if over >= 0.0 {
            let way = |gain: f64| {
                if gain < 0.0 {
                    over / -gain
                } else {
                    f64::INFINITY
                }
            };
            [-way(out), way(inboard)]
        } else if inboard > 0.0 {
            [-over / inboard, f64::INFINITY]
        } else if out > 0.0 {
            [f64::NEG_INFINITY, over / out]
        } else {
            [f64::INFINITY, f64::NEG_INFINITY]
        }
    }
}

/// A face with what is asked of it.
#[derive(Debug, Clone)]
pub(super) struct Metal {
    pub side: Side,
    pub face: Face,
    /// Whether it is asked at ride height; through travel otherwise.
    pub at_ride: bool,
    /// Whether it comes so low that the tire's section at the ground counts.
    pub is_low: bool,
    /// The gap needed for nothing to hit, and for every target to be met, mm; endlessly little where it is not asked.
    pub needs: [f64; 2],
    /// The most that a point of it moves in the axle's frame for each millimeter of backspacing, mm.
    pub drift: f64,
    /// Where the last search ended: a good place to begin the next.
    pub guess: Option<(Vec3, Vec2)>,
    known: [Known; PLACES],
    /// The places, that which vouched last first.
    order: [usize; PLACES],
}

impl Metal {
    /// A face asked through travel.
    pub fn new(side: Side, face: Face, is_low: bool, needs: [f64; 2], drift: f64) -> Self {
        Self {
            side,
            face,
            at_ride: false,
            is_low,
            needs,
            drift,
            guess: None,
            known: [Known::NOTHING; PLACES],
            order: std::array::from_fn(|k| k),
        }
    }

    /// The same asked at ride height: whether anything hits is told through travel already, and there is no tilt.
    pub fn at_ride(side: Side, face: Face, is_low: bool, need: f64) -> Self {
        Self {
            at_ride: true,
            ..Self::new(side, face, is_low, [f64::NEG_INFINITY, need], 0.0)
        }
    }

    /// By how much the gap is surely more than `need`, mm, where the section has grown by `grown` since the first row; as
    /// soon as one known place vouches for it, what that place says.
    pub fn over(&mut self, backspacing: f64, need: f64, grown: f64) -> f64 {
        let mut most = f64::NEG_INFINITY;
        for k in 0..PLACES {
            let over = self.known[self.order[k]].at(backspacing) - grown - need;
            if over >= 0.0 {
                self.order.swap(0, k);
                return over;
            }
            most = most.max(over);
        }
        most
    }

    /// Whether one known place vouches for all of a stretch: its bound is a concave function, so its ends tell.
    fn is_vouched(&mut self, [from, to]: [f64; 2], least: f64) -> bool {
        for k in 0..PLACES {
            let known = &self.known[self.order[k]];
            if known.at(from) >= least && known.at(to) >= least {
                self.order.swap(0, k);
                return true;
            }
        }
        false
    }

    /// The first part of a stretch of backspacings, wider than `narrow` mm, in which no known place vouches for a gap
    /// of `need`.
    pub fn open(
        &mut self,
        [from, to]: [f64; 2],
        need: f64,
        grown: f64,
        narrow: f64,
    ) -> Option<[f64; 2]> {
        if self.is_vouched([from, to], need + grown) {
            return None;
        }
        let reaches = self.known.each_ref().map(|known| known.reach(need + grown));
        let mut from = from;
        while to - from > narrow {
            let vouched = reaches.iter().filter(|[first, _]| *first <= from);
            let on = vouched.map(|[_, last]| *last).fold(from, f64::max);
            if on > from {
                from = on;
                continue;
            }
            let later = reaches
                .iter()
                .filter(|[first, last]| *first > from && last > first);
            let until = later.map(|[first, _]| *first).fold(to, f64::min);
            if until - from > narrow {
                return Some([from, until]);
            }
            from = until;
        }
        None
    }

    /// Keeps what a search found, in one of the places.
    pub fn keep(&mut self, place: usize, backspacing: f64, above: &Above, grown: f64) {
        // Outboard the track grows, and a wider track allows the axle fewer places; inboard the metal drifts.
        let line = |told: &Told| {
            let [least, most] = told.outboard;
            Line {
                low: told.low + grown,
                gains: [-most, least - self.drift],
            }
        };
        self.known[place] = Known {
            backspacing,
            lines: above.told.each_ref().map(line),
        };
    }
}
