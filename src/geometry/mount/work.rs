//! The search in slices: first as the axle hangs, then with more droop, then the way drawn straight.

use super::feed::{End, Feed, World};
use super::hub::Hub;
use super::place::{Hanging, Place};
use super::room::Room;
use super::{DROOP_STEP, Finding, MOST_EXTRA_DROOP, Mounting, Spot, Stop};
use crate::model::Model;
use crate::side::Side;
use crate::space::vec2;

/// Stops of the way are no further apart than this, mm.
const STOPS: f64 = 20.0;

/// A search that is under way; it keeps what it needs of the model.
#[derive(Debug, Clone)]
pub struct MountWork {
    world: World,
    seated: Spot,
    /// The axle at the car's own droop and each step beyond, as far as its locator reaches.
    hangings: Vec<Hanging>,
    feed: Feed,
    /// Which of them is being tried.
    trying: usize,
    /// No way was found with this one.
    fails: Option<usize>,
    /// A way was found with this one.
    found: Option<Found>,
    searched_through: bool,
    /// Whether the way is being straightened.
    straightening: bool,
}

/// A way as it was found, from the seat outward.
#[derive(Debug, Clone)]
struct Found {
    hanging: usize,
    /// What is straightened already: it ends where the rest begins.
    straight: Vec<(Place, f64)>,
    rest: Vec<(Place, f64)>,
}

impl MountWork {
    pub(super) fn new(model: &Model, side: Side) -> Self {
        let base = Hanging::new(model, side, 0.0);
        let mut hangings = vec![base];
        let mut extra = DROOP_STEP;
        while extra < MOST_EXTRA_DROOP + DROOP_STEP / 2.0 {
            let hanging = Hanging::new(model, side, extra);
            if !hanging.is_there() {
                break;
            }
            hangings.push(hanging);
            extra += DROOP_STEP;
        }
        let mut world = World::new(base, Room::new(model, side), Hub::new(model, side));
        Self {
            seated: stop(&mut world, Place::default(), Place::default()).spot,
            world,
            hangings,
            feed: Feed::new(vec2(0.0, 0.0)),
            trying: 0,
            fails: None,
            found: None,
            searched_through: true,
            straightening: false,
        }
    }

    /// Goes on by so many places of the search, or straightens a piece of the way; gives the answer once it is there.
    pub fn step(&mut self, places: usize) -> Option<Mounting> {
        if self.straightening {
            return self.straighten();
        }
        match self.feed.advance(&mut self.world, places)? {
            End::Out(way) => {
                let rest = way.get(self.feed.on_studs().saturating_sub(1)..);
                self.found = Some(Found {
                    hanging: self.trying,
                    straight: way
                        .first()
                        .into_iter()
                        .chain(rest?.first())
                        .copied()
                        .collect(),
                    rest: rest?.to_vec(),
                });
            }
            End::Blocked { searched_through } => {
                self.searched_through = searched_through;
                self.fails = Some(self.trying);
            }
        }
        let last = self.hangings.len() - 1;
        let next = match (self.fails, self.found.as_ref().map(|found| found.hanging)) {
            (Some(fails), None) if fails == last => return Some(self.no_way()),
            (Some(_), None) => last,
            (Some(fails), Some(found)) if found - fails > 1 => fails.midpoint(found),
            (_, _) => {
                self.straightening = true;
                return None;
            }
        };
        self.trying = next;
        let base = &self.hangings[0];
        self.feed = Feed::new(self.hangings[next].seat_from(base));
        None
    }

    fn no_way(&self) -> Mounting {
        let steps = self.hangings.iter().skip(1);
        self.answer(
            &self.hangings[0],
            Finding::NoWay {
                up_to: steps.map(|_| DROOP_STEP).sum(),
                searched_through: self.searched_through,
            },
            Vec::new(),
        )
    }

    fn answer(&self, hanging: &Hanging, finding: Finding, way: Vec<Stop>) -> Mounting {
        let mut answer = Mounting {
            side: hanging.side,
            finding,
            way,
            seated: self.seated,
            seat: vec2(0.0, 0.0),
            hanging: *hanging,
        };
        answer.seat = answer.seen(Place::default(), vec2(0.0, 0.0));
        answer
    }

    /// Goes straight to the farthest place of the rest that a straight way is proved to.
    fn straighten(&mut self) -> Option<Mounting> {
        let mut found = self.found.take()?;
        let seat = self.hangings[found.hanging].seat_from(&self.hangings[0]);
        if let Some((&from, ahead)) = found
            .rest
            .split_first()
            .filter(|(_, ahead)| !ahead.is_empty())
        {
            let mut reach = ahead.len();
            while reach > 1 && !self.world.is_proved(from, ahead[reach - 1], Some(seat)) {
                reach = reach * 3 / 4;
            }
            let reach = reach.max(1);
            found.straight.push(ahead[reach - 1]);
            found.rest.drain(..reach);
            self.found = Some(found);
            return None;
        }
        let mut way = Vec::new();
        for pair in found.straight.windows(2) {
            let (from, to) = (pair[0].0, pair[1].0);
            let pieces = (self.world.hanging.moved(from, to) / STOPS).ceil().max(1.0);
            let mut k = 0.0;
            while k < pieces {
                let at = from.lerp(to, k / pieces);
                way.push(stop(&mut self.world, at, at.counted_from(seat)));
                k += 1.0;
            }
        }
        if let Some(&(end, _)) = found.straight.last() {
            way.push(stop(&mut self.world, end, end.counted_from(seat)));
        }
        way.reverse();
        let finding = match found.hanging {
            0 => Finding::GoesOn,
            _ => Finding::WithDroop((0..found.hanging).map(|_| DROOP_STEP).sum()),
        };
        Some(self.answer(&self.hangings[found.hanging], finding, way))
    }
}

/// A place of the world as a stop of a way that counts from its seat.
fn stop(world: &mut World, at: Place, place: Place) -> Stop {
    let placement = world.hanging.placed(at);
    let found = world.room.clearance(&placement, f64::NEG_INFINITY);
    let surface = world.room.surfaces.get(found.surface).copied();
    Stop {
        place,
        clearance: found.low,
        spot: Spot {
            gap: found.high,
            surface: surface.unwrap_or(crate::body::Surface::QuarterLip.into()),
            at_body: found.spot,
        },
    }
}
