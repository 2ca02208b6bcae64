//! How thick and how heavy a steel sheet of a gauge is.

use crate::units::MM_PER_INCH;

/// Ounces a square foot by gauge: the Manufacturers' Standard Gauge for steel sheet is a table of weights.
const OUNCES: [(u8, f64); 17] = [
    (10, 90.0),
    (11, 80.0),
    (12, 70.0),
    (13, 60.0),
    (14, 50.0),
    (15, 45.0),
    (16, 40.0),
    (17, 36.0),
    (18, 32.0),
    (19, 28.0),
    (20, 24.0),
    (21, 22.0),
    (22, 20.0),
    (23, 18.0),
    (24, 16.0),
    (25, 14.0),
    (26, 12.0),
];

/// Pounds a square foot of steel an inch thick, as the Manufacturers' Standard Gauge counts.
const POUNDS_PER_INCH: f64 = 41.82;

/// The thickness is published to a ten-thousandth of an inch.
const PLACES: f64 = 10_000.0;

/// Density of steel, kg a cubic meter (handbook value, from memory).
pub const DENSITY: f64 = 7850.0;

/// Thickness of a sheet of that gauge, mm; nothing for what is no gauge of the table.
///
/// `t = (oz a square foot / 16) / 41.82` in, to the ten-thousandth as it is published: Manufacturers' Standard Gauge.
///
/// ```
/// use geometry::metal::gauge::thickness;
/// use geometry::units::MM_PER_INCH;
/// let inches = thickness(18.0).unwrap() / MM_PER_INCH;
/// assert!((inches - 0.0478).abs() < 1e-12);
/// assert_eq!(thickness(18.5), None);
/// ```
#[must_use]
pub fn thickness(gauge: f64) -> Option<f64> {
    OUNCES
        .iter()
        .find(|(of, _)| (f64::from(*of) - gauge).abs() < 1e-9)
        .map(|(_, ounces)| {
            let inches = ounces / 16.0 / POUNDS_PER_INCH;
            (inches * PLACES).round() / PLACES * MM_PER_INCH
        })
}

/// Weight of so much sheet, kg: area in square millimeters, thickness in mm.
#[must_use]
pub fn weight(area: f64, thickness: f64) -> f64 {
    area * thickness * DENSITY * 1e-9
}
