//! Tire sizes as printed on the sidewall: metric, flotation, numeric and dragstrip inch sizes.

mod read;

pub use crate::units::TextFault as DesignationFault;

/// How the cords run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Construction {
    /// From bead to bead, square to the crown: `R`.
    Radial,
    /// Crossing at an angle: `-` or `D`.
    Bias,
    /// Bias under a belt: `B`. Its tolerances are the bias tire's.
    Belted,
}

/// The system a size is printed in, with its numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SizeSystem {
    /// `275/60R15`: width in millimeters over aspect.
    Metric {
        /// Nominal section width, mm.
        section_width: f64,
        /// Section height as a percentage of the width.
        aspect: f64,
    },
    /// `31x10.50R15LT`: the diameter is printed half an inch over the tire's own.
    Flotation {
        /// Diameter as printed, in.
        diameter: f64,
        /// Width as printed, in.
        width: f64,
    },
    /// `28x10.5-15` or `28.0/10.5-15`: diameter and width as printed. Makers differ in whether the
    /// width is the section's or the tread's.
    Dragstrip {
        /// Diameter, in.
        diameter: f64,
        /// Width, in.
        width: f64,
    },
    /// `7.75-14`: width alone; the height follows from tables.
    Numeric {
        /// Nominal section width, in.
        width: f64,
    },
}

/// The class that a letter before or after the size names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Class {
    /// No letter.
    Unmarked,
    /// `P`: passenger.
    Passenger,
    /// `LT`: light truck.
    LightTruck,
}

/// A tire size, read.
#[derive(Debug, Clone, PartialEq)]
pub struct Designation {
    /// The text that was read, trimmed.
    pub text: String,
    /// Passenger or light truck, where it says so.
    pub class: Class,
    /// The system and its numbers.
    pub system: SizeSystem,
    /// How the cords run.
    pub construction: Construction,
    /// Nominal rim diameter code: inches by name.
    pub rim_code: f64,
    /// Load index, speed symbol, load range: what follows the size, as printed.
    pub service: String,
}

impl Designation {
    /// Reads a size as printed.
    ///
    /// ```
    /// use geometry::tire::{Construction, Designation, SizeSystem};
    /// let size = Designation::parse("P275/60ZR15 107W").unwrap();
    /// assert_eq!(size.system, SizeSystem::Metric { section_width: 275.0, aspect: 60.0 });
    /// assert_eq!((size.construction, size.rim_code), (Construction::Radial, 15.0));
    /// assert_eq!(Designation::parse("275/60X15").unwrap_err().at, 6);
    /// ```
    ///
    /// # Errors
    /// What was not understood, at which character, and what would be accepted there.
    pub fn parse(text: &str) -> Result<Self, DesignationFault> {
        read::designation(text)
    }
}
