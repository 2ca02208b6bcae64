//! The simple entry: what a builder reaches with a tape, wheel off, car level at ride height.

use crate::field::{Bound, Field, Quantity};

/// A tape reading: measured, or still a guess.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The reading, mm.
    pub value: f64,
    /// Whether nobody has measured it yet.
    pub guess: bool,
}

impl Reading {
    /// A reading somebody took.
    #[must_use]
    pub const fn measured(value: f64) -> Self {
        Self {
            value,
            guess: false,
        }
    }

    /// A default that stands in for a reading.
    #[must_use]
    pub const fn guessed(value: f64) -> Self {
        Self { value, guess: true }
    }
}

/// A hand, mm: how far below the roof the high reading to the tub wall is taken (common practice, no source).
pub const HAND: f64 = 101.6;

/// One side's tape readings, mm. `to_*` are along the axle from the measured axle's flange face,
/// inward unless said otherwise; `*_up` are above the axle's center; the rest say themselves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tape {
    /// Inward to the outboard face of the frame rail.
    pub to_rail: Reading,
    /// Inward to the tub wall at axle height.
    pub to_tub_low: Reading,
    /// Inward to the tub wall a hand below the roof.
    pub to_tub_high: Reading,
    /// Inward to the seam; negative when it lies outboard of the flange face.
    pub to_seam: Reading,
    /// Outward to the quarter lip's inner edge.
    pub to_lip: Reading,
    /// Up to the roof at the tub corner.
    pub roof_up: Reading,
    /// Up to the quarter lip's lower edge.
    pub lip_up: Reading,
    /// Up to the rail's top over the axle.
    pub rail_top_up: Reading,
    /// Up to the rail's bottom over the axle; negative when it hangs below the axle's center.
    pub rail_bottom_up: Reading,
    /// How far ahead of the axle the rail's kick-up begins.
    pub kick_ahead: Reading,
    /// How far behind the axle it ends.
    pub kick_behind: Reading,
    /// How much lower the rail runs outside the kick-up.
    pub kick_drop: Reading,
    /// Forward to the wheelhouse wall at axle height.
    pub wall_ahead: Reading,
    /// Rearward to the wheelhouse wall at axle height.
    pub wall_behind: Reading,
    /// Forward to the edge of the wheel opening at axle height.
    pub opening_ahead: Reading,
    /// Rearward to the edge of the wheel opening at axle height.
    pub opening_behind: Reading,
    /// Radius of the corner between roof and tub wall.
    pub corner_radius: Reading,
    /// How much the roof falls from the tub corner to the lip.
    pub roof_fall: Reading,
    /// How deep the lip's flange is, upward from its lower edge.
    pub lip_depth: Reading,
    /// How thick the lip is.
    pub lip_thickness: Reading,
}

/// A field of the tape: where it is measured from and to, its bound, and its reading.
#[derive(Debug, Clone, Copy)]
pub struct TapeField {
    /// The number with its bound; `bound.key` is the key inside a side's table.
    pub field: Field<Tape>,
    /// The reading itself.
    pub reading: fn(&Tape) -> Reading,
    /// Sets the reading.
    pub set_reading: fn(&mut Tape, Reading),
    /// What stands in when it was not measured, from the readings that were; `None`: it must be measured.
    pub guess: Option<fn(&Tape) -> f64>,
}

macro_rules! tape_fields {
    ($( $name:ident, $label:literal, $help:literal, $least:literal .. $most:literal, $guess:expr; )*) => {
        /// Every reading of a side, in the order in which they are taken: along the axle, up from
        /// it, forward and rearward, then the details.
        pub const TAPE_FIELDS: &[TapeField] = &[ $( TapeField {
            field: Field {
                bound: Bound {
                    key: stringify!($name),
                    label: $label,
                    help: $help,
                    quantity: Quantity::Length,
                    least: $least,
                    most: $most,
                    usual: None,
                },
                get: |tape| tape.$name.value,
                set: |tape, value| tape.$name = Reading::measured(value),
            },
            reading: |tape| tape.$name,
            set_reading: |tape, reading| tape.$name = reading,
            guess: $guess,
        }, )* ];
    };
}

tape_fields! {
    to_rail, "Flange face in to frame rail", "Along the axle, from the axle flange's face inward to the outboard face of the frame rail.", -100.0 .. 900.0, None;
    to_tub_low, "Flange face in to tub wall, low", "Along the axle, inward to the tub wall at axle height.", -100.0 .. 900.0, None;
    to_tub_high, "Flange face in to tub wall, high", "Inward to the tub wall a hand below the roof; with the low reading it gives the wall's lean.", -150.0 .. 900.0, None;
    to_seam, "Flange face in to seam", "Inward to the flanged seam along the roof; negative when the seam lies outboard of the flange face.", -300.0 .. 900.0, None;
    to_lip, "Flange face out to quarter lip", "Along the axle, outward to the quarter lip's inner edge.", -100.0 .. 500.0, None;
    roof_up, "Axle center up to roof", "Straight up to the wheelhouse roof, at the tub corner.", 250.0 .. 800.0, None;
    lip_up, "Axle center up to quarter lip", "Straight up to the quarter lip's lower edge.", 20.0 .. 700.0, None;
    rail_top_up, "Axle center up to rail top", "Up to the frame rail's top, over the axle.", -200.0 .. 600.0, None;
    rail_bottom_up, "Axle center up to rail bottom", "Up to the frame rail's bottom, over the axle; negative when it hangs below the axle's center.", -350.0 .. 500.0, None;
    wall_ahead, "Forward to wheelhouse wall", "Forward from the axle's center to the wheelhouse wall, at axle height.", 250.0 .. 800.0, None;
    wall_behind, "Rearward to wheelhouse wall", "Rearward from the axle's center to the wheelhouse wall, at axle height.", 250.0 .. 800.0, None;
    opening_ahead, "Forward to wheel opening", "Forward from the axle's center to the edge of the wheel opening, at axle height.", 200.0 .. 800.0, Some(|tape| tape.wall_ahead.value - 50.8);
    opening_behind, "Rearward to wheel opening", "Rearward from the axle's center to the edge of the wheel opening, at axle height.", 200.0 .. 800.0, Some(|tape| tape.wall_behind.value - 50.8);
    kick_ahead, "Forward to start of kick-up", "How far ahead of the axle the rail reaches its height over the axle.", 50.0 .. 1500.0, Some(|tape| tape.wall_ahead.value);
    kick_behind, "Rearward to end of kick-up", "How far behind the axle the rail leaves its height over the axle.", 50.0 .. 1500.0, Some(|tape| tape.wall_behind.value);
    kick_drop, "Drop of the rail outside the kick-up", "How much lower the rail runs ahead of and behind its kick-up.", 0.0 .. 500.0, Some(|_| 152.4);
    corner_radius, "Corner radius, roof to tub wall", "Radius of the rounded corner between roof and tub wall.", 5.0 .. 250.0, Some(|_| 76.2);
    roof_fall, "Fall of the roof toward the lip", "How much lower the roof is at the lip than at the tub corner.", 0.0 .. 250.0, Some(|_| 25.4);
    lip_depth, "Depth of the lip's flange", "How far the lip's flange reaches up from its lower edge.", 3.0 .. 120.0, Some(|_| 19.05);
    lip_thickness, "Thickness of the lip", "How thick the folded lip is, across.", 0.5 .. 40.0, Some(|_| 3.175);
}
