//! What a printed size stands for: section width, diameter and the rims it goes on.

use super::designation::{Construction, Designation, SizeSystem};
use crate::units::MM_PER_INCH;

/// The dimensions of a new, inflated, unloaded tire of a printed size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NominalSize {
    /// Section width on the measuring rim, whole mm.
    pub section_width: f64,
    /// Width of the measuring rim, mm.
    pub measuring_rim: f64,
    /// Width of the theoretical rim, on which the section is as wide as the size says, mm.
    pub theoretical_rim: f64,
    /// Overall diameter, whole mm.
    pub overall_diameter: f64,
    /// Section height, mm.
    pub section_height: f64,
    /// Nominal rim diameter, whole mm.
    pub rim_diameter: f64,
    /// The section width that the size says, S1, mm.
    pub stated_width: f64,
    /// Whether the size alone does not settle these: a dragstrip or numeric size stands for what its
    /// maker's table says, so measure the tire.
    pub estimated: bool,
}

/// Millimeters of section width that a millimeter of rim width brings: K of UN Regulation No. 30, 6.1.1.1.
pub const WIDTH_PER_RIM: f64 = 0.4;

/// The dimensions that a printed size stands for.
///
/// - Section width S = S1 + 0.4 (A - A1), with A the rim and A1 = x S1 the theoretical rim: UN
///   Regulation No. 30, 6.1.1.1. Whole millimeters, half up.
/// - x = 0.70 for an aspect of 50 and more, 0.85 below: ISO 4000-1, from memory. For flotation sizes
///   0.80: UN Regulation No. 54, annex 5, from memory.
/// - Section height H = S1 aspect / 100 and diameter d + 2 H, each in whole millimeters, half up: UN
///   Regulation No. 30, 6.1.2. A flotation tire's diameter is half an inch under the printed one: UN
///   Regulation No. 54, annex 5, from memory.
///
/// ```
/// use geometry::tire::{Designation, nominal_size};
/// let size = nominal_size(&Designation::parse("275/60R15").unwrap());
/// assert_eq!((size.section_width, size.overall_diameter), (279.0, 711.0)); // on an 8 in rim
/// assert_eq!(size.section_width_on(254.0), 300.0);                         // on a 10 in rim
/// ```
#[must_use]
pub fn nominal_size(designation: &Designation) -> NominalSize {
    let rim_diameter = nominal_rim_diameter(designation.rim_code);
    let basis = Basis::of(designation.system);
    let overall_diameter = match basis.height {
        Height::Section(height) => rim_diameter + 2.0 * round_half_up(height),
        Height::Diameter(diameter) => round_half_up(diameter),
    };
    let mut size = NominalSize {
        section_width: 0.0,
        measuring_rim: measuring_rim_code(basis.stated_width, basis.rim_share) * MM_PER_INCH,
        theoretical_rim: basis.theoretical_share * basis.stated_width,
        overall_diameter,
        section_height: (overall_diameter - rim_diameter) / 2.0,
        rim_diameter,
        stated_width: basis.stated_width,
        estimated: basis.estimated,
    };
    size.section_width = size.section_width_on(size.measuring_rim);
    size
}

/// Nominal rim diameter d, mm: 25.4 times the code, in whole millimeters (UN Regulation No. 30,
/// section 2, table of codes; from memory).
#[must_use]
pub fn nominal_rim_diameter(rim_code: f64) -> f64 {
    round_half_up(rim_code * MM_PER_INCH)
}

/// The largest that the standard lets arrive, as factors of section width and section height: 1.04 and
/// 1.04 radial, 1.06 and 1.08 bias and belted (UN Regulation No. 30, 6.1.4 and 6.1.5; from memory).
#[must_use]
pub fn largest_factors(construction: Construction) -> (f64, f64) {
    match construction {
        Construction::Radial => (1.04, 1.04),
        Construction::Bias | Construction::Belted => (1.06, 1.08),
    }
}

impl NominalSize {
    /// Section width on a rim of this width, whole mm, half up, as the standard rounds.
    #[must_use]
    pub fn section_width_on(&self, rim_width: f64) -> f64 {
        round_half_up(self.stated_width + WIDTH_PER_RIM * (rim_width - self.theoretical_rim))
    }

    /// The narrowest and the widest rim that the standards' lists have for the size, mm: the measuring rim less an
    /// inch to an inch and a half more (from memory of the lists). The tire maker's own list decides.
    #[must_use]
    pub fn rim_range(&self) -> (f64, f64) {
        self.rims_with(0.0)
    }

    /// The narrowest and the widest rim for which anything is computed, mm: half an inch beyond
    /// [`Self::rim_range`], for lists differ (common practice, no source). It is there to catch what cannot be right.
    #[must_use]
    pub fn rim_limits(&self) -> (f64, f64) {
        self.rims_with(0.5)
    }

