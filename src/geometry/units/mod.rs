//! Inches, degrees, pounds: the edges of the crate, where numbers are typed and shown.
//!
//! Inside, a length is millimeters and an angle radians; nothing but this room knows otherwise.

mod format;
mod parse;
pub(crate) mod scan;

pub use format::{format_length, in_both, rounding_error, shown, speak_length, step};
pub use parse::{parse_angle, parse_length, parse_mass, parse_pressure};
pub use scan::TextFault;

/// Millimeters in an inch, exactly (NIST Special Publication 811, appendix B; from memory).
pub const MM_PER_INCH: f64 = 25.4;

/// Kilograms in an avoirdupois pound, exactly (NIST Special Publication 811, appendix B; from memory).
pub const KG_PER_POUND: f64 = 0.453_592_37;

/// Kilopascals in a pound-force per square inch (NIST Special Publication 811, appendix B; from memory).
pub const KPA_PER_PSI: f64 = 6.894_757;

/// The unit a bare number is taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LengthUnit {
    /// Inches.
    #[default]
    Inch,
    /// Millimeters.
    Millimeter,
}

impl LengthUnit {
    /// Millimeters in one of the unit.
    #[must_use]
    pub fn millimeters(self) -> f64 {
        match self {
            LengthUnit::Inch => MM_PER_INCH,
            LengthUnit::Millimeter => 1.0,
        }
    }

    /// The unit's symbol.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Inch => "in",
            LengthUnit::Millimeter => "mm",
        }
    }
}

/// How lengths are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Notation {
    /// Inches and sixteenths, as a tape reads.
    #[default]
    InchFractions,
    /// Inches to three decimals.
    InchDecimals,
    /// Millimeters to one decimal.
    Millimeters,
}

impl Notation {
    /// Every notation, in the order in which they are offered.
    pub const ALL: [Notation; 3] = [
        Notation::InchFractions,
        Notation::InchDecimals,
        Notation::Millimeters,
    ];

    /// The unit in which a bare number is read while this notation is shown.
    #[must_use]
    pub fn unit(self) -> LengthUnit {
        match self {
            Notation::InchFractions | Notation::InchDecimals => LengthUnit::Inch,
            Notation::Millimeters => LengthUnit::Millimeter,
        }
    }
}

/// Degrees of an angle in radians.
#[must_use]
pub fn degrees(radians: f64) -> f64 {
    radians * (180.0 / std::f64::consts::PI)
}

/// Radians of an angle in degrees.
#[must_use]
pub fn radians(degrees: f64) -> f64 {
    degrees * (std::f64::consts::PI / 180.0)
}
