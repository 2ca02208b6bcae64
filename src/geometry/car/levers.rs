//! The levers of the Bench: the few numbers a builder tries, each with what stays put when it moves.

use super::{Car, fields};
use crate::field::{Bound, Quantity};
use crate::tire::MeasuredWidth;

/// A number that a builder tries by moving a slider.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lever {
    /// How far inboard both tubs are re-set.
    SeamMove,
    /// Mounting face to the rim's inboard edge.
    Backspacing,
    /// Between the tires' center planes; the axle changes, the wheel does not.
    TrackWidth,
    /// Section width of the tire.
    SectionWidth,
    /// Rim width; the backspacing stays, the rim grows outboard.
    RimWidth,
    /// Overall diameter of the tire.
    OverallDiameter,
    /// Bump travel, which a bump stop takes away.
    Bump,
    /// Droop travel.
    Droop,
    /// Roll limit.
    Roll,
    /// Height of the body over the axle.
    RideHeight,
}

impl Lever {
    /// Every lever, in the order in which they are shown.
    pub const ALL: [Lever; 10] = [
        Lever::SeamMove,
        Lever::Backspacing,
        Lever::TrackWidth,
        Lever::SectionWidth,
        Lever::RimWidth,
        Lever::OverallDiameter,
        Lever::Bump,
        Lever::Droop,
        Lever::Roll,
        Lever::RideHeight,
    ];

    /// Name, bound and help.
    #[must_use]
    pub fn bound(self) -> Bound {
        match self {
            Lever::SeamMove => Bound {
                key: "seam_move",
                label: "Seam move",
                help: "How far inboard the tubs are re-set from where the factory put them.",
                ..fields::LEFT_SEAM_MOVE.bound
            },
            Lever::Backspacing => fields::BACKSPACING.bound,
            Lever::TrackWidth => Bound {
                key: "track_width",
                label: "Track width",
                help: "Between the two tires' center planes. It changes the axle; the wheel stays.",
                quantity: Quantity::Length,
                least: 700.0,
                most: 2400.0,
                usual: None,
            },
            Lever::SectionWidth => Bound {
                label: "Section width",
                ..fields::SECTION_WIDTH.bound
            },
            Lever::RimWidth => fields::RIM_WIDTH.bound,
            Lever::OverallDiameter => Bound {
                label: "Tire diameter",
                ..fields::OVERALL_DIAMETER.bound
            },
            Lever::Bump => fields::BUMP.bound,
            Lever::Droop => fields::DROOP.bound,
            Lever::Roll => fields::ROLL_LIMIT.bound,
            Lever::RideHeight => fields::RIDE_CHANGE.bound,
        }
    }

    /// The lever's value on this car.
    #[must_use]
    pub fn get(self, car: &Car) -> f64 {
        match self {
            Lever::SeamMove => car.sides.left.seam_move.max(car.sides.right.seam_move),
            Lever::Backspacing => car.wheel.backspacing,
            Lever::TrackWidth => car.track_width(),
            Lever::SectionWidth => car.tire.design_width_on(car.wheel.rim_width),
            Lever::RimWidth => car.wheel.rim_width,
            Lever::OverallDiameter => car.tire.design_diameter(),
            Lever::Bump => car.travel.bump,
            Lever::Droop => car.travel.droop,
            Lever::Roll => car
                .travel
                .roll_limit
                .unwrap_or(fields::ROLL_LIMIT.bound.most),
            Lever::RideHeight => car.travel.ride_change,
        }
    }

    /// Sets the lever; the bound is not checked here. The seam is moved on both sides.
    pub fn set(self, car: &mut Car, value: f64) {
        match self {
            Lever::SeamMove => {
                car.sides.left.seam_move = value;
                car.sides.right.seam_move = value;
            }
            Lever::Backspacing => car.wheel.backspacing = value,
            Lever::TrackWidth => {
                car.axle.width = car.axle.width_for_track(value, car.wheel.offset());
            }
            Lever::SectionWidth => {
                car.tire.section_width = Some(MeasuredWidth {
                    width: value,
                    on_rim: car.wheel.rim_width,
                });
            }
            Lever::RimWidth => car.wheel.rim_width = value,
            Lever::OverallDiameter => car.tire.overall_diameter = Some(value),
            Lever::Bump => car.travel.bump = value,
            Lever::Droop => car.travel.droop = value,
            Lever::Roll => car.travel.roll_limit = Some(value),
            Lever::RideHeight => car.travel.ride_change = value,
        }
    }
}