    /// The lists' range and so many inches more at both ends, mm. Inches are summed first: half of them are exact.
    fn rims_with(&self, more: f64) -> (f64, f64) {
        (
            self.measuring_rim - (1.0 + more) * MM_PER_INCH,
            self.measuring_rim + (1.5 + more) * MM_PER_INCH,
        )
    }
}

/// What the systems differ in.
struct Basis {
    stated_width: f64,
    theoretical_share: f64,
    rim_share: f64,
    height: Height,
    estimated: bool,
}

enum Height {
    Section(f64),
    Diameter(f64),
}

impl Basis {
    fn of(system: SizeSystem) -> Self {
        match system {
            SizeSystem::Metric {
                section_width,
                aspect,
            } => Self {
                stated_width: section_width,
                theoretical_share: if aspect >= BETWEEN_45_AND_50 {
                    0.70
                } else {
                    0.85
                },
                rim_share: metric_rim_share(aspect),
                height: Height::Section(section_width * aspect / 100.0),
                estimated: false,
            },
            SizeSystem::Flotation { diameter, width } => Self::inches(diameter - 0.5, width, false),
            SizeSystem::Dragstrip { diameter, width } => Self::inches(diameter, width, true),
            SizeSystem::Numeric { width } => Self {
                stated_width: width * MM_PER_INCH,
                theoretical_share: 0.70,
                rim_share: 0.70,
                height: Height::Section(width * MM_PER_INCH * numeric_aspect(width)),
                estimated: true,
            },
        }
    }

    fn inches(diameter: f64, width: f64, estimated: bool) -> Self {
        Self {
            stated_width: width * MM_PER_INCH,
            theoretical_share: 0.80,
            rim_share: 0.80,
            height: Height::Diameter(diameter * MM_PER_INCH),
            estimated,
        }
    }
}

/// The standards give x for 50 and over and for 45 and under; nothing is made between.
const BETWEEN_45_AND_50: f64 = 47.5;

/// K1, the measuring rim as a share of the section width (ETRTO, from memory). Aspects come in fives,
/// so each limit stands between two of them.
fn metric_rim_share(aspect: f64) -> f64 {
    match aspect {
        a if a >= 72.5 => 0.70,
        a if a >= 57.5 => 0.75,
        a if a >= BETWEEN_45_AND_50 => 0.80,
        a if a >= 42.5 => 0.85,
        a if a >= 27.5 => 0.90,
        _ => 0.92,
    }
}

/// K1 S1 to the nearest half inch.
fn measuring_rim_code(stated_width: f64, rim_share: f64) -> f64 {
    round_half_up(2.0 * rim_share * stated_width / MM_PER_INCH) / 2.0
}

/// Height over width of numeric sizes, from memory of catalogs: those that end in 5 hundredths
/// (`7.75`) belong to the lower series, the round ones (`7.50`, `6.70`) to the taller one before it.
fn numeric_aspect(width: f64) -> f64 {
    let hundredths = (width * 100.0).round() % 10.0;
    if (hundredths - 5.0).abs() < 0.5 {
        0.80
    } else {
        0.90
    }
}

/// Whole, half up. The nudge keeps a half that arithmetic put a hair too low, such as 162.5 from
/// 325 x 50 / 100; it is far below what any size is told to.
fn round_half_up(value: f64) -> f64 {
    (value + 0.5 + 1e-9).floor()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_that_settles_nothing_says_so() {
        let estimated = |text| nominal_size(&Designation::parse(text).expect(text)).estimated;
        assert!(!estimated("275/60R15") && !estimated("31x10.50R15LT"));
        assert!(estimated("28x10.5-15") && estimated("7.75-14"));
    }

    #[test]
    fn numeric_sizes_come_near_what_catalogs_say() {
        // From memory of catalogs, in: the estimate is held to half an inch.
        for (text, diameter) in [
            ("7.75-14", 26.3),
            ("6.95-14", 25.3),
            ("8.25-14", 27.1),
            ("7.50-14", 26.9),
            ("7.10-15", 28.1),
        ] {
            let size = nominal_size(&Designation::parse(text).expect(text));
            let inches = size.overall_diameter / MM_PER_INCH;
            assert!(
                (inches - diameter).abs() < 0.7,
                "{text}: {inches}, not {diameter}"
            );
        }
    }

    #[test]
    fn the_measuring_rim_lies_within_the_rims_that_are_allowed() {
        for text in [
            "275/60R15",
            "225/70R15",
            "345/30R20",
            "31x10.50R15LT",
            "28x10.5-15",
            "7.75-14",
        ] {
            let size = nominal_size(&Designation::parse(text).expect(text));
            let (least, most) = size.rim_range();
            assert!(
                least < size.measuring_rim && size.measuring_rim < most,
                "{text}"
            );
        }
    }
}
