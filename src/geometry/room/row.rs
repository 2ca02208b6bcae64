//! One row of the room chart: the limits along the backspacing at one section width.

use super::part::{Found, Next, Part};
use super::{ACCURACY, needs};
use crate::gap::{Limits, PoseDomain, Poses};
use crate::model::{Model, Solids, SurfaceFaces};
use crate::motion::Motion;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::travel::Pose;

/// The most that a reserve changes a millimeter of section width: twice what the half that goes to either side does.
const WIDTH_SLOPE: f64 = 1.0;
/// How far a point of tire or wheel is from the roll's center at most, mm.
const REACH: f64 = 1500.0;
/// Boxes after which a gap is close enough: only a surface deep inside the tire takes more, and there the upper end of
/// its interval, which is attained, says already that it hits and by how much.
const BOXES: usize = 80;
/// A reserve that much below zero need not be the least, mm.
const ENOUGH: f64 = 5.0;
/// How closely a gap is certified where it decides, mm.
const FINE: f64 = ACCURACY / 5.0;
/// The last gaps kept of each surface.
const KEPT: usize = 24;

/// The most places of a row that are asked about one question: it takes far fewer, unless a reserve stays at zero.
const MOST_ASKED: usize = 300;

/// Two questions: does it hit, and are all targets met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Level {
    Free = 0,
    Clear = 1,
}

/// A certified gap at a place of the chart.
#[derive(Debug, Clone, Copy)]
struct Sample {
    width: f64,
    backspacing: f64,
    low: f64,
    high: f64,
}

/// One surface, asked through travel or at ride height.
#[derive(Debug, Clone)]
struct Asked {
    side: Side,
    surface: usize,
    at_ride: bool,
    /// What is needed at either level, mm.
    need: [f64; 2],
    samples: Vec<Sample>,
}

/// The wheelhouses with the tub in one place, and what is known of them so far.
#[derive(Debug, Clone)]
pub(super) struct Tub {
    faces: Sides<Vec<SurfaceFaces>>,
    asked: Vec<Asked>,
    found: [Vec<Found>; 2],
    /// The limits of the last two rows at either level.
    limits: [[Vec<f64>; 2]; 2],
}

/// The wheel at one width, at any backspacing.
pub(super) struct Wheel {
    width: f64,
    backspacing: f64,
    motion: Motion,
    domain: PoseDomain,
    rigid: Sides<Solids>,
    given: Sides<Solids>,
    give: f64,
    /// The most that a reserve changes a millimeter of backspacing.
    slope: f64,
    /// Gaps certified.
    pub asked: usize,
}

/// A wheel at one backspacing, with the poses halved so far.
struct Placed {
    backspacing: f64,
    travel: Poses,
    ride: Poses,
    rigid: Sides<Solids>,
    given: Sides<Solids>,
}

impl Wheel {
    pub fn new(model: &Model) -> Self {
        let domain = model.pose_domain();
        let track = model.motion.track_width;
        // A millimeter of backspacing changes the track by two. In a held pose of the wheels that turns the axle by
        // sin / track a millimeter of track, and a roll limit lets the wheels' heights go further apart by its sine.
        let sin = (domain.apart.min(domain.high - domain.low) / track).min(1.0);
        Self {
            width: model.car.section_width(),
            backspacing: model.car.wheel.backspacing,
            motion: model.motion,
            domain,
            rigid: model.solids.clone(),
            given: model.given.clone(),
            give: model.car.travel.give,
            slope: 1.0 + 2.0 * sin * (REACH / track + 1.0),
            asked: 0,
        }
    }

