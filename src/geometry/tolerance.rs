//! Tape error carried to each gap: how far off it may be, and which measurement matters most.
//!
//! # The derivative
//!
//! A gap is the least of `f(place, pose; m)` over all places of a surface and all poses, `m` a measurement. Where the
//! least is attained in one place and pose only, its derivative by `m` is that of `f` there, with place and pose held
//! (the envelope theorem): the place keeps its span, its share across and its angle, the pose its heights. So the gap's
//! derivative by a reading is the normal times the derivative of the body point, and by a size of the tire that of the
//! tire's support in that direction. Where a tire is so deep in metal that two ways out are equally short, it is a
//! mixture of both (see `planes.rs`). Both are exact but for the derivative of the *construction* of stations and
//! sections, which is a central difference over [`STEP`]; the search for the least gap is never differenced.
//!
//! Every measurement counts as independent of the others. A guess that was made from a reading moves with it, so that
//! its share is in the reading's; how far the guess itself may be off comes on top, as an error of its own, which is
//! never less than a reading's. With the errors `e` and the derivatives `g'` a gap's band is `sqrt(sum (g' e)^2)`, root-sum-square, which most
//! bands stay within, and `sum |g' e|` at worst.

mod frozen;
mod place;
mod planes;
mod saddle;
mod work;

use crate::body::SurfaceId;
use crate::body::tape::{TAPE_FIELDS, TapeField};
use crate::car::{Car, fields};
use crate::check::{Check, SurfaceCheck, Verdict};
use crate::gap::Gap;
use crate::model::Model;
use crate::order;
use crate::side::{Side, Sides};
use frozen::{Frozen, Variants};

pub use work::BandsWork;

/// The step of the central differences of the body's construction, mm: what the third derivative does over it, and what
/// rounding does to it, both stay below a millionth.
pub const STEP: f64 = 0.01;

/// Something that was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measurement {
    /// A tape reading of a side, by its key in [`TAPE_FIELDS`].
    Reading(Side, &'static str),
    /// The wheelhouse stations of a side, each point across the sheet.
    Stations(Side),
    /// Where a part bolted nearby is, by its place in the car's list.
    Obstacle(usize),
    /// The axle, flange to flange. Where it stays under the car, tire and body move together.
    Axle,
    /// The tire's section width.
    SectionWidth,
    /// The tire's overall diameter.
    Diameter,
}

/// What one measurement does to one gap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The measurement.
    pub measurement: Measurement,
    /// How much the gap grows a millimeter of it.
    pub rate: f64,
    /// How far it may be off, mm.
    pub error: f64,
}

/// How far one gap may be off.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Spread {
    /// Root-sum-square of all errors, mm.
    pub rss: f64,
    /// All errors at their worst, mm.
    pub worst: f64,
    /// What each measurement does, the most important first; those that do nothing are left out.
    pub shares: Vec<Share>,
}

/// How far one surface's gaps may be off.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Which surface.
    pub id: SurfaceId,
    /// What it is called.
    pub name: String,
    /// Of the gap at ride height.
    pub ride: Spread,
    /// Of the least gap through travel.
    pub travel: Spread,
    /// Whether it is the gap at ride height that decides the verdict.
    pub ride_decides: bool,
    /// The worst and the best verdict within the root-sum-square band, where they differ.
    pub could_be: Option<[Verdict; 2]>,
}

impl Share {
    /// How far it may put the gap off, mm.
    #[must_use]
    pub fn effect(&self) -> f64 {
        (self.rate * self.error).abs()
    }
}

impl Band {
    /// The band of the gap that decides.
    #[must_use]
    pub fn deciding(&self) -> &Spread {
        if self.ride_decides {
            &self.ride
        } else {
            &self.travel
        }
    }

    /// The measurement to take again first, where the band could overturn the verdict.
    #[must_use]
    pub fn measure_again(&self) -> Option<Measurement> {
        self.could_be?;
        Some(self.deciding().shares.first()?.measurement)
    }
}

impl Measurement {
    /// How far it may be off, mm: its own error, or else that of its kind.
    #[must_use]
    pub fn error(self, car: &Car) -> f64 {
        let errors = &car.tape_error;
        let own = match self {
            Measurement::Reading(side, key) => {
                return field_of(key).map_or(errors.measured, |field| {
                    errors.of((field.reading)(&car.sides.get(side).tape))
                });
            }
            Measurement::Stations(_) => errors.stations,
            Measurement::Obstacle(_) => errors.obstacles,
            Measurement::Axle => errors.axle,
            Measurement::SectionWidth => errors.section_width,
            Measurement::Diameter => errors.diameter,
        };
        own.unwrap_or(errors.measured)
    }

