//! One face of the metal, and the places of the chart in which its gap is known.

use crate::gap::{Above, Face};
use crate::normals::{self, SECTORS};
use crate::side::Side;
use crate::space::{Vec2, Vec3};

/// Places kept of each face: one for each limit of a row at either level, and some for what lies between.
pub(super) const PLACES: usize = 8;

/// What is known from one place: of how far the wheel is inboard of it, a concave function, the least of straight ones.
#[derive(Debug, Clone)]
struct Known {
    backspacing: f64,
    /// So far inboard, mm, the axle's places are among those that were looked at, for the track was as narrow there.
    sure: f64,
    /// What is lost for each millimeter inboard of that, mm: the metal drifts.
    drift: f64,
    lines: Vec<Line>,
}

/// What planes of one sector tell.
#[derive(Debug, Clone, Copy)]
struct Line {
    /// Not above the gap in the place itself, mm.
    low: f64,
    /// The least and the greatest that it gains for each millimeter inboard, mm.
    gains: [f64; 2],
    /// Of the planes' normals.
    sector: usize,
}

impl Known {
    const NOTHING: Self = Self {
        backspacing: 0.0,
        sure: 0.0,
        drift: 0.0,
        lines: Vec::new(),
    };

    fn at(&self, backspacing: f64) -> f64 {
        if self.lines.is_empty() {
            return f64::NEG_INFINITY;
        }
        let inboard = backspacing - self.backspacing;
        let lost = (self.drift * (inboard - self.sure)).max(0.0);
        let bounds = self.lines.iter().map(|line| {
            let [least, most] = line.gains;
            line.low + (least * inboard).min(most * inboard)
        });
        bounds.fold(f64::INFINITY, f64::min) - lost
    }

    /// From where to where it stays at least `floor`; an empty stretch where it nowhere does.
    fn reach(&self, floor: f64) -> [f64; 2] {
        if self.lines.is_empty() {
            return NOWHERE;
        }
        let reach = self.lines.iter().fold(EVERYWHERE, |reach, line| {
            let over = line.low - floor;
            let [least, most] = line.gains;
            let drifting = not_negative(over + self.drift * self.sure, least - self.drift);
            [
                not_negative(over, most),
                not_negative(over, least),
                drifting,
            ]
            .into_iter()
            .fold(reach, |a, b| [a[0].max(b[0]), a[1].min(b[1])])
        });
        reach.map(|inboard| self.backspacing + inboard)
    }
}

/// No stretch at all, and all there is.
pub(super) const NOWHERE: [f64; 2] = [f64::INFINITY, f64::NEG_INFINITY];
pub(super) const EVERYWHERE: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];

/// From where to where `start + slope * x` is not negative.
fn not_negative(start: f64, slope: f64) -> [f64; 2] {
    if slope > 0.0 {
        [-start / slope, f64::INFINITY]
    } else if slope < 0.0 {
        [f64::NEG_INFINITY, -start / slope]
    } else if start >= 0.0 {
        EVERYWHERE
    } else {
        NOWHERE
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
            known: [const { Known::NOTHING }; PLACES],
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

    /// Takes off everything known what another section reaches farther, mm, by the sectors of its normals.
    pub fn nearer(&mut self, farther: &[f64; SECTORS]) {
        for line in self.known.iter_mut().flat_map(|known| &mut known.lines) {
            line.low -= farther[line.sector];
        }
    }

    /// The stretch of backspacings for which the place that vouched last, or was kept last, vouches for a gap of `need`.
    pub fn vouched(&self, need: f64) -> [f64; 2] {
        self.known[self.order[0]].reach(need)
    }

    /// By how much the gap is surely more than `need`, mm; as soon as one known place vouches for it, what that place
    /// says.
    pub fn over(&mut self, backspacing: f64, need: f64) -> f64 {
        let mut most = f64::NEG_INFINITY;
        for k in 0..PLACES {
            let over = self.known[self.order[k]].at(backspacing) - need;
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
    pub fn open(&mut self, [from, to]: [f64; 2], need: f64, narrow: f64) -> Option<[f64; 2]> {
        if self.is_vouched([from, to], need) {
            return None;
        }
        let reaches = self.known.each_ref().map(|known| known.reach(need));
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

    /// Keeps what a search found in one of the places, with the poses of a track as narrow as `sure` mm inboard of it has.
    pub fn keep(&mut self, place: usize, backspacing: f64, sure: f64, above: &Above) {
        let known = &mut self.known[place];
        (known.backspacing, known.sure, known.drift) = (backspacing, sure, self.drift);
        known.lines.clear();
        let at = self.order.iter().position(|k| *k == place);
        self.order.swap(0, at.unwrap_or_default());
        let told = above.told.iter().enumerate();
        let told = told.filter(|(_, low)| **low < f64::INFINITY);
        known.lines.extend(told.map(|(sector, &low)| Line {
            low,
            gains: normals::along(sector),
            sector,
        }));
    }

    /// What the same face asked in the same poses has the same, in an order to look it up by.
    pub fn key(&self) -> (Side, bool, [[u64; 3]; 4]) {
        let bits = |corner: Vec3| [corner.x, corner.y, corner.z].map(f64::to_bits);
        (self.side, self.at_ride, self.face.four_corners().map(bits))
    }

    /// Whether the other is the same face, asked in the same poses.
    pub fn is_same(&self, other: &Self) -> bool {
        self.side == other.side && self.at_ride == other.at_ride && self.face == other.face
    }

    /// Takes over what is known of the same face in another wheelhouse.
    pub fn learn(&mut self, other: &Self) {
        self.known.clone_from(&other.known);
        self.order = other.order;
        self.guess = other.guess;
    }
}
