//! The table of a car's single numbers: key, bound, reader and setter of each.

use super::Car;
use crate::field::{Bound, Field, Quantity};

const DEGREE: f64 = std::f64::consts::PI / 180.0;

macro_rules! car_fields {
    ($( $name:ident: $key:literal, $label:literal, $help:literal, $quantity:ident, $least:expr, $most:expr, $usual:expr, $($path:ident).+; )*) => {
        $(
            #[doc = $help]
            pub const $name: Field<Car> = Field {
                bound: Bound {
                    key: $key, label: $label, help: $help, quantity: Quantity::$quantity,
                    least: $least, most: $most, usual: $usual,
                },
                get: |car| car.$($path).+,
                set: |car, value| car.$($path).+ = value,
            };
        )*
        /// Every single number of a car that is always there, in the order of a car file.
        pub const CAR_FIELDS: &[Field<Car>] = &[ $( $name, )* ];
    };
}

car_fields! {
    WIDEST_AT: "tire.widest_at", "Widest point", "Height of the tire's widest point, as a share of the section height.", Ratio, 0.3, 0.7, Some(0.5), tire.widest_at;
    GROWTH: "tire.growth", "Growth at speed", "How much the diameter grows when the tire is asked for at speed; 1 to 1.5 in on a drag slick is common practice.", Length, 0.0, 80.0, Some(0.0), tire.growth;
    LOAD: "tire.load", "Load on the tire", "What the tire carries at rest.", Mass, 50.0, 2000.0, Some(400.0), tire.load;
    PRESSURE: "tire.pressure", "Inflation pressure", "Inflation pressure of the tire.", Pressure, 40.0, 600.0, Some(200.0), tire.pressure;
    RIM_WIDTH: "wheel.rim_width", "Rim width", "Width of the rim between its flanges.", Length, 76.2, 609.6, None, wheel.rim_width;
    BACKSPACING: "wheel.backspacing", "Backspacing", "From the wheel's mounting face to the rim's inboard outer edge.", Length, 0.0, 500.0, None, wheel.backspacing;
    FLANGE_THICKNESS: "wheel.flange_thickness", "Rim flange thickness", "Thickness of one rim flange; about half an inch.", Length, 3.0, 25.0, Some(12.7), wheel.flange_thickness;
    RUN_OUT: "wheel.run_out", "Run-out", "How far tire and wheel wobble sideways as they turn, either way; 1/8 in for the two together is common practice, no source.", Length, 0.0, 25.0, Some(3.175), wheel.run_out;
    FLANGE_HEIGHT: "wheel.flange_height", "Rim flange height", "How far the rim flange stands above the rim's nominal diameter.", Length, 5.0, 30.0, Some(17.3), wheel.flange_height;
    MEASURED_WIDTH: "axle.measured_width", "Measured axle, flange to flange", "Flange to flange on the axle that was under the car when the body was measured.", Length, 700.0, 2200.0, None, axle.measured_width;
    AXLE_WIDTH: "axle.width", "Axle, flange to flange", "Flange to flange on the axle that is to go in.", Length, 700.0, 2200.0, None, axle.width;
    HAT: "axle.hat", "Brake hat thickness", "Thickness of the drum's or rotor's hat between flange and wheel.", Length, 0.0, 60.0, Some(0.0), axle.hat;
    SPACER: "axle.spacer", "Spacer", "Thickness of the spacer between hat and wheel.", Length, 0.0, 100.0, Some(0.0), axle.spacer;
    AHEAD: "axle.ahead", "Axle ahead of its station", "How far ahead of where it was measured the axle sits.", Length, -150.0, 150.0, Some(0.0), axle.ahead;
    YAW: "axle.yaw", "Yaw of the axle", "Positive when the left wheel stands ahead of the right.", Angle, -5.0 * DEGREE, 5.0 * DEGREE, Some(0.0), axle.yaw;
    TUBE_DIAMETER: "axle.tube_diameter", "Axle tube", "Diameter of the axle tube.", Length, 30.0, 200.0, Some(76.2), axle.tube_diameter;
    FLANGE_DIAMETER: "axle.flange_diameter", "Axle flange", "Diameter of the axle flange.", Length, 80.0, 300.0, Some(158.75), axle.flange_diameter;
    STUD_LENGTH: "axle.stud_length", "Stud length", "How far the studs stand out of the face that the wheel sits on; 1 1/2 in is common practice.", Length, 0.0, 120.0, Some(38.1), axle.stud_length;
    BUMP: "travel.bump", "Bump travel", "How far each wheel rises from ride height to its stop.", Length, 0.0, 250.0, Some(88.9), travel.bump;
    DROOP: "travel.droop", "Droop travel", "How far each wheel hangs below ride height.", Length, 0.0, 250.0, Some(88.9), travel.droop;
    GIVE: "travel.give", "Sideways give", "How far the locator and its bushings let the axle move sideways, either way.", Length, 0.0, 40.0, Some(3.0), travel.give;
    RIDE_CHANGE: "travel.ride_change", "Ride height", "How much higher the body sits than when it was measured.", Length, -150.0, 150.0, Some(0.0), travel.ride_change;
    LEFT_SEAM_MOVE: "left.seam_move", "Seam move, left", "How far inboard the left tub is re-set.", Length, 0.0, 400.0, Some(0.0), sides.left.seam_move;
    LEFT_ROOF_RAISE: "left.roof_raise", "Roof raised, left", "How far the left wheelhouse's roof is raised.", Length, 0.0, 250.0, Some(0.0), sides.left.roof_raise;
    RIGHT_SEAM_MOVE: "right.seam_move", "Seam move, right", "How far inboard the right tub is re-set.", Length, 0.0, 400.0, Some(0.0), sides.right.seam_move;
    RIGHT_ROOF_RAISE: "right.roof_raise", "Roof raised, right", "How far the right wheelhouse's roof is raised.", Length, 0.0, 250.0, Some(0.0), sides.right.roof_raise;
    TARGET_RIDE: "targets.ride", "Target at ride height", "Least gap at ride height to tub, roof and rail; 1 in is common practice.", Length, 0.0, 150.0, Some(25.4), targets.ride;
    TARGET_RIDE_LIP: "targets.ride_lip", "Target at ride height, lip", "Least gap at ride height to the quarter lip and outer half; 1/2 in is common practice.", Length, 0.0, 150.0, Some(12.7), targets.ride_lip;
    TARGET_TRAVEL: "targets.travel", "Target through travel", "Least gap anywhere through travel; 1/2 in is common practice.", Length, 0.0, 150.0, Some(12.7), targets.travel;
    TARGET_OBSTACLE: "targets.obstacle", "Target to parts", "Least gap to a part bolted nearby; 1/4 in is common practice.", Length, 0.0, 150.0, Some(6.35), targets.obstacle;
    TAPE_ERROR: "tape_error.measured", "Tape error, measured", "How far a reading that somebody took may be off, either way; 1/8 in is common practice, no source.", Length, 0.0, 50.0, Some(3.175), tape_error.measured;
    GUESS_ERROR: "tape_error.guessed", "Tape error, guessed", "How far a guess may be off, either way, on top of what it leans on; never less than a reading. 1/2 in is common practice, no source.", Length, 0.0, 150.0, Some(12.7), tape_error.guessed;
    GAUGE: "metal.gauge", "Sheet gauge", "Gauge of the fill strip's steel sheet, a whole number (Manufacturers' Standard Gauge); 18 is common practice, no source.", Ratio, 10.0, 26.0, Some(18.0), metal.gauge;
    LAP: "metal.lap", "Lap", "How far the fill strip laps over the sheet on either edge; 3/4 in is common practice, no source.", Length, 8.0, 60.0, Some(19.05), metal.lap;
    DOLLY: "metal.dolly", "Hammer and dolly up to", "Where no more room than this is missing, the sheet is pushed back with hammer and dolly instead of cut; 1/4 in is common practice, no source.", Length, 0.0, 25.4, Some(6.35), metal.dolly;
    FIRST_CUT: "metal.first_cut", "First cut short by", "How far the first cut stays short of the final trim; 1/2 in is common practice, no source.", Length, 0.0, 50.8, Some(12.7), metal.first_cut;
    BOARD: "metal.board", "Mock-up board", "Thickness of the boards that the mock-up is made of, as measured; 1/2 in is common practice, no source.", Length, 6.0, 50.0, Some(12.7), metal.board;
}

