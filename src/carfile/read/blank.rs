//! A car with nothing in it, to read values into.

use geometry::axle::AxleSpec;
use geometry::body::{Reading, Tape};
use geometry::car::{Before, Car, MetalSpec, Shop, SideSpec, Stock, TapeError, Targets};
use geometry::locator::Locator;
use geometry::side::Sides;
use geometry::tire::{Arrival, Class, Construction, Designation, SizeSystem, TireSpec};
use geometry::travel::TravelSpec;
use geometry::wheel::WheelSpec;

/// What the values are read into. None of it is left in a car that is handed out.
pub(super) fn car() -> Car {
    let zero = Reading::guessed(0.0);
    let tape = Tape {
        to_rail: zero,
        to_tub_low: zero,
        to_tub_high: zero,
        to_seam: zero,
        to_lip: zero,
        roof_up: zero,
        lip_up: zero,
        rail_top_up: zero,
        rail_bottom_up: zero,
        kick_ahead: zero,
        kick_behind: zero,
        kick_drop: zero,
        wall_ahead: zero,
        wall_behind: zero,
        opening_ahead: zero,
        opening_behind: zero,
        corner_radius: zero,
        roof_fall: zero,
        lip_depth: zero,
        lip_thickness: zero,
    };
    Car {
        name: String::new(),
        purpose: String::new(),
        tire: TireSpec {
            designation: Designation {
                text: String::new(),
                class: Class::Unmarked,
                system: SizeSystem::Numeric { width: 0.0 },
                construction: Construction::Radial,
                rim_code: 0.0,
                service: String::new(),
            },
            section_width: None,
            overall_diameter: None,
            tread_width: None,
            shoulder_radius: None,
            widest_at: 0.0,
            arrival: Arrival::default(),
            growth: 0.0,
            load: 0.0,
            pressure: 0.0,
            deflection: None,
        },
        wheel: WheelSpec {
            rim_width: 0.0,
            backspacing: 0.0,
            flange_thickness: 0.0,
            flange_height: 0.0,
            run_out: 0.0,
        },
        axle: AxleSpec {
            measured_width: 0.0,
            width: 0.0,
            hat: 0.0,
            spacer: 0.0,
            ahead: 0.0,
            yaw: 0.0,
            tube_diameter: 0.0,
            flange_diameter: 0.0,
            stud_length: 0.0,
        },
        locator: Locator::LeafSprings { height: 0.0 },
        travel: TravelSpec {
            bump: 0.0,
            droop: 0.0,
            roll_limit: None,
            give: 0.0,
            ride_change: 0.0,
        },
        sides: Sides::each(|_| SideSpec {
            tape,
            stations: None,
            seam_move: 0.0,
            roof_raise: 0.0,
        }),
        obstacles: Vec::new(),
        no_cut: Vec::new(),
        found: Vec::new(),
        targets: Targets::default(),
        tape_error: TapeError::default(),
        stock: Stock::default(),
        before: Before::default(),
        metal: MetalSpec::default(),
        shop: Shop::default(),
    }
}