    fn at(&self, backspacing: f64) -> Placed {
        let inboard = backspacing - self.backspacing;
        let track_width = self.motion.track_width - 2.0 * inboard;
        let mut motion = self.motion;
        motion.track_width = track_width;
        let domain = PoseDomain {
            apart: self.domain.apart * track_width / self.motion.track_width,
            ..self.domain
        };
        let shifted = |solid: &Revolved| Revolved {
            center_plane: track_width / 2.0,
            ..solid.clone()
        };
        let solids = |all: &Sides<Solids>| {
            Sides::each(|side| {
                let one = all.get(side);
                Solids {
                    tire: shifted(&one.tire),
                    loaded: shifted(&one.loaded),
                    wheel: shifted(&one.wheel),
                }
            })
        };
        Placed {
            backspacing,
            travel: Poses::new(motion, domain),
            ride: Poses::at(motion, Pose::RIDE),
            rigid: solids(&self.rigid),
            given: solids(&self.given),
        }
    }
}

impl Tub {
    pub fn new(model: &Model) -> Self {
        let faces = Sides::each(|side| model.faces(side));
        let mut asked = Vec::new();
        for side in Side::BOTH {
            for (surface, one) in faces.get(side).iter().enumerate() {
                let [travel, ride] = needs(&model.car, one.id.surface);
                let ask = |at_ride: bool, need: [f64; 2]| Asked {
                    side,
                    surface,
                    at_ride,
                    need,
                    samples: Vec::new(),
                };
                asked.push(ask(false, [0.0, travel]));
                // At rest a gap is never less than through travel.
                if ride > travel {
                    asked.push(ask(true, [f64::NEG_INFINITY, ride]));
                }
            }
        }
        Self {
            faces,
            asked,
            found: Default::default(),
            limits: Default::default(),
        }
    }

    /// The ranges in which the reserve is not negative.
    pub fn ranges(
        &mut self,
        wheel: &mut Wheel,
        [from, to]: [f64; 2],
        level: Level,
    ) -> Vec<[f64; 2]> {
        // What was found in rows far away vouches for nothing here.
        self.found[level as usize].retain(|found| {
            found.low.abs().max(found.high.abs()) > WIDTH_SLOPE * (wheel.width - found.width).abs()
        });
        let rows = self.found[level as usize].iter();
        let mut known: Vec<Found> = rows
            .map(|found| {
                // Nearer to zero by what the other width may have done.
                let off = WIDTH_SLOPE * (wheel.width - found.width).abs();
                Found {
                    low: found.low - off,
                    high: found.high + off,
                    ..*found
                }
            })
            // What hardly vouches any more would pass for a zero of this row.
            .filter(|here| here.reach(wheel.slope) > ACCURACY)
            .collect();
        let signs = [from, to].map(|end| {
            let vouches =
                |found: &&Found| (found.backspacing - end).abs() < found.reach(wheel.slope);
            if let Some(found) = known.iter().find(vouches) {
                return found.sign();
            }
            let found = self.least(wheel, end, level);
            known.push(found);
            found.sign()
        });
        let [last, before] = &self.limits[level as usize];
        let hints: Vec<f64> = if last.len() == before.len() {
            last.iter()
                .zip(before)
                .map(|(last, before)| 2.0 * last - before)
                .collect()
        } else {
            last.clone()
        };
        let mut limits = Vec::new();
        let mut open = vec![Part {
            ends: [from, to],
            signs,
        }];
        let mut left = MOST_ASKED;
        while let Some(part) = open.pop() {
            match part.next(&known, wheel.slope, &hints) {
                Next::Sign => {}
                Next::Limit(at) => limits.push(at),
                Next::Ask(at) if left > 0 => {
                    left -= 1;
                    known.push(self.least(wheel, at, level));
                    open.push(part);
                }
                Next::Ask(at) => limits.extend((part.signs[0] != part.signs[1]).then_some(at)),
                Next::Parts(parts) => open.extend(parts),
            }
        }
        limits.sort_by(f64::total_cmp);
        let [last, before] = &mut self.limits[level as usize];
        *before = std::mem::replace(last, limits.clone());
        let mut ranges = Vec::new();
        let mut start = signs[0].then_some(from);
        for limit in limits {
            start = match start {
                Some(begun) => {
                    ranges.push([begun, limit]);
                    None
                }
                None => Some(limit),
            };
        }
        ranges.extend(start.map(|begun| [begun, to]));
        ranges
    }

