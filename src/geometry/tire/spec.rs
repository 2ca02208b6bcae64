//! What is known of the tire on the car: its printed size, and what was measured on it.

use super::designation::Designation;
use super::size::{NominalSize, WIDTH_PER_RIM, largest_factors, nominal_size};

/// Which tire everything is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Arrival {
    /// The printed size, or what was measured.
    #[default]
    Nominal,
    /// The largest that the standard lets arrive (UN Regulation No. 30, 6.1.4 and 6.1.5; from memory). What was
    /// measured has arrived already and stays.
    Largest,
    /// The nominal tire, grown at speed by [`TireSpec::growth`].
    AtSpeed,
}

impl Arrival {
    /// All three.
    pub const ALL: [Arrival; 3] = [Arrival::Nominal, Arrival::Largest, Arrival::AtSpeed];

    /// What it is called.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Arrival::Nominal => "nominal",
            Arrival::Largest => "largest that may arrive",
            Arrival::AtSpeed => "grown at speed",
        }
    }
}

/// A section width taken with a caliper, and the rim it was taken on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredWidth {
    /// The section width, mm.
    pub width: f64,
    /// The rim width it was measured on, mm.
    pub on_rim: f64,
}

/// What is known of the tire. A measured value beats the printed size.
#[derive(Debug, Clone, PartialEq)]
pub struct TireSpec {
    /// The size as printed.
    pub designation: Designation,
    /// Section width as measured, if it was.
    pub section_width: Option<MeasuredWidth>,
    /// Overall diameter as measured, mm, if it was.
    pub overall_diameter: Option<f64>,
    /// Tread width, mm; a share of the section width when it was not measured.
    pub tread_width: Option<f64>,
    /// Radius of the shoulder, mm; a share of the overhang beside the tread when not measured.
    pub shoulder_radius: Option<f64>,
    /// Height of the widest point as a share of the section height.
    pub widest_at: f64,
    /// Which tire everything is asked for.
    pub arrival: Arrival,
    /// How much the diameter grows at speed, mm (drag slicks); it counts for [`Arrival::AtSpeed`] only.
    pub growth: f64,
    /// Load on the tire at rest, kg.
    pub load: f64,
    /// Inflation pressure, kPa.
    pub pressure: f64,
    /// Static deflection, mm, if the axle's height was measured.
    pub deflection: Option<f64>,
}

/// The tolerance of [`Arrival::Largest`] is for a tire that has yet to come: it applies to what the
/// printed size says, never to what was measured on the tire itself.
impl TireSpec {
    /// The dimensions that the printed size stands for.
    #[must_use]
    pub fn nominal(&self) -> NominalSize {
        nominal_size(&self.designation)
    }

    /// Section width on a rim of this width, mm, without tolerance: as measured, corrected for the rim
    /// by 0.4 mm a mm (UN Regulation No. 30, 6.1.1.1), else as printed.
    #[must_use]
    pub fn design_width_on(&self, rim_width: f64) -> f64 {
        match self.section_width {
            Some(measured) => measured.width + WIDTH_PER_RIM * (rim_width - measured.on_rim),
            None => self.nominal().section_width_on(rim_width),
        }
    }

    /// Section width on a rim of this width, mm: the printed one grows to the largest that may arrive
    /// where that is asked for.
    #[must_use]
    pub fn section_width_on(&self, rim_width: f64) -> f64 {
        let width = self.design_width_on(rim_width);
        if self.width_is_measured() {
            width
        } else {
            width * self.arriving().0
        }
    }

    /// Overall diameter without load, tolerance or growth, mm: as measured, else as printed.
    #[must_use]
    pub fn design_diameter(&self) -> f64 {
        self.overall_diameter
            .unwrap_or_else(|| self.nominal().overall_diameter)
    }

    /// Overall diameter without load, mm: as measured, else as printed or the largest that may arrive; grown where
    /// the tire is asked for at speed.
    #[must_use]
    pub fn diameter(&self) -> f64 {
        let still = self.overall_diameter.unwrap_or_else(|| {
            let nominal = self.nominal();
            nominal.rim_diameter + 2.0 * nominal.section_height * self.arriving().1
        });
        match self.arrival {
            Arrival::AtSpeed => still + self.growth,
            Arrival::Nominal | Arrival::Largest => still,
        }
    }

    /// Nominal rim diameter, mm.
    #[must_use]
    pub fn rim_diameter(&self) -> f64 {
        self.nominal().rim_diameter
    }

    /// Section height, mm: half of what the diameter is over the rim's; never negative.
    #[must_use]
    pub fn section_height(&self) -> f64 {
        ((self.diameter() - self.rim_diameter()) / 2.0).max(0.0)
    }

    /// Whether the section width is a measured one.
    #[must_use]
    pub fn width_is_measured(&self) -> bool {
        self.section_width.is_some()
    }

    /// Whether the overall diameter is a measured one.
    #[must_use]
    pub fn diameter_is_measured(&self) -> bool {
        self.overall_diameter.is_some()
    }

    /// The narrowest and the widest rim that lists have for the printed size, mm; see [`NominalSize::rim_range`].
    #[must_use]
    pub fn rim_range(&self) -> (f64, f64) {
        self.nominal().rim_range()
    }

    /// The narrowest and the widest rim that is taken for an answer at all, mm; see [`NominalSize::rim_limits`].
    #[must_use]
    pub fn rim_limits(&self) -> (f64, f64) {
        self.nominal().rim_limits()
    }

    /// Factors of section width and section height.
    fn arriving(&self) -> (f64, f64) {
        match self.arrival {
            Arrival::Nominal | Arrival::AtSpeed => (1.0, 1.0),
            Arrival::Largest => largest_factors(self.designation.construction),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tire(size: &str) -> TireSpec {
        TireSpec {
            designation: Designation::parse(size).expect(size),
            section_width: None,
            overall_diameter: None,
            tread_width: None,
            shoulder_radius: None,
            widest_at: 0.5,
            arrival: Arrival::Largest,
            growth: 0.0,
            load: 400.0,
            pressure: 200.0,
            deflection: None,
        }
    }

    #[test]
    fn tolerance_is_for_what_is_printed_and_not_for_what_was_measured() {
        let mut tire = tire("275/60R15");
        assert!((tire.section_width_on(203.2) - 279.0 * 1.04).abs() < 1e-9);
        tire.section_width = Some(MeasuredWidth {
            width: 284.0,
            on_rim: 228.6,
        });
        tire.overall_diameter = Some(708.0);
        assert!((tire.section_width_on(228.6) - 284.0).abs() < 1e-9);
        assert!((tire.section_width_on(254.0) - 284.0 - 10.16).abs() < 1e-9);
        assert!((tire.diameter() - 708.0).abs() < 1e-9);
        assert!(tire.width_is_measured() && tire.diameter_is_measured());
    }

    #[test]
    fn growth_comes_on_top_and_a_diameter_under_the_rims_leaves_no_section() {
        let mut tire = tire("28x10.5-15");
        tire.growth = 38.1;
        tire.arrival = Arrival::Nominal;
        assert!((tire.diameter() - tire.design_diameter()).abs() < 1e-9);
        tire.arrival = Arrival::AtSpeed;
        assert!((tire.diameter() - tire.design_diameter() - 38.1).abs() < 1e-9);
        tire.overall_diameter = Some(100.0);
        assert!(tire.section_height().abs() < 1e-9);
    }
}
