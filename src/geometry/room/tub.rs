//! The wheelhouses with the tub in one place, what is known of them so far, and what is asked of them.

use std::collections::BTreeMap;

use super::face::{EVERYWHERE, Metal};
use super::needs;
use super::tracks::Tracks;
use super::wheel::{Spot, Wheel};
use crate::gap::{Beside, Limits, Poses, certify_above};
use crate::model::Model;
use crate::order;
use crate::side::Side;

/// How closely a gap that is below what is asked is looked into, mm.
const FINE: f64 = 0.02;
/// Boxes after which a gap counts as below what is asked: a cap that only a gap within rounding of it can reach.
const BOXES: usize = 20_000;
/// Boxes after which a narrower track is given up and the track itself is asked.
const FEW: usize = 60;
/// Rows for which a spot that decided nothing is kept.
const KEPT: u32 = 2;

/// Two questions: does it hit, and are all targets met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Level {
    Free = 0,
    Clear = 1,
}

/// A spot that was once below what is asked, and the last row in which it decided something.
#[derive(Debug, Clone)]
struct Stop {
    spot: Spot,
    needs: [f64; 2],
    row: u32,
}

/// The tub in one place.
#[derive(Debug, Clone)]
pub(super) struct Tub {
    metal: Vec<Metal>,
    /// For each level and each face a stretch of backspacings in which it is vouched for; everywhere, where it is not
    /// asked.
    vouched: [Vec<[f64; 2]>; 2],
    stops: Vec<Stop>,
    last: Option<Wheel>,
    row: u32,
    /// How many gaps have been certified.
    pub asked: usize,
}

impl Tub {
    /// For backspacings up to `most`, where the track is narrowest.
    pub fn new(model: &Model, most: f64) -> Self {
        let (motion, domain) = Wheel::new(model).moving(most);
        let sin = domain.apart.min(domain.high - domain.low) / motion.track_width;
        let mut metal = Vec::new();
        for side in Side::BOTH {
            for surface in model.faces(side) {
                let [travel, ride] = needs(&model.car, surface.id.surface);
                for face in &surface.faces {
                    let corners = face.corners().iter().map(|corner| corner.length());
                    let reach = corners.fold(0.0, f64::max) + face.bend;
                    // The track changes by twice what the backspacing does.
                    let drift = 2.0 * motion.track_drift(reach, [domain.low, domain.high], sin);
                    let is_low = surface.low.contains(face);
                    metal.push(Metal::new(side, *face, is_low, [0.0, travel], drift));
                    // At rest a gap is never less than through travel.
                    if ride > travel {
                        metal.push(Metal::at_ride(side, *face, is_low, ride));
                    }
                }
            }
        }
        let mut tub = Self {
            metal,
            vouched: [const { Vec::new() }; 2],
            stops: Vec::new(),
            last: None,
            row: 0,
            asked: 0,
        };
        tub.vouch();
        tub
    }

    /// Finds the stretches in which the faces are vouched for.
    fn vouch(&mut self) {
        for (k, vouched) in self.vouched.iter_mut().enumerate() {
            vouched.clear();
            vouched.extend(self.metal.iter().map(|metal| {
                if metal.needs[k].is_finite() {
                    metal.vouched(metal.needs[k])
                } else {
                    EVERYWHERE
                }
            }));
        }
    }

    /// Goes on to the next row, whose section is wider.
    pub fn begin_row(&mut self, wheel: &Wheel) {
        if let Some(last) = &self.last {
            let more = wheel.beyond(last);
            for metal in &mut self.metal {
                metal.nearer(&more[usize::from(metal.is_low)]);
            }
            self.vouch();
        }
        self.last = Some(wheel.clone());
        self.row += 1;
        let row = self.row;
        self.stops.retain(|stop| stop.row + KEPT >= row);
    }

    /// Takes over what another tub has found out about the faces that both have.
    pub fn learn(&mut self, other: &Self) {
        // A wheelhouse may have tens of thousands of faces: comparing each with each would take seconds.
        let known: BTreeMap<_, _> = other
            .metal
            .iter()
            .map(|theirs| (theirs.key(), theirs))
            .collect();
        for metal in &mut self.metal {
            if let Some(same) = known
                .get(&metal.key())
                .filter(|theirs| theirs.is_same(metal))
            {
                metal.learn(same);
            }
        }
        self.vouch();
    }

