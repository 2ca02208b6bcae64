//! The search for a way off the studs and out past the lip, over sideways, up and tilt.
//!
//! Best first over a grid of places, from the seat outward: a way that is blocked ends in a small pocket that is soon
//! searched through. Every step between two places is proved: half way between two places whose clearances are `a` and
//! `b` and that no point moves more than `m` between, the clearance is nowhere below `(a + b - m) / 2`. A step that
//! this does not prove is halved.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BinaryHeap};

use super::hub::Hub;
use super::place::{Hanging, Place, inboard};
use super::room::Room;
use super::{OVERLAP, SPACING};
use crate::space::Vec2;

/// No tilt beyond this is tried, radians: a wheel that leans more is not being fed.
const MOST_TILT: f64 = std::f64::consts::PI / 6.0;
/// How far above its seat the wheel is lifted at most, mm.
const MOST_LIFT: f64 = 60.0;
/// How far off the studs the wheel is before it may leave their line, mm.
const OFF: f64 = 3.0;
/// How far outside the body the wheel is at the end, mm.
const OUTSIDE: f64 = 25.0;
/// A clearance from which places near by need no look of their own, mm.
const AMPLE: f64 = 45.0;
/// Steps shorter than this are not halved further, mm.
const SHORTEST: f64 = 0.4;
/// How strongly the way out is preferred to the shortest way.
const HASTE: f64 = 1.5;
/// After so many places a search gives up.
const MOST_PLACES: usize = 40_000;

/// A place of the grid: sideways, up, tilt.
pub(super) type Cell = [i32; 3];

/// What all searches of one side share: the body, the hub, and what is known of the grid.
#[derive(Debug, Clone)]
pub(super) struct World {
    pub hanging: Hanging,
    pub room: Room,
    pub hub: Hub,
    /// A bound from below of the clearance to the body.
    known: BTreeMap<Cell, f64>,
    /// The tilt that carries no point further than [`SPACING`].
    turn: f64,
    /// How far out the body reaches, mm.
    outermost: f64,
}

impl World {
    pub fn new(hanging: Hanging, room: Room, hub: Hub) -> Self {
        Self {
            turn: SPACING / hanging.reach,
            outermost: room.outermost(&hanging.axle, hanging.side),
            hanging,
            room,
            hub,
            known: BTreeMap::new(),
        }
    }

    fn place(&self, [sideways, up, tilt]: Cell) -> Place {
        Place {
            sideways: f64::from(sideways) * SPACING,
            up: f64::from(up) * SPACING,
            tilt: f64::from(tilt) * self.turn,
        }
    }

    /// How far the wheel still has to go until it is outside the body, mm.
    fn to_go(&self, place: Place) -> f64 {
        let inboard = inboard(&self.room.solids, place.tilt);
        self.outermost + OUTSIDE - (self.hanging.center + place.sideways - inboard)
    }

    fn body(&mut self, place: Place, enough: f64) -> f64 {
        self.room.clearance(&self.hanging.placed(place), enough).low
    }

    fn hub(&self, place: Place, seat: Vec2) -> f64 {
        self.hub
            .clearance(&self.room.solids, place.counted_from(seat))
    }

    /// The clearance of a place off the studs, hub and body together.
    fn free(&mut self, place: Place, seat: Vec2, enough: f64) -> f64 {
        let hub = self.hub(place, seat);
        if hub < enough {
            hub
        } else {
            hub.min(self.body(place, enough))
        }
    }

    /// Whether the straight way from `a` to `b`, whose clearances are given, never overlaps by more than [`OVERLAP`].
    /// With a `seat` the hub counts.
    pub fn is_proved(&mut self, a: (Place, f64), b: (Place, f64), seat: Option<Vec2>) -> bool {
        let mut open = vec![(a, b)];
        while let Some((a, b)) = open.pop() {
            let moved = self.hanging.moved(a.0, b.0);
            if (a.1 + b.1 - moved) / 2.0 >= -OVERLAP {
                continue;
            }
            if moved < SHORTEST {
                return false;
            }
            let middle = a.0.lerp(b.0, 0.5);
            let clearance = match seat {
                Some(seat) => self.free(middle, seat, -OVERLAP),
                None => self.body(middle, -OVERLAP),
            };
            if clearance < -OVERLAP {
                return false;
            }
            open.push(((middle, clearance), b));
            open.push((a, (middle, clearance)));
        }
        true
    }

    /// A bound from below of a grid place's clearance to the body; `near` is what a place so far away has.
    fn of_cell(&mut self, cell: Cell, near: f64) -> f64 {
        if let Some(&known) = self.known.get(&cell) {
            return known;
        }
        let low = if near >= AMPLE {
            near
        } else {
            self.body(self.place(cell), 0.0)
        };
        self.known.insert(cell, low);
        low
    }
}

/// One search: for the hub as it stands at one droop.
#[derive(Debug, Clone)]
pub(super) struct Feed {
    /// Where the wheel's seat lies, in the places of the world.
    pub seat: Vec2,
    /// The way along the studs, from the seat outward, with clearances.
    studs: Vec<(Place, f64)>,
    open: BinaryHeap<Open>,
    reached: BTreeMap<Cell, Reached>,
    begun: bool,
}

#[derive(Debug, Clone, Copy)]
struct Reached {
    cost: f64,
    from: Option<Cell>,
    clearance: f64,
    is_done: bool,
}

#[derive(Debug, Clone, Copy)]
struct Open {
    rank: f64,
    cell: Cell,
}

/// How a search ended.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum End {
    /// The way from the seat outward, with clearances.
    Out(Vec<(Place, f64)>),
    /// There is no way on the grid; told whether it was searched through.
    Blocked { searched_through: bool },
}

