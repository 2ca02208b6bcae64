//! What is ordered: wheel, tire, axle and bump stops, in numbers a seller can answer to.

use crate::arrivals::on_tire;
use crate::car::{Before, Car};
use crate::tire::Arrival;

/// The numbers of an order, mm unless said otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// Rim diameter code, nominal inches by name.
    pub rim_code: f64,
    /// Rim width between the flanges.
    pub rim_width: f64,
    /// Overall width over both flanges.
    pub overall_width: f64,
    /// Mounting face to the rim's inboard outer edge.
    pub backspacing: f64,
    /// Mounting face from the rim's center plane, positive outboard.
    pub offset: f64,
    /// Mounting face to the rim's outboard outer edge.
    pub front_space: f64,
    /// Section width to ask for, on this rim.
    pub section_width: f64,
    /// Section width of the largest that may arrive.
    pub largest_width: f64,
    /// Overall diameter to ask for.
    pub diameter: f64,
    /// Overall diameter of the largest that may arrive, standing still.
    pub largest_diameter: f64,
    /// How much the diameter grows at speed, as the car counts on it.
    pub growth: f64,
    /// Whether width and diameter were measured on the very tire.
    pub tire_is_measured: bool,
    /// Flange to flange on the axle that is to go in.
    pub axle: f64,
    /// Flange to flange on the axle that was measured.
    pub axle_measured: f64,
    /// What housing and shaft change by on either side, negative when shorter.
    pub axle_change: f64,
    /// Spacer between brake hat and wheel.
    pub spacer: f64,
    /// Bump travel that the stops leave.
    pub bump: f64,
    /// How much less that is than the maker's, where the car says what the maker's was.
    pub bump_taken: Option<f64>,
    /// How much higher the body is to sit than when it was measured.
    pub ride_change: f64,
    /// What the plan began with, where it changed it.
    pub before: Before,
}

impl Order {
    /// What a car as it is planned takes.
    #[must_use]
    pub fn of(car: &Car) -> Self {
        let wheel = &car.wheel;
        let largest = on_tire(car, Arrival::Largest);
        Self {
            rim_code: car.tire.designation.rim_code,
            rim_width: wheel.rim_width,
            overall_width: wheel.overall_width(),
            backspacing: wheel.backspacing,
            offset: wheel.offset(),
            front_space: wheel.overall_width() - wheel.backspacing,
            section_width: car.tire.design_width_on(wheel.rim_width),
            largest_width: largest.section_width(),
            diameter: car.tire.design_diameter(),
            largest_diameter: largest.overall_diameter(),
            growth: car.tire.growth,
            tire_is_measured: car.tire.width_is_measured() && car.tire.diameter_is_measured(),
            axle: car.axle.width,
            axle_measured: car.axle.measured_width,
            axle_change: car.axle.change_per_side(),
            spacer: car.axle.spacer,
            bump: car.travel.bump,
            bump_taken: car.stock.bump.map(|stock| stock - car.travel.bump),
            ride_change: car.travel.ride_change,
            before: car.before,
        }
    }
}