    /// Where it stands in a car file: `left.tape.to_tub_high`, `axle.measured_width`, `obstacle[0]`.
    #[must_use]
    pub fn key(self) -> String {
        match self {
            Measurement::Reading(side, key) => format!("{}.tape.{key}", side.word()),
            Measurement::Stations(side) => format!("{}.station", side.word()),
            Measurement::Obstacle(index) => format!("obstacle[{index}]"),
            Measurement::Axle => fields::MEASURED_WIDTH.bound.key.to_owned(),
            Measurement::SectionWidth => fields::SECTION_WIDTH.bound.key.to_owned(),
            Measurement::Diameter => fields::OVERALL_DIAMETER.bound.key.to_owned(),
        }
    }

    /// What it is called, with its side where it has one: `Flange face in to tub wall, high (left)`.
    #[must_use]
    pub fn words(self, car: &Car) -> String {
        match self {
            Measurement::Reading(side, key) => {
                let label = field_of(key).map_or(key, |field| field.field.bound.label);
                format!("{label} ({})", side.word())
            }
            Measurement::Stations(side) => format!("wheelhouse stations ({})", side.word()),
            Measurement::Obstacle(index) => car.obstacles.get(index).map_or_else(
                || "part near the tire".to_owned(),
                |part| format!("place of the {}", part.name),
            ),
            Measurement::Axle => "measured axle, flange to flange".to_owned(),
            Measurement::SectionWidth => "section width of the tire".to_owned(),
            Measurement::Diameter => "diameter of the tire".to_owned(),
        }
    }
}

fn field_of(key: &str) -> Option<&'static TapeField> {
    TAPE_FIELDS
        .iter()
        .find(|field| field.field.bound.key == key)
}

/// The bands of every surface, in the order of the check, which must be of the same model.
#[must_use]
pub fn bands(model: &Model, check: &Check) -> Sides<Vec<Band>> {
    BandsWork::begin(model, check).whole()
}

/// What each measurement of a model does to any one of its gaps.
pub struct Rates<'m> {
    model: &'m Model,
    whole: Variants,
    sides: Sides<Variants>,
}

impl<'m> Rates<'m> {
    /// Prepares a model's.
    #[must_use]
    pub fn of(model: &'m Model) -> Self {
        Self {
            model,
            whole: Variants::of_car(model),
            sides: Sides::each(|side| Variants::of_side(model, side)),
        }
    }

    /// What each measurement does to a gap of the rigid tire in the one pose of its witness.
    #[must_use]
    pub fn at(&self, side: Side, id: SurfaceId, gap: &Gap) -> Vec<Share> {
        Frozen::new(self.model, side, id, gap, false)
            .map(|frozen| spread(&frozen, [&self.whole, self.sides.get(side)]).shares)
            .unwrap_or_default()
    }
}

fn band(model: &Model, side: Side, surface: &SurfaceCheck, variants: [&Variants; 2]) -> Band {
    let spread = |gap: &Gap, given: bool| {
        Frozen::new(model, side, surface.id, gap, given)
            .map(|frozen| spread(&frozen, variants))
            .unwrap_or_default()
    };
    let ride = spread(&surface.ride, false);
    let travel = spread(&surface.travel, true);
    let verdicts = [
        Verdict::of(surface.ride.low, surface.ride_target),
        Verdict::of(surface.travel.low, surface.travel_target),
    ];
    let reserves = [
        surface.ride.low - surface.ride_target,
        surface.travel.low - surface.travel_target,
    ];
    let ride_decides = verdicts[0]
        .cmp(&verdicts[1])
        .then(reserves[0].total_cmp(&reserves[1]))
        .is_lt();
    let verdict = |way: f64| {
        Verdict::of(surface.ride.low + way * ride.rss, surface.ride_target).min(Verdict::of(
            surface.travel.low + way * travel.rss,
            surface.travel_target,
        ))
    };
    let [worst, best] = [verdict(-1.0), verdict(1.0)];
    Band {
        id: surface.id,
        name: surface.name.clone(),
        ride,
        travel,
        ride_decides,
        could_be: (worst != best).then_some([worst, best]),
    }
}

fn spread(frozen: &Frozen, variants: [&Variants; 2]) -> Spread {
    /// A rate that is nothing but rounding.
    const NOTHING: f64 = 1e-6;
    let mut shares: Vec<Share> = variants
        .iter()
        .flat_map(|variants| frozen.shares(variants))
        .filter(|share| share.rate.abs() > NOTHING)
        .collect();
    order::sort_by(&mut shares, |a, b| b.effect().total_cmp(&a.effect()));
    let squares: f64 = shares
        .iter()
        .map(|share| share.effect() * share.effect())
        .sum();
    Spread {
        rss: squares.sqrt(),
        worst: shares.iter().map(Share::effect).sum(),
        shares,
    }
}