/// The optional numbers: each is absent until somebody measures it.
macro_rules! optional_fields {
    ($( $name:ident: $key:literal, $label:literal, $help:literal, $quantity:ident, $least:expr, $most:expr, $get:expr, $set:expr; )*) => {
        $(
            #[doc = $help]
            pub const $name: OptionalField = OptionalField {
                bound: Bound {
                    key: $key, label: $label, help: $help, quantity: Quantity::$quantity,
                    least: $least, most: $most, usual: None,
                },
                get: $get,
                set: $set,
            };
        )*
        /// Every number of a car that may be absent.
        pub const OPTIONAL_FIELDS: &[OptionalField] = &[ $( $name, )* ];
    };
}

/// A number that may be absent, with its bound.
#[derive(Debug, Clone, Copy)]
pub struct OptionalField {
    /// Name and bound.
    pub bound: Bound,
    /// Reads it.
    pub get: fn(&Car) -> Option<f64>,
    /// Sets it or takes it away, without checking the bound.
    pub set: fn(&mut Car, Option<f64>),
}

optional_fields! {
    SECTION_WIDTH: "tire.section_width", "Section width, measured", "Section width of the mounted tire, as measured on the rim that is fitted.", Length, 80.0, 700.0,
        |car| car.tire.section_width.map(|measured| measured.width),
        |car, value| car.tire.section_width = value.map(|width| crate::tire::MeasuredWidth { width, on_rim: car.wheel.rim_width });
    OVERALL_DIAMETER: "tire.overall_diameter", "Overall diameter, measured", "Diameter of the mounted tire without load.", Length, 350.0, 1300.0,
        |car| car.tire.overall_diameter, |car, value| car.tire.overall_diameter = value;
    TREAD_WIDTH: "tire.tread_width", "Tread width", "Width of the tread, shoulder edge to shoulder edge.", Length, 50.0, 650.0,
        |car| car.tire.tread_width, |car, value| car.tire.tread_width = value;
    SHOULDER_RADIUS: "tire.shoulder_radius", "Shoulder radius", "Radius of the rounded edge between tread and sidewall.", Length, 1.0, 150.0,
        |car| car.tire.shoulder_radius, |car, value| car.tire.shoulder_radius = value;
    DEFLECTION: "tire.deflection", "Static deflection", "How much lower the axle stands under load than the tire's free radius.", Length, 0.0, 100.0,
        |car| car.tire.deflection, |car, value| car.tire.deflection = value;
    ROLL_LIMIT: "travel.roll_limit", "Roll limit", "Greatest tilt of the axle against the body, where something stops it before the wheels' own stops do.", Angle, 0.0, 15.0 * DEGREE,
        |car| car.travel.roll_limit, |car, value| car.travel.roll_limit = value;
    STATIONS_ERROR: "tape_error.stations", "Tape error, stations", "How far the wheelhouse stations may be off, across the sheet. Empty: as a reading.", Length, 0.0, 50.0,
        |car| car.tape_error.stations, |car, value| car.tape_error.stations = value;
    OBSTACLES_ERROR: "tape_error.obstacles", "Tape error, parts nearby", "How far a part bolted nearby may be from where it was measured. Empty: as a reading.", Length, 0.0, 50.0,
        |car| car.tape_error.obstacles, |car, value| car.tape_error.obstacles = value;
    AXLE_ERROR: "tape_error.axle", "Tape error, axle", "How far the measured axle, flange to flange, may be off. Empty: as a reading.", Length, 0.0, 50.0,
        |car| car.tape_error.axle, |car, value| car.tape_error.axle = value;
    SECTION_ERROR: "tape_error.section_width", "Tape error, section width", "How far the tire's measured section width may be off. Empty: as a reading.", Length, 0.0, 50.0,
        |car| car.tape_error.section_width, |car, value| car.tape_error.section_width = value;
    DIAMETER_ERROR: "tape_error.diameter", "Tape error, diameter", "How far the tire's measured diameter may be off. Empty: as a reading.", Length, 0.0, 50.0,
        |car| car.tape_error.diameter, |car, value| car.tape_error.diameter = value;
    STOCK_TRACK: "stock.track_width", "Stock track width", "Between the two rear tires' center planes as the maker built the car; some places limit how much wider it may get.", Length, 700.0, 2400.0,
        |car| car.stock.track_width, |car, value| car.stock.track_width = value;
    STOCK_BUMP: "stock.bump", "Stock bump travel", "Bump travel as the maker built the car; some places limit how much of it may be taken away.", Length, 1.0, 400.0,
        |car| car.stock.bump, |car, value| car.stock.bump = value;
    BACKSPACING_BEFORE: "before.backspacing", "Backspacing, before", "Backspacing of the wheel before a plan changed it; the Walk-round tells what is changed from it. Empty: not changed.", Length, BACKSPACING.bound.least, BACKSPACING.bound.most,
        |car| car.before.backspacing, |car, value| car.before.backspacing = value;
    AXLE_WIDTH_BEFORE: "before.axle_width", "Axle, flange to flange, before", "The axle before a plan changed it. Empty: not changed.", Length, AXLE_WIDTH.bound.least, AXLE_WIDTH.bound.most,
        |car| car.before.axle_width, |car, value| car.before.axle_width = value;
    AHEAD_BEFORE: "before.ahead", "Axle ahead of its station, before", "Where the axle sat before a plan changed it. Empty: not changed.", Length, AHEAD.bound.least, AHEAD.bound.most,
        |car| car.before.ahead, |car, value| car.before.ahead = value;
    BUMP_BEFORE: "before.bump", "Bump travel, before", "Bump travel before a plan changed it. Empty: not changed.", Length, BUMP.bound.least, BUMP.bound.most,
        |car| car.before.bump, |car, value| car.before.bump = value;
    RIDE_CHANGE_BEFORE: "before.ride_change", "Ride height, before", "How much higher than measured the body sat before a plan changed it. Empty: not changed.", Length, RIDE_CHANGE.bound.least, RIDE_CHANGE.bound.most,
        |car| car.before.ride_change, |car, value| car.before.ride_change = value;
    SECTION_WIDTH_BEFORE: "before.section_width", "Section width, before", "Section width of the tire before a plan changed it. Empty: not changed.", Length, SECTION_WIDTH.bound.least, SECTION_WIDTH.bound.most,
        |car| car.before.section_width, |car, value| car.before.section_width = value;
    DIAMETER_BEFORE: "before.overall_diameter", "Overall diameter, before", "Diameter of the tire before a plan changed it. Empty: not changed.", Length, OVERALL_DIAMETER.bound.least, OVERALL_DIAMETER.bound.most,
        |car| car.before.diameter, |car, value| car.before.diameter = value;
    PLUG_PITCH: "metal.pitch", "Plug pitch", "From one plug weld to the next; empty is the practice's own.", Length, 12.0, 150.0,
        |car| car.metal.pitch, |car, value| car.metal.pitch = value;
}
