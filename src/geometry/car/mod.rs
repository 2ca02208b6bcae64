//! A car as its builder describes it: what was measured, what is to be changed, what is asked of it.

mod before;
pub mod fields;
mod found;
pub mod levers;
mod metal;

use crate::axle::AxleSpec;
use crate::body::{NoCutZone, Obstacle, Reading, StationTable, Surface, Tape};
use crate::locator::Locator;
use crate::side::Sides;
use crate::tire::TireSpec;
use crate::travel::TravelSpec;
use crate::wheel::WheelSpec;

pub use before::Before;
pub use fields::CAR_FIELDS;
pub use found::FoundGap;
pub use levers::Lever;
pub use metal::{MetalSpec, PlugPractice};

/// One side of the body and what is to be done to it.
#[derive(Debug, Clone, PartialEq)]
pub struct SideSpec {
    /// The tape readings.
    pub tape: Tape,
    /// Wheelhouse stations, where they were measured; they beat those made from the tape readings.
    pub stations: Option<StationTable>,
    /// How far inboard the tub is re-set, mm.
    pub seam_move: f64,
    /// How far the roof is raised, mm.
    pub roof_raise: f64,
}

/// The least gaps asked for, mm. Defaults are common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Targets {
    /// At ride height, to tub, roof and rail.
    pub ride: f64,
    /// At ride height, to lip and outer half.
    pub ride_lip: f64,
    /// Through travel, to anything of the body.
    pub travel: f64,
    /// At ride height and through travel, to a part bolted nearby.
    pub obstacle: f64,
}

impl Targets {
    /// The gap asked for at ride height, mm.
    #[must_use]
    pub fn at_ride(&self, surface: Surface) -> f64 {
        match surface {
            Surface::QuarterLip | Surface::OuterHalf => self.ride_lip,
            Surface::Roof | Surface::TubCorner | Surface::TubWall | Surface::FrameRail => self.ride,
            Surface::Obstacle => self.obstacle,
        }
    }

    /// The gap asked for through travel, mm.
    #[must_use]
    pub fn through_travel(&self, surface: Surface) -> f64 {
        if surface == Surface::Obstacle {
            self.obstacle
        } else {
            self.travel
        }
    }
}

impl Default for Targets {
    fn default() -> Self {
        Self {
            ride: 25.4,
            ride_lip: 12.7,
            travel: 12.7,
            obstacle: 6.35,
        }
    }
}

/// How far a length may be from what was read or typed, mm either way. Defaults are common practice, no source; a
/// tape itself is much truer (0.5 mm up to a meter, class II of the EU's measuring-instruments rules), the hand that
/// holds it in a wheelhouse is not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeError {
    /// Of a reading that somebody took.
    pub measured: f64,
    /// Of a guess that stands in for a reading.
    pub guessed: f64,
    /// Of wheelhouse stations, across the sheet, where it is another.
    pub stations: Option<f64>,
    /// Of where a part bolted nearby is, where it is another.
    pub obstacles: Option<f64>,
    /// Of the measured axle, where it is another.
    pub axle: Option<f64>,
    /// Of the tire's measured section width, where it is another.
    pub section_width: Option<f64>,
    /// Of the tire's measured diameter, where it is another.
    pub diameter: Option<f64>,
}

impl TapeError {
    /// How far a reading may be off, mm: its own error, or else that of its kind. A guess is never surer than a
    /// reading that somebody took.
    #[must_use]
    pub fn of(&self, reading: Reading) -> f64 {
        if reading.guess {
            reading.error.unwrap_or(self.guessed).max(self.measured)
        } else {
            reading.error.unwrap_or(self.measured)
        }
    }
}

impl Default for TapeError {
    fn default() -> Self {
        Self {
            measured: 3.175,
            guessed: 12.7,
            stations: None,
            obstacles: None,
            axle: None,
            section_width: None,
            diameter: None,
        }
    }
}

/// What the maker built, where rules or judgment compare with it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stock {
    /// Between the two rear tires' center planes, mm.
    pub track_width: Option<f64>,
    /// Bump travel, mm.
    pub bump: Option<f64>,
}

/// Whose work it is. It stands in the car's file and is never computed with.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// What it has to say to the car's owner.
    pub notes: String,
}

/// A car and the work planned on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Car {
    /// What it is called.
    pub name: String,
    /// One sentence: why it is here.
    pub purpose: String,
    /// The tire.
    pub tire: TireSpec,
    /// The wheel.
    pub wheel: WheelSpec,
    /// The axle.
    pub axle: AxleSpec,
    /// What holds the axle sideways.
    pub locator: Locator,
    /// How far the axle moves.
    pub travel: TravelSpec,
    /// The body, side by side.
    pub sides: Sides<SideSpec>,
    /// Parts bolted near the tires.
    pub obstacles: Vec<Obstacle>,
    /// Where the wheelhouses must not be cut.
    pub no_cut: Vec<NoCutZone>,
    /// The gaps asked for.
    pub targets: Targets,
    /// How far measured lengths may be off.
    pub tape_error: TapeError,
    /// What the maker built.
    pub stock: Stock,
    /// What the plan on it changed, as it was.
    pub before: Before,
    /// How the metal is worked.
    pub metal: MetalSpec,
    /// Gaps that were found with the mock-up.
    pub found: Vec<FoundGap>,
    /// Whose work it is.
    pub shop: Shop,
}

impl Car {
    /// The longest name of a car, a part, a zone or a shop, characters.
    pub const LONGEST_NAME: usize = 80;
    /// The longest purpose or notes, characters.
    pub const LONGEST_NOTES: usize = 1200;

    /// Whether metal is to be cut on it.
    #[must_use]
    pub fn is_cut(&self) -> bool {
        let cuts = |side: &SideSpec| side.seam_move.max(side.roof_raise);
        self.sides.iter().any(|(_, side)| cuts(side) > 0.0)
    }

    /// Between the two tires' center planes, mm.
    #[must_use]
    pub fn track_width(&self) -> f64 {
        2.0 * self.axle.center_plane(self.wheel.offset())
    }

    /// Section width on the rim that is fitted, mm: measured if it was, else from the printed size,
    /// corrected for the rim by 0.4 mm a mm (UN Regulation No. 30, 6.1.1.1); grown by the standard's
    /// tolerance when the largest tire is asked for.
    #[must_use]
    pub fn section_width(&self) -> f64 {
        self.tire.section_width_on(self.wheel.rim_width)
    }

    /// Overall diameter of the unloaded tire, mm: measured or printed, largest if asked for, plus growth.
    #[must_use]
    pub fn overall_diameter(&self) -> f64 {
        self.tire.diameter()
    }
}
