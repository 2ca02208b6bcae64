//! The same car on three tires: as printed, the largest that the standard lets arrive, and grown at speed.

use crate::car::Car;
use crate::check::{Check, check};
use crate::field::Fault;
use crate::model::Model;
use crate::tire::Arrival;

/// Which tire a question is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AskedTire {
    /// The printed size, or what was measured.
    Nominal,
    /// The largest that the standard lets arrive (UN Regulation No. 30, 6.1.4 and 6.1.5; from memory). What was
    /// measured has arrived already and stays.
    Largest,
    /// The tire that the car asks for, nominal or largest, grown at speed by the car's own growth; the same as at rest
    /// where the car names none.
    AtSpeed,
}

impl AskedTire {
    /// All three, smallest first.
    pub const ALL: [AskedTire; 3] = [AskedTire::Nominal, AskedTire::Largest, AskedTire::AtSpeed];

    /// What it is called.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            AskedTire::Nominal => "nominal",
            AskedTire::Largest => "largest that may arrive",
            AskedTire::AtSpeed => "grown at speed",
        }
    }

    /// The car on this tire: any question can be asked of it.
    #[must_use]
    pub fn on(self, car: &Car) -> Car {
        let mut car = car.clone();
        match self {
            AskedTire::Nominal => (car.tire.arrival, car.tire.growth) = (Arrival::Nominal, 0.0),
            AskedTire::Largest => (car.tire.arrival, car.tire.growth) = (Arrival::Largest, 0.0),
            AskedTire::AtSpeed => {}
        }
        car
    }
}

/// What one of the three finds.
#[derive(Debug, Clone, PartialEq)]
pub struct TireAnswer {
    /// Which tire.
    pub tire: AskedTire,
    /// Its section width on the rim that is fitted, mm.
    pub section_width: f64,
    /// Its overall diameter, mm.
    pub diameter: f64,
    /// Its gap list, or why there is none.
    pub check: Result<Check, Vec<Fault>>,
}

/// The gap lists of the car on all three tires, certified to `accuracy` mm.
#[must_use]
pub fn three_tires(car: &Car, accuracy: f64) -> [TireAnswer; 3] {
    AskedTire::ALL.map(|tire| {
        let car = tire.on(car);
        TireAnswer {
            tire,
            section_width: car.section_width(),
            diameter: car.overall_diameter(),
            check: Model::new(&car).map(|model| check(&model, accuracy)),
        }
    })
}
