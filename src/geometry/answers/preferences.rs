//! What a shop can buy or set, and what is rather changed than what.

use super::Remedy;
use crate::car::Car;
use crate::field::{Bound, Quantity};
use crate::side::Side;
use crate::units::MM_PER_INCH;

/// What a step may be. A finer one than this no shop sets.
pub const STEP_SIZE: Bound = Bound {
    key: "size",
    label: "Step",
    help: "The least that a shop can buy or set it by.",
    quantity: Quantity::Length,
    least: 1.0,
    most: 50.8,
    usual: None,
};

/// What the most that a mix may change may be.
pub const MOST: Bound = Bound {
    key: "most",
    label: "Most",
    help: "The most that the mix may change it by; nothing leaves it out.",
    quantity: Quantity::Length,
    least: 0.0,
    most: 400.0,
    usual: None,
};

/// How one remedy comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The remedy.
    pub remedy: Remedy,
    /// The least that a shop can buy or set it by, mm; see [`STEP_SIZE`].
    pub size: f64,
    /// The most that the mix may change it by, mm; nothing leaves it out of the mix, infinity goes to its bound.
    pub most: f64,
}

/// Steps, and the order of preference of the mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Preferences {
    /// From what is changed most gladly to what is changed least gladly. The mix changes the later ones as little as can be.
    pub steps: Vec<Step>,
    /// The most of the bump travel that the mix may take away, as a share.
    pub bump_share: f64,
}

impl Preferences {
    /// The step of a remedy.
    #[must_use]
    pub fn step(&self, remedy: Remedy) -> Option<&Step> {
        self.steps.iter().find(|step| step.remedy == remedy)
    }

    /// The most that the mix may change a remedy by on this car, mm.
    pub(super) fn most(&self, step: &Step, car: &Car) -> f64 {
        match step.remedy {
            Remedy::Bump => step.most.min(self.bump_share * car.travel.bump),
            _ => step.most,
        }
    }
}

/// All of it is common practice, no source: a wheel is cheaper than an axle, a bump stop and a spring than either; more
/// than a third of the bump travel is missed on the road; a narrower tire is what nobody wanted.
impl Default for Preferences {
    fn default() -> Self {
        const EIGHTH: f64 = MM_PER_INCH / 8.0;
        const SIXTEENTH: f64 = MM_PER_INCH / 16.0;
        let step = |remedy, size, most| Step { remedy, size, most };
        Self {
            steps: vec![
                step(Remedy::Backspacing, EIGHTH, 2.0 * MM_PER_INCH),
                step(Remedy::Bump, EIGHTH, f64::INFINITY),
                step(Remedy::RideHeight, EIGHTH, MM_PER_INCH / 2.0),
                // It moves the tire as backspacing does, and costs an axle.
                step(Remedy::TrackWidth, EIGHTH, 0.0),
                step(Remedy::Seam(Side::Left), SIXTEENTH, f64::INFINITY),
                step(Remedy::Seam(Side::Right), SIXTEENTH, f64::INFINITY),
                step(Remedy::SectionWidth, 10.0, 60.0),
                // What a mix is asked for only by whoever wants it.
                step(Remedy::Ahead, EIGHTH, 0.0),
                step(Remedy::Diameter, 2.0 * EIGHTH, 0.0),
                step(Remedy::Roof(Side::Left), EIGHTH, 0.0),
                step(Remedy::Roof(Side::Right), EIGHTH, 0.0),
            ],
            bump_share: 1.0 / 3.0,
        }
    }
}
