//! Will it go on: with the axle hanging at full droop, can the wheel be fed past the quarter lip and over its studs.
//!
//! # What moves, and past what
//!
//! The car stands on stands, both rear wheels hang at full droop. The wheel with its tire, not loaded, is carried along
//! the axle, up and down, and tilted about the fore-aft line through its center: three numbers, a [`Place`]. It may not
//! overlap the sheet metal all round it, the frame rail and the parts bolted nearby, nor the axle flange, the brake's
//! hat and the studs, which go into the hollow of the wheel; over the studs it goes straight along the axle. The ground
//! does not matter on a lift. The quarter panel outside is taken to stand no further out than the lip; tire and metal
//! do not yield, and the wheel is not turned about the upright, which can only help.
//!
//! # What is proved
//!
//! No way found ever overlaps the body by more than [`OVERLAP`]: each place is bounded from below, and between two
//! places by how far any point moves (`feed.rs`). That there is none is proved for a grid of places [`SPACING`] apart:
//! a way that keeps less than about that much room may be overlooked, so the droop asked for is enough, and may be a
//! little more than the least. Taking the wheel off is the same way backward.

mod feed;
mod hub;
mod place;
mod room;
mod work;

pub use place::Place;
pub use work::MountWork;

use crate::body::SurfaceId;
use crate::model::Model;
use crate::motion::Placement;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};
use place::Hanging;

/// The most by which the wheel overlaps the body anywhere on a way that was found, mm: a sixteenth of an inch.
pub const OVERLAP: f64 = 1.5875;
/// Between two neighboring places of the search, mm: no point of the wheel moves further along one of the three ways.
pub const SPACING: f64 = 8.0;
/// Extra droop is told in steps of an eighth of an inch, mm.
pub const DROOP_STEP: f64 = 3.175;
/// Droop beyond the car's own is tried up to 6 in, mm.
pub const MOST_EXTRA_DROOP: f64 = 48.0 * DROOP_STEP;

/// Where the wheel comes nearest to the body in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The distance there, mm, negative where they overlap.
    pub gap: f64,
    /// The surface.
    pub surface: SurfaceId,
    /// The point of the body, car frame.
    pub at_body: Vec3,
}

/// A place on the way, and how near the body is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// The place, counted from the seat on the axle at the droop of the answer.
    pub place: Place,
    /// Never above the true distance between wheel and body there, mm.
    pub clearance: f64,
    /// Where it is.
    pub spot: Spot,
}

/// What was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// The wheel goes on as the axle hangs.
    GoesOn,
    /// It goes on with this much droop more, mm, or the body lifted so much over the axle; with a step less no way was
    /// found.
    WithDroop(f64),
    /// No way was found with up to so much droop more, mm.
    NoWay {
        /// As far as it was tried.
        up_to: f64,
        /// Whether all places of the grid were looked at, or the search gave up.
        searched_through: bool,
    },
}

/// The answer for one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Mounting {
    /// The side.
    pub side: Side,
    /// What was found.
    pub finding: Finding,
    /// The way on, from outside to the flange; nothing where none was found.
    pub way: Vec<Stop>,
    /// Where the wheel comes nearest to the body where it sits at the car's own droop.
    pub seated: Spot,
    /// How far out and up the seat's center lies, car frame, mm, at the droop of the answer.
    pub seat: Vec2,
    hanging: Hanging,
}

impl Mounting {
    /// Begins the search for one side of a model.
    #[must_use]
    pub fn begin(model: &Model, side: Side) -> MountWork {
        MountWork::new(model, side)
    }

    /// The whole search at once.
    #[must_use]
    pub fn whole(model: &Model, side: Side) -> Mounting {
        let mut work = Self::begin(model, side);
        loop {
            if let Some(mounting) = work.step(usize::MAX) {
                return mounting;
            }
        }
    }

    /// The droop beyond the car's own that the way takes, mm.
    #[must_use]
    pub fn extra_droop(&self) -> f64 {
        match self.finding {
            Finding::WithDroop(extra) => extra,
            Finding::GoesOn | Finding::NoWay { .. } => 0.0,
        }
    }

    /// The tightest stop of the way.
    #[must_use]
    pub fn tightest(&self) -> Option<&Stop> {
        self.way
            .iter()
            .min_by(|a, b| a.spot.gap.total_cmp(&b.spot.gap))
    }

    /// The stop of the way that is nearest to `place`.
    #[must_use]
    pub fn nearest_stop(&self, place: Place) -> Option<&Stop> {
        let away = |stop: &Stop| self.hanging.moved(stop.place, place);
        self.way.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
    }

    /// Where on the way its tightest stop is, as a share: 0 outside, 1 on the flange. Where there is no way, the seat.
    #[must_use]
    pub fn tightest_share(&self) -> f64 {
        let stops = self.way.iter().enumerate();
        let tightest = stops.min_by(|(_, a), (_, b)| a.spot.gap.total_cmp(&b.spot.gap));
        let whole = self.length(&self.way);
        match tightest {
            Some((index, _)) if whole > 0.0 => self.length(&self.way[..=index]) / whole,
            _ => 1.0,
        }
    }

    /// How long a part of the way is, mm that the wheel moves.
    fn length(&self, part: &[Stop]) -> f64 {
        part.windows(2).map(|pair| self.step(pair)).sum()
    }

    fn step(&self, pair: &[Stop]) -> f64 {
        self.hanging.moved(pair[0].place, pair[1].place)
    }

    /// The place a share of the way on: 0 outside, 1 on the flange. Where there is no way, the seat.
    #[must_use]
    pub fn at(&self, share: f64) -> Place {
        let mut left = self.length(&self.way)
            * if share.is_nan() {
                1.0
            } else {
                share.clamp(0.0, 1.0)
            };
        for pair in self.way.windows(2) {
            let step = self.step(pair);
            if left <= step && step > 0.0 {
                return pair[0].place.lerp(pair[1].place, left / step);
            }
            left -= step;
        }
        self.way.last().map_or(Place::default(), |stop| stop.place)
    }

    /// Body points in the frame of an axle that carried the wheel to `place`: what its solids are told in.
    #[must_use]
    pub fn placement(&self, place: Place) -> Placement<f64> {
        self.hanging.placed(place)
    }

    /// A point of the wheel's meridian plane, `(outboard, up)` from its center, as it is seen from behind when the wheel
    /// is at `place`: `(out, up)`, car frame, mm.
    #[must_use]
    pub fn seen(&self, place: Place, point: Vec2) -> Vec2 {
        let sign = self.side.sign();
        let inside = vec3(0.0, sign * (self.hanging.center + point.x), point.y);
        let body = self.placement(place).body_from_axle(inside);
        vec2(sign * body.y, body.z)
    }
}
