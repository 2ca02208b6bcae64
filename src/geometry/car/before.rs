//! What a plan changed, as it was before.

use super::{Car, Lever};

/// What stood on the car before a plan was put on it, mm, of what the plan changed. Sheet metal is not among it: where a
/// seam or a roof is moved to is counted from where the factory put it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Before {
    /// Backspacing.
    pub backspacing: Option<f64>,
    /// The axle, flange to flange.
    pub axle_width: Option<f64>,
    /// Bump travel.
    pub bump: Option<f64>,
    /// Height of the body over the axle, from where it was measured.
    pub ride_change: Option<f64>,
    /// How far ahead of its station the axle sat.
    pub ahead: Option<f64>,
    /// Section width of the tire.
    pub section_width: Option<f64>,
    /// Overall diameter of the tire.
    pub diameter: Option<f64>,
}

impl Before {
    /// The car as it was in all this.
    #[must_use]
    pub fn put_back(&self, car: &Car) -> Car {
        let mut was = car.clone();
        was.before = Self::default();
        for (slot, kept) in [
            (&mut was.wheel.backspacing, self.backspacing),
            (&mut was.axle.width, self.axle_width),
            (&mut was.axle.ahead, self.ahead),
            (&mut was.travel.bump, self.bump),
            (&mut was.travel.ride_change, self.ride_change),
        ] {
            *slot = kept.unwrap_or(*slot);
        }
        for (lever, kept) in [
            (Lever::SectionWidth, self.section_width),
            (Lever::OverallDiameter, self.diameter),
        ] {
            if let Some(value) = kept {
                lever.set(&mut was, value);
            }
        }
        was
    }

    /// Forgets what was on another tire.
    pub fn forget_tire(&mut self) {
        self.section_width = None;
        self.diameter = None;
    }
}
