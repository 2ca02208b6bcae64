//! The wheelhouses with the tub in one place, what is known of them so far, and what is asked of them.

use super::face::Metal;
use super::needs;
use super::tracks::Tracks;
use super::wheel::{Spot, Wheel};
use crate::gap::{Limits, Poses, certify_above};
use crate::model::Model;
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
    stops: Vec<Stop>,
    /// How much farther than the first row's the section reaches, mm, as [`Wheel::beyond`] tells it.
    grown: [f64; 2],
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
        Self {
            metal,
            stops: Vec::new(),
            grown: [0.0; 2],
            last: None,
            row: 0,
            asked: 0,
        }
    }

    /// Goes on to the next row, whose section is wider.
    pub fn begin_row(&mut self, wheel: &Wheel) {
        if let Some(last) = &self.last {
            let more = wheel.beyond(last);
            self.grown = [self.grown[0] + more[0], self.grown[1] + more[1]];
        }
        self.last = Some(wheel.clone());
        self.row += 1;
        let row = self.row;
        self.stops.retain(|stop| stop.row + KEPT >= row);
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
        for (i, metal) in self.metal.iter_mut().enumerate() {
            let need = metal.needs[k];
            if need.is_finite() {
                let over = metal.over(backspacing, need, self.grown[usize::from(metal.is_low)]);
                if over < 0.0 {
                    open.push((over, i));
                }
            }
        }
        if open.is_empty() {
            return true;
        }
        open.sort_by(|a, b| a.0.total_cmp(&b.0));
        let placed = wheel.at(backspacing);
        let mut exact = None;
        for (_, i) in open {
            let metal = &mut self.metal[i];
            let need = metal.needs[k];
            let solids = placed.solids(metal.side, metal.at_ride);
            let solids = if metal.is_low {
                &solids[..]
            } else {
                &solids[..2]
            };
            self.asked += 1;
            let above = |poses: &mut Poses, boxes| {
                let limits = Limits {
                    accuracy: FINE,
                    boxes,
                };
                certify_above(poses, solids, &metal.face, metal.guess, need, limits)
            };
            let found = if metal.at_ride {
                above(tracks.rest(wheel), BOXES)
            } else {
                let first = above(tracks.narrower(wheel, backspacing), FEW);
                if first.is_some_and(|first| first.low >= need) {
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
            metal.keep(
                place,
                backspacing,
                &above,
                self.grown[usize::from(metal.is_low)],
            );
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
        let is_asked = |metal: &&mut Metal| metal.needs[level as usize].is_finite();
        self.metal.iter_mut().filter(is_asked).find_map(|metal| {
            let need = metal.needs[level as usize];
            let grown = self.grown[usize::from(metal.is_low)];
            metal.open(stretch, need, grown, narrow)
        })
    }
}
