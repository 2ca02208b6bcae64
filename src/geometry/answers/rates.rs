//! How fast a gap can change with each remedy.
//!
//! A gap is a least signed distance over points of the metal and poses. If each pose before the change has one after it
//! in which no contact point of tire and metal has moved by more than `d` against the other, and the other way round, no
//! gap has changed by more than `d`. With `T` the track width, `s` the greatest sine of the axle's roll, `c` its cosine,
//! and `R` how far a unit of that sine moves any point of the tire:
//!
//! - *seam move*: every surface of the tub shifts by as much, and the fill strip's points lie that near to it: 1.
//! - *ride height*: each pose rises by as much, and the locator shifts it sideways by its slope: `hypot(1, slope)`.
//! - *bump*: a pose beyond the new stop moves to it, each wheel by at most as much, so `(1, 1)` or `(1, 0)`:
//!   the greater of `hypot(1, slope)` and half of that with `R / T`.
//! - *track width*: the tire moves half as much along the axle. At the same wheel heights the sine of the roll changes by
//!   `s / T` of it; where a roll limit cuts the poses, the wheels come together by `s` of it, `s / T` once more:
//!   `1/2 + 2 R s / T`.
//! - *backspacing*: it changes the track width by twice as much.
//! - *section width*: 1. The widest points move by half of it, tread and shoulder by less than that (a property test holds
//!   it for the tire away from the ground, the only one that it is used for).
//! - *tire diameter*: 1/2. The crown moves by half of it, everything below by less (held likewise).
//! - *axle ahead*: the tire moves as far: 1.
//! - *roof raised*: no point of the sheet moves farther: 1.
//!
//! That `R` counts from the axle's center to the tire's own farthest point, and not to the metal, is because turning a
//! point about its foot on the tire's tangent plane leaves its distance as it is.

use super::Remedy;
use crate::car::Car;
use crate::locator::{Locator, PivotOn};
use crate::math::{hypot, sin};
use crate::model::Model;

/// How far the cars may be from the one that rates were made at: they hold for all of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Of its track width, mm wider or narrower, but no more than half of it.
    pub track_width: f64,
    /// Of its body's height, mm higher or lower.
    pub lifted: f64,
}

/// Millimeters of gap a millimeter of remedy, at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    heave: f64,
    bump: f64,
    track_width: f64,
}

impl Rates {
    /// The rates on this car and on those around it, with its bump travel or shorter.
    #[must_use]
    pub fn new(model: &Model, around: Around) -> Self {
        let car = &model.car;
        let off = around.track_width.min(car.track_width() / 2.0);
        let (narrow, wide) = (car.track_width() - off, car.track_width() + off);
        let travel = car.travel.bump + car.travel.droop;
        let sine = (travel / narrow)
            .min(car.travel.roll_limit.map_or(1.0, sin))
            .min(0.99);
        let cosine = (1.0 - sine * sine).sqrt();
        let risen =
            car.travel.ride_change.abs() + around.lifted + car.travel.bump.max(car.travel.droop);
        let half = model
            .tire
            .inputs
            .section_width
            .max(car.wheel.overall_width())
            / 2.0;
        let reach = hypot(
            wide / 2.0 + half + car.travel.give,
            model.tire.inputs.diameter / 2.0,
        );
        let (slope, across) = sideways(car, sine, cosine, risen);
        let heave = hypot(1.0, slope);
        let roll = reach / cosine + across;
        Self {
            heave,
            bump: heave.max(heave / 2.0 + roll / narrow),
            track_width: 0.5 + 2.0 * roll * sine / narrow,
        }
    }

    /// The rate of one remedy.
    #[must_use]
    pub fn of(&self, remedy: Remedy) -> f64 {
        match remedy {
            Remedy::Seam(_) | Remedy::SectionWidth | Remedy::Ahead | Remedy::Roof(_) => 1.0,
            Remedy::Diameter => 0.5,
            Remedy::Backspacing => 2.0 * self.track_width,
            Remedy::TrackWidth => self.track_width,
            Remedy::Bump => self.bump,
            Remedy::RideHeight => self.heave,
        }
    }
}

/// The axle's sideways shift, at most: a millimeter of rise, and a unit of the roll's sine.
fn sideways(car: &Car, sine: f64, cosine: f64, risen: f64) -> (f64, f64) {
    match car.locator {
        Locator::TrackBar { axle_end, body_end } => {
            let up = (axle_end.y - body_end.y).abs()
                + axle_end.x.abs() * sine
                + axle_end.y.abs() * (1.0 - cosine)
                + risen;
            let bar = (axle_end - body_end).length();
            // A model is refused where its bar could stand steeper than 45 degrees.
            let slope = if up < std::f64::consts::FRAC_1_SQRT_2 * bar {
                up / (bar * bar - up * up).sqrt()
            } else {
                1.0
            };
            (slope, axle_end.length() * (1.0 + slope) / cosine)
        }
        Locator::WattLink {
            height,
            pivot_on: PivotOn::Body,
        } => (
            sine / cosine,
            (height.abs() + risen) / (cosine * cosine * cosine),
        ),
        Locator::WattLink {
            height,
            pivot_on: PivotOn::Axle,
        }
        | Locator::AngledLinks { height }
        | Locator::LeafSprings { height } => (0.0, height.abs()),
    }
}