    /// The least reserve at a backspacing.
    fn least(&mut self, wheel: &mut Wheel, backspacing: f64, level: Level) -> Found {
        let mut placed = wheel.at(backspacing);
        let mut order: Vec<(f64, usize)> = self
            .asked
            .iter()
            .enumerate()
            .filter(|(_, asked)| asked.need[level as usize].is_finite())
            .map(|(i, asked)| {
                let low = asked.bound(wheel, backspacing) - asked.need[level as usize];
                (low, i)
            })
            .collect();
        order.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut found = Found {
            width: wheel.width,
            backspacing,
            low: f64::INFINITY,
            high: f64::INFINITY,
        };
        for (bound, i) in order {
            if bound >= found.high {
                found.low = found.low.min(bound);
                break;
            }
            // So deep a hit vouches far enough; which surface is deeper yet changes no verdict.
            if found.high < -ENOUGH {
                break;
            }
            let Some(gap) = self.gap(wheel, &mut placed, i) else {
                continue;
            };
            let need = self.asked[i].need[level as usize];
            found.low = found.low.min(gap.low - need);
            found.high = found.high.min(gap.high - need);
        }
        self.found[level as usize].push(found);
        found
    }

    /// One surface's gap, certified now or already known here.
    fn gap(&mut self, wheel: &mut Wheel, placed: &mut Placed, i: usize) -> Option<Sample> {
        /// As close as the limits ask for; where a reserve is large, a share of it will do.
        const SHARE: f64 = 0.02;
        let asked = &mut self.asked[i];
        let here = |sample: &&Sample| {
            sample.width.to_bits() == wheel.width.to_bits()
                && sample.backspacing.to_bits() == placed.backspacing.to_bits()
        };
        if let Some(sample) = asked.samples.iter().find(here) {
            return Some(*sample);
        }
        let (poses, solids, give) = if asked.at_ride {
            (&mut placed.ride, placed.rigid.get(asked.side), 0.0)
        } else {
            (&mut placed.travel, placed.given.get(asked.side), wheel.give)
        };
        let near = asked.nearest(placed.backspacing);
        let reserve = near.map_or(0.0, |sample| {
            let away = |need: f64| (sample.high - need).abs();
            away(asked.need[0].max(0.0)).min(away(asked.need[1]))
        });
        let moved = near.map_or(0.0, |sample| {
            wheel.slope * (placed.backspacing - sample.backspacing).abs()
        });
        let accuracy = (SHARE * (reserve - moved)).clamp(FINE, 2.0);
        wheel.asked += 1;
        let faces = self.faces.get(asked.side).get(asked.surface)?;
        let rough = Limits {
            accuracy,
            boxes: BOXES,
        };
        let mut gap = faces.gap(poses, solids, give, rough)?;
        let straddles = |need: &f64| gap.low < *need && *need <= gap.high;
        if gap.high - gap.low > FINE && asked.need.iter().any(straddles) {
            gap = faces.gap(poses, solids, give, Limits::accuracy(FINE))?;
        }
        let sample = Sample {
            width: wheel.width,
            backspacing: placed.backspacing,
            low: gap.low,
            high: gap.high,
        };
        if asked.samples.len() >= KEPT {
            asked.samples.remove(0);
        }
        asked.samples.push(sample);
        Some(sample)
    }
}

impl Asked {
    /// What the gap cannot be below, from the gaps nearby.
    fn bound(&self, wheel: &Wheel, backspacing: f64) -> f64 {
        let from = |sample: &Sample| {
            sample.low
                - wheel.slope * (backspacing - sample.backspacing).abs()
                - WIDTH_SLOPE * (wheel.width - sample.width).abs()
        };
        self.samples
            .iter()
            .map(from)
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// The gap last certified nearest by.
    fn nearest(&self, backspacing: f64) -> Option<Sample> {
        let away = |sample: &Sample| (sample.backspacing - backspacing).abs();
        let latest = self.samples.iter().rev();
        latest.min_by(|a, b| away(a).total_cmp(&away(b))).copied()
    }
}