impl Feed {
    pub fn new(seat: Vec2) -> Self {
        Self {
            seat,
            studs: Vec::new(),
            open: BinaryHeap::new(),
            reached: BTreeMap::new(),
            begun: false,
        }
    }

    /// Looks at so many places more.
    pub fn advance(&mut self, world: &mut World, places: usize) -> Option<End> {
        if !self.begun {
            self.begun = true;
            if !self.off_the_studs(world) {
                return Some(End::Blocked {
                    searched_through: true,
                });
            }
        }
        for _ in 0..places {
            let Some(Open { cell, .. }) = self.open.pop() else {
                return Some(End::Blocked {
                    searched_through: true,
                });
            };
            let Some(reached) = self.reached.get_mut(&cell) else {
                continue;
            };
            if std::mem::replace(&mut reached.is_done, true) {
                continue;
            }
            let reached = *reached;
            if world.to_go(world.place(cell)) <= 0.0 {
                return Some(End::Out(self.way(world, cell)));
            }
            if self.reached.len() > MOST_PLACES {
                return Some(End::Blocked {
                    searched_through: false,
                });
            }
            self.go_on(world, cell, reached);
        }
        None
    }

    /// Straight out until the wheel is off the studs, then onto the grid; whether the body allows it.
    fn off_the_studs(&mut self, world: &mut World) -> bool {
        let at = |sideways: f64| Place {
            sideways: self.seat.x + sideways,
            up: self.seat.y,
            tilt: 0.0,
        };
        let length = world.hub.studs + OFF;
        let steps = (length / SPACING).ceil().max(1.0);
        let mut k = 0.0;
        while k <= steps {
            let place = at(length * k / steps);
            let clearance = world.body(place, 0.0);
            let is_free = clearance >= 0.0
                && self
                    .studs
                    .last()
                    .is_none_or(|&before| world.is_proved(before, (place, clearance), None));
            if !is_free {
                return false;
            }
            self.studs.push((place, clearance));
            k += 1.0;
        }
        let Some(&(off, clearance)) = self.studs.last() else {
            return false;
        };
        let clearance = clearance.min(world.hub(off, self.seat));
        let (sideways, up) = (whole(off.sideways / SPACING), whole(off.up / SPACING));
        for cell in around([sideways, up, 0]) {
            self.reach(world, None, cell, (off, clearance, 0.0));
        }
        true
    }

    fn go_on(&mut self, world: &mut World, from: Cell, reached: Reached) {
        let place = world.place(from);
        for cell in around(from) {
            if cell != from {
                self.reach(
                    world,
                    Some(from),
                    cell,
                    (place, reached.clearance, reached.cost),
                );
            }
        }
    }

    /// Reaches a grid place from a place with its clearance and its cost, if the step between is proved and cheaper.
    fn reach(
        &mut self,
        world: &mut World,
        from: Option<Cell>,
        cell: Cell,
        (place, clearance, cost): (Place, f64, f64),
    ) {
        let next = world.place(cell);
        let is_far = next.tilt.abs() > MOST_TILT
            || next.up > self.seat.y + MOST_LIFT
            || next.up < self.seat.y - 2.0 * world.hanging.reach;
        let known = self.reached.get(&cell);
        if is_far || known.is_some_and(|known| known.is_done) {
            return;
        }
        let moved = world.hanging.moved(place, next);
        let hub = world.hub(next, self.seat);
        if hub < 0.0 {
            return;
        }
        let free = hub.min(world.of_cell(cell, clearance - moved));
        if free < 0.0 {
            return;
        }
        // Where it is narrow every step costs more: the way keeps off the metal where it can.
        let cost = cost + moved * (1.0 + 1.0 / (1.0 + free / SPACING));
        if known.is_some_and(|known| known.cost <= cost)
            || !world.is_proved((place, clearance), (next, free), Some(self.seat))
        {
            return;
        }
        self.reached.insert(
            cell,
            Reached {
                cost,
                from,
                clearance: free,
                is_done: false,
            },
        );
        self.open.push(Open {
            rank: cost + HASTE * world.to_go(next).max(0.0),
            cell,
        });
    }

    /// The way from the seat to a grid place.
    fn way(&self, world: &World, end: Cell) -> Vec<(Place, f64)> {
        let mut back = Vec::new();
        let mut at = Some(end);
        while let Some((cell, reached)) = at.and_then(|cell| Some((cell, self.reached.get(&cell)?)))
        {
            back.push((world.place(cell), reached.clearance));
            at = reached.from;
        }
        let mut way = self.studs.clone();
        way.extend(back.into_iter().rev());
        way
    }

    /// How many places of a way belong to the studs: those are gone over straight.
    pub fn on_studs(&self) -> usize {
        self.studs.len()
    }
}

/// A grid place and all round it.
fn around([sideways, up, tilt]: Cell) -> impl Iterator<Item = Cell> {
    let near = |middle: i32| (middle - 1)..=(middle + 1);
    near(sideways).flat_map(move |sideways| {
        near(up).flat_map(move |up| near(tilt).map(move |tilt| [sideways, up, tilt]))
    })
}

/// The nearest whole number.
#[expect(
    clippy::cast_possible_truncation,
    reason = "places are within meters, and a cast keeps to what the type holds"
)]
fn whole(value: f64) -> i32 {
    value.round() as i32
}

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Open {}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Open {
    /// The least rank is the greatest; cells decide between equals, so that the way is always the same.
    fn cmp(&self, other: &Self) -> Ordering {
        other
            .rank
            .total_cmp(&self.rank)
            .then_with(|| other.cell.cmp(&self.cell))
    }
}
