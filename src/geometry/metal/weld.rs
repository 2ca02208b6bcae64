//! Plug welds: how large, how far apart, how many.

use crate::car::{MetalSpec, PlugPractice};
use crate::units::MM_PER_INCH;

/// What a structural code adds to the sheet's thickness for the least plug, mm: 5/16 in (AWS D1.1; AISC 360 J2.3).
pub const OVER_SHEET: f64 = 5.0 / 16.0 * MM_PER_INCH;
/// Holes are drilled in steps of a sixteenth of an inch, mm.
const DRILL_STEP: f64 = MM_PER_INCH / 16.0;
/// Plugs are at least so many diameters apart (AWS D1.1; AISC 360 J2.3).
const APART: f64 = 4.0;
/// The hole of body-repair practice, mm (common practice, seen in repair procedures).
const REPAIR_HOLE: f64 = 8.0;
/// The pitch of body-repair practice, mm (common practice, seen in repair procedures).
pub const REPAIR_PITCH: [f64; 2] = [25.0, 40.0];
/// The sheet that body-repair practice speaks of, mm (common practice, seen in repair procedures).
pub const REPAIR_SHEET: [f64; 2] = [0.8, 1.0];
/// The pitch that is taken of that range where none is asked for, mm: its middle.
const REPAIR_USUAL: f64 = 32.5;
/// The least lap of a structural code: so many times the thinner sheet, and no less than an inch (AISC 360 J2.2b, from
/// memory).
const CODE_LAP: (f64, f64) = (5.0, MM_PER_INCH);
/// A seam's length over the pitch is rounded by more than this share of a space.
const WHOLE: f64 = 1e-9;

/// Plug welds of one practice on one sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plugs {
    /// Whose practice.
    pub practice: PlugPractice,
    /// Diameter of the hole, mm.
    pub hole: f64,
    /// From the middle of one hole to the next, mm.
    pub pitch: f64,
    /// The least and the most pitch that the practice speaks of, mm; endless where it names no most.
    pub pitch_range: [f64; 2],
}

impl Plugs {
    /// The plugs of a practice on sheet of a thickness, mm, at its own pitch or at the one asked for.
    ///
    /// As a code has it: hole at least the sheet plus 5/16 in, the next larger sixteenth; at least four diameters
    /// apart (AWS D1.1, AISC 360 J2.3). As repair has it: 8 mm, 25 to 40 mm apart (common practice).
    ///
    /// ```
    /// use geometry::car::PlugPractice;
    /// use geometry::metal::{Plugs, gauge, plug_count};
    /// use geometry::units::MM_PER_INCH;
    /// let sheet = gauge::thickness(18.0).unwrap();
    /// let plugs = Plugs::new(PlugPractice::Code, sheet, None);
    /// assert!((plugs.hole - 0.375 * MM_PER_INCH).abs() < 1e-9);
    /// assert_eq!(plug_count(36.0 * MM_PER_INCH, plugs.pitch), 25);
    /// ```
    #[must_use]
    pub fn new(practice: PlugPractice, thickness: f64, pitch: Option<f64>) -> Self {
        let (hole, usual, pitch_range) = match practice {
            PlugPractice::Code => {
                let hole = ((thickness + OVER_SHEET) / DRILL_STEP).ceil() * DRILL_STEP;
                (hole, APART * hole, [APART * hole, f64::INFINITY])
            }
            PlugPractice::Repair => (REPAIR_HOLE, REPAIR_USUAL, REPAIR_PITCH),
        };
        Self {
            practice,
            hole,
            pitch: pitch.unwrap_or(usual),
            pitch_range,
        }
    }

    /// The plugs that a car asks for.
    #[must_use]
    pub fn of(metal: &MetalSpec, thickness: f64) -> Self {
        Self::new(metal.plugs, thickness, metal.pitch)
    }

    /// Whether the pitch is one that the practice speaks of.
    #[must_use]
    pub fn keeps_to_practice(&self) -> bool {
        let [least, most] = self.pitch_range;
        self.pitch >= least - WHOLE && self.pitch <= most + WHOLE
    }

    /// From a hole's middle to the nearest edge of the sheet, mm: a diameter (common practice, no source).
    #[must_use]
    pub fn edge(&self) -> f64 {
        self.hole
    }

    /// The least lap in which a hole keeps that distance to either side, mm.
    #[must_use]
    pub fn least_lap(&self) -> f64 {
        2.0 * self.edge()
    }

    /// Where the plugs of a seam stand, mm along it: evenly, the first and the last an edge's distance from its ends.
    #[must_use]
    pub fn along(&self, seam: f64) -> Vec<f64> {
        let edge = self.edge();
        plug_places(seam - 2.0 * edge, self.pitch)
            .into_iter()
            .map(|place| edge + place)
            .collect()
    }

    /// How many plugs a seam takes, mm long.
    #[must_use]
    pub fn count(&self, seam: f64) -> u32 {
        plug_count(seam - 2.0 * self.edge(), self.pitch)
    }
}

/// The least lap that a structural code asks for on sheet of a thickness, mm: five times the sheet and no less than
/// 1 in (AISC 360 J2.2b, from memory).
#[must_use]
pub fn code_lap(thickness: f64) -> f64 {
    let (times, least) = CODE_LAP;
    (times * thickness).max(least)
}

/// How many plugs stand over a length from the first one's middle to the last one's, no closer than `pitch`; mm.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a seam of meters over a pitch of centimeters"
)]
pub fn plug_count(length: f64, pitch: f64) -> u32 {
    if length > 0.0 && pitch > 0.0 {
        (length / pitch + WHOLE).floor() as u32 + 1
    } else {
        0
    }
}

/// Where those plugs stand, evenly from the first to the last, mm.
#[must_use]
pub fn plug_places(length: f64, pitch: f64) -> Vec<f64> {
    let count = plug_count(length, pitch);
    let spaces = f64::from(count.saturating_sub(1)).max(1.0);
    (0..count).map(|k| length * f64::from(k) / spaces).collect()
}

/// Welding current to begin a coupon with, ampere: about one for every thousandth of an inch (common practice).
#[must_use]
pub fn current(thickness: f64) -> f64 {
    thickness / MM_PER_INCH * 1000.0
}
