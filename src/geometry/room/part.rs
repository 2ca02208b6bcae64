//! A part of a row between two places: who vouches for it, and where to ask next.

use super::ACCURACY;

/// A place so near to a hint, mm, has told already what the hint would.
const HINT: f64 = 4.0 * ACCURACY;
/// No limit is taken from a line between places farther apart than this, mm.
const LINE: f64 = 25.0;
/// The least reserve at a place of the chart.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    /// Section width, mm.
    pub width: f64,
    /// Backspacing, mm.
    pub backspacing: f64,
    /// The reserve is not below this, mm; where it is far below zero, not known to be.
    pub low: f64,
    /// It is not above this, mm.
    pub high: f64,
}

/// What to do about a part of a row.
pub(super) enum Next {
    /// All of it is vouched for.
    Sign,
    /// The sign changes in it, here.
    Limit(f64),
    /// Nobody vouches for this place.
    Ask(f64),
    /// It falls into these.
    Parts([Part; 2]),
}

impl Found {
    fn value(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    /// Whether there is a reserve.
    pub fn sign(&self) -> bool {
        self.value() >= 0.0
    }

    /// How far it vouches for its sign to either side, mm.
    pub fn reach(&self, slope: f64) -> f64 {
        let sure = if self.sign() { self.low } else { -self.high };
        sure.max(0.0) / slope
    }
}

/// A part of a row, with the signs at its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub ends: [f64; 2],
    pub signs: [bool; 2],
}

impl Part {
    pub fn next(&self, known: &[Found], slope: f64, hints: &[f64]) -> Next {
        let Part {
            ends: [left, right],
            signs,
        } = self.shrunk(known, slope);
        if right - left <= ACCURACY {
            return if signs[0] == signs[1] {
                Next::Sign
            } else {
                Next::Limit(f64::midpoint(left, right))
            };
        }
        let between = |found: &&Found| found.backspacing > left && found.backspacing < right;
        if let Some(found) = known.iter().find(between) {
            let (at, reach) = (found.backspacing, found.reach(slope));
            if reach <= ACCURACY / 2.0 && signs[0] != signs[1] {
                return Next::Limit(at);
            }
            // A reserve that only touches zero counts for as wide as a limit is known.
            let half = reach.max(ACCURACY / 2.0);
            let sign = if reach <= ACCURACY / 2.0 {
                signs[0]
            } else {
                found.sign()
            };
            let part = |ends: [f64; 2], signs: [bool; 2]| Self { ends, signs };
            return Next::Parts([
                part([left, (at - half).max(left)], [signs[0], sign]),
                part([(at + half).min(right), right], [sign, signs[1]]),
            ]);
        }
        Next::Ask(if signs[0] == signs[1] {
            f64::midpoint(left, right)
        } else {
            let is_new = |hint: &&f64| {
                let asked = |found: &Found| (found.backspacing - **hint).abs() < HINT;
                left < **hint && **hint < right && !known.iter().any(asked)
            };
            hints
                .iter()
                .find(is_new)
                .copied()
                .unwrap_or_else(|| crossing(known, [left, right]))
        })
    }

    /// What is left of it when those next to its ends have vouched for what they reach.
    fn shrunk(mut self, known: &[Found], slope: f64) -> Self {
        /// Two places are the same, mm.
        const SAME: f64 = 1e-9;
        let reaches: Vec<(f64, f64, bool)> = known
            .iter()
            .map(|found| (found.backspacing, found.reach(slope), found.sign()))
            .collect();
        loop {
            let [left, right] = self.ends;
            let to = reaches
                .iter()
                .filter(|(at, reach, sign)| *sign == self.signs[0] && at - reach <= left + SAME)
                .map(|(at, reach, _)| at + reach)
                .fold(left, f64::max);
            let from = reaches
                .iter()
                .filter(|(at, reach, sign)| *sign == self.signs[1] && at + reach >= right - SAME)
                .map(|(at, reach, _)| at - reach)
                .fold(right, f64::min);
            if to <= left + SAME && from >= right - SAME {
                return self;
            }
            self.ends = [to, from.max(to)];
            if self.ends[1] - self.ends[0] <= ACCURACY {
                return self;
            }
        }
    }
}

/// Where the line through the places next to two ends of different signs crosses zero; the middle, where they are far.
fn crossing(known: &[Found], [left, right]: [f64; 2]) -> f64 {
    let before = known.iter().filter(|found| found.backspacing <= left);
    let after = known.iter().filter(|found| found.backspacing >= right);
    let nearest = (
        before.max_by(|a, b| a.backspacing.total_cmp(&b.backspacing)),
        after.min_by(|a, b| a.backspacing.total_cmp(&b.backspacing)),
    );
    let (Some(before), Some(after)) = nearest else {
        return f64::midpoint(left, right);
    };
    let (x, y) = (before.value(), after.value());
    let span = after.backspacing - before.backspacing;
    let at = before.backspacing + span * x / (x - y);
    if (x < 0.0) == (y < 0.0) || span > LINE || !(left < at && at < right) {
        f64::midpoint(left, right)
    } else {
        at
    }
}