    /// Whether all that is asked at this level is met at a backspacing. What is found is kept in one of the places.
    pub fn ask(
        &mut self,
        (wheel, tracks): (&Wheel, &mut Tracks),
        backspacing: f64,
        level: Level,
        place: usize,
    ) -> bool {
        let k = level as usize;
        if self.over(wheel, backspacing, level) < 0.0 {
            return false;
        }
        let mut open: Vec<(f64, usize)> = Vec::new();
        for (i, vouched) in self.vouched[k].iter_mut().enumerate() {
            if vouched[0] <= backspacing && backspacing <= vouched[1] {
                continue;
            }
            let metal = &mut self.metal[i];
            let over = metal.over(backspacing, metal.needs[k]);
            if over < 0.0 {
                open.push((over, i));
            } else {
                *vouched = metal.vouched(metal.needs[k]);
            }
        }
        if open.is_empty() {
            return true;
        }
        order::sort_by(&mut open, |a, b| a.0.total_cmp(&b.0));
        let placed = wheel.at(backspacing);
        let mut exact = None;
        for (_, i) in open {
            let metal = &mut self.metal[i];
            let need = metal.needs[k];
            let [tire, disc, loaded] = placed.solids(metal.side, metal.at_ride);
            let [disc, loaded] = [(disc, &wheel.farther[0]), (loaded, &wheel.farther[1])]
                .map(|(solid, farther)| Beside { solid, farther });
            let others = if metal.is_low {
                &[disc, loaded][..]
            } else {
                &[disc][..]
            };
            self.asked += 1;
            let above = |poses: &mut Poses, boxes| {
                let limits = Limits {
                    accuracy: FINE,
                    boxes,
                };
                certify_above(poses, tire, others, &metal.face, metal.guess, need, limits)
            };
            let mut sure = 0.0;
            let found = if metal.at_ride {
                above(tracks.rest(wheel), BOXES)
            } else {
                let (poses, inboard) = tracks.narrower(wheel, backspacing);
                let first = above(poses, FEW);
                if first.is_some_and(|first| first.low >= need) {
                    sure = inboard - backspacing;
                    first
                } else {
                    above(
                        exact.get_or_insert_with(|| wheel.travel(backspacing)),
                        BOXES,
                    )
                }
            };
            let Some(above) = found else {
                continue;
            };
            metal.guess = Some((above.point, above.pose));
            if above.high < need {
                self.stops.push(Stop {
                    spot: Spot {
                        side: metal.side,
                        at_ride: metal.at_ride,
                        solid: above.solid,
                        point: above.point,
                        radius: metal.face.radius,
                        pose: above.pose,
                    },
                    needs: metal.needs,
                    row: self.row,
                });
                return false;
            }
            if above.low < need {
                return false;
            }
            metal.keep(place, backspacing, sure, &above);
            self.vouched[k][i] = metal.vouched(need);
        }
        true
    }

    /// By how much the least gap is at most over what is asked of it, mm, as the spots found so far tell.
    pub fn over(&mut self, wheel: &Wheel, backspacing: f64, level: Level) -> f64 {
        let mut least = f64::INFINITY;
        let mut by = None;
        for (i, stop) in self.stops.iter().enumerate() {
            let need = stop.needs[level as usize];
            if need.is_finite() {
                let over = wheel.distance(&stop.spot, backspacing) - need;
                if over < least {
                    (least, by) = (over, Some(i));
                }
            }
        }
        if let Some(i) = by {
            self.stops[i].row = self.row;
        }
        least
    }

    /// Whether one spot alone is below what is asked all along a stretch of backspacings.
    pub fn stops_all(&mut self, wheel: &Wheel, stretch: [f64; 2], level: Level) -> bool {
        let row = self.row;
        let stops = |stop: &&mut Stop| {
            let need = stop.needs[level as usize];
            need.is_finite() && wheel.greatest_along(&stop.spot, stretch) < need
        };
        let found = self.stops.iter_mut().find(stops);
        found.map(|stop| stop.row = row).is_some()
    }

    /// A part of a stretch of backspacings in which nothing vouches for some face, if it is wider than `narrow`, mm.
    pub fn open(&mut self, stretch: [f64; 2], level: Level, narrow: f64) -> Option<[f64; 2]> {
        let k = level as usize;
        let vouched = self.vouched[k].iter().zip(&mut self.metal);
        vouched
            .filter(|([from, to], _)| *from > stretch[0] || *to < stretch[1])
            .find_map(|(_, metal)| metal.open(stretch, metal.needs[k], narrow))
    }
}
