//! The same car on three tires: as printed, the largest that the standard lets arrive, and grown at speed.

use crate::car::Car;
use crate::check::{Check, check};
use crate::field::Fault;
use crate::model::Model;
use crate::tire::Arrival;

/// What one of the three finds.
#[derive(Debug, Clone, PartialEq)]
pub struct TireAnswer {
    /// Which tire.
    pub tire: Arrival,
    /// Its section width on the rim that is fitted, mm.
    pub section_width: f64,
    /// Its overall diameter, mm.
    pub diameter: f64,
    /// Its gap list; or which of its measures does not go with which, and by how much, where there is no such tire
    /// on this rim.
    pub check: Result<Check, Vec<Fault>>,
}

/// The car on one of the three: any question can be asked of it.
#[must_use]
pub fn on_tire(car: &Car, tire: Arrival) -> Car {
    let mut car = car.clone();
    car.tire.arrival = tire;
    car
}

/// The gap lists of the car on all three tires, certified to `accuracy` mm.
#[must_use]
pub fn three_tires(car: &Car, accuracy: f64) -> [TireAnswer; 3] {
    Arrival::ALL.map(|tire| {
        let car = on_tire(car, tire);
        TireAnswer {
            tire,
            section_width: car.section_width(),
            diameter: car.overall_diameter(),
            check: Model::new(&car).map(|model| check(&model, accuracy)),
        }
    })
}
