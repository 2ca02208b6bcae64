//! The simple entry: what a builder reaches with a tape, wheel off, car level at ride height.

use crate::field::{Bound, Field, Quantity};

/// A tape reading: measured, or still a guess.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The reading, mm.
    pub value: f64,
    /// Whether nobody has measured it yet.
    pub guess: bool,
    /// How far this one may be off either way, mm, where it has an error of its own; else the car's apply.
    pub error: Option<f64>,
}

/// What the error of a single reading may be.
pub const READING_ERROR: Bound = Bound {
    key: "error",
    label: "How far it may be off",
    help: "How far this one reading may be off, either way. Empty: as far as any other.",
    quantity: Quantity::Length,
    least: 0.0,
    most: 150.0,
    usual: None,
};

impl Reading {
    /// A reading somebody took.
    #[must_use]
    pub const fn measured(value: f64) -> Self {
        Self {
            value,
            guess: false,
            error: None,
        }
    }

    /// A default that stands in for a reading.
    #[must_use]
    pub const fn guessed(value: f64) -> Self {
        Self {
            value,
            guess: true,
            error: None,
        }
    }

    /// The same reading, which may be off by an error of its own, mm.
    #[must_use]
    pub const fn within(self, error: Option<f64>) -> Self {
        Self { error, ..self }
    }

    /// What it becomes when somebody measures it: an error of its own stays, a guess's goes with the guess.
    #[must_use]
    pub fn retaken(self, value: f64) -> Self {
        Self::measured(value).within(self.error.filter(|_| !self.guess))
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

impl Tape {
    /// Enters a reading; the guesses that were made from readings move with those that they lean on. A guess of
    /// somebody's own stays.
    pub fn retake(&mut self, field: &TapeField, reading: Reading) {
        let leaning: Vec<_> = TAPE_FIELDS
            .iter()
            .filter_map(|guessed| Some((guessed, guessed.guess?)))
            .filter(|(guessed, guess)| {
                let stands = (guessed.reading)(self);
                stands.guess && (stands.value - guess(self)).abs() < KEPT
            })
            .collect();
        (field.set_reading)(self, reading);
        for (guessed, guess) in leaning {
            let stands = (guessed.reading)(self);
            if stands.guess && guessed.field.bound.key != field.field.bound.key {
                let value = guess(self);
                (guessed.set_reading)(self, Reading { value, ..stands });
            }
        }
    }
}

/// A guess is the one that readings make if it is no further from it than writing and reading a file leaves it, mm.
const KEPT: f64 = 1e-9;

/// Which way a reading is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// From the axle flange's face toward the car's center plane.
    Inward,
    /// From the axle flange's face away from the car's center plane.
    Outward,
    /// Straight up from the axle's center.
    Up,
    /// Level, forward or rearward from the axle's center.
    Along,
    /// A size of the sheet itself, from nowhere on the axle.
    Size,
}

impl Way {
    /// What a part of this thickness that stays on the flange, and stands outboard of its face, adds to a reading
    /// taken from the part's own face, mm for a mm.
    #[must_use]
    pub fn over_a_part(self) -> f64 {
        match self {
            Way::Inward => 1.0,
            Way::Outward => -1.0,
            Way::Up | Way::Along | Way::Size => 0.0,
        }
    }
}

/// A field of the tape: where it is measured from and to, its bound, and its reading.
#[derive(Debug, Clone, Copy)]
pub struct TapeField {
    /// The number with its bound; `bound.key` is the key inside a side's table.
    pub field: Field<Tape>,
    /// Which way it is taken.
    pub way: Way,
    /// The reading itself.
    pub reading: fn(&Tape) -> Reading,
    /// Sets the reading.
    pub set_reading: fn(&mut Tape, Reading),
    /// What stands in when it was not measured, from the readings that were; `None`: it must be measured.
    pub guess: Option<fn(&Tape) -> f64>,
}

macro_rules! tape_fields {
    ($( $name:ident, $label:literal, $help:literal, $way:ident, $least:literal .. $most:literal, $guess:expr; )*) => {
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
            way: Way::$way,
            reading: |tape| tape.$name,
            set_reading: |tape, reading| tape.$name = reading,
            guess: $guess,
        }, )* ];
    };
}

tape_fields! {
    to_rail, "Flange face in to frame rail", "Along the axle, from the axle flange's face inward to the outboard face of the frame rail.", Inward, -100.0 .. 900.0, None;
    to_tub_low, "Flange face in to tub wall, low", "Along the axle, inward to the tub wall at axle height.", Inward, -100.0 .. 900.0, None;
    to_tub_high, "Flange face in to tub wall, high", "Inward to the tub wall a hand below the roof; with the low reading it gives the wall's lean.", Inward, -150.0 .. 900.0, None;
    to_seam, "Flange face in to seam", "Inward to the flanged seam along the roof; negative when the seam lies outboard of the flange face.", Inward, -300.0 .. 900.0, None;
    to_lip, "Flange face out to quarter lip", "Along the axle, outward to the quarter lip's inner edge.", Outward, -100.0 .. 500.0, None;
    roof_up, "Axle center up to roof", "Straight up to the wheelhouse roof, at the tub corner.", Up, 250.0 .. 800.0, None;
    lip_up, "Axle center up to quarter lip", "Straight up to the quarter lip's lower edge.", Up, 20.0 .. 700.0, None;
    rail_top_up, "Axle center up to rail top", "Up to the frame rail's top, over the axle.", Up, -200.0 .. 600.0, None;
    rail_bottom_up, "Axle center up to rail bottom", "Up to the frame rail's bottom, over the axle; negative when it hangs below the axle's center.", Up, -350.0 .. 500.0, None;
    wall_ahead, "Forward to wheelhouse wall", "Forward from the axle's center to the wheelhouse wall, at axle height.", Along, 250.0 .. 800.0, None;
    wall_behind, "Rearward to wheelhouse wall", "Rearward from the axle's center to the wheelhouse wall, at axle height.", Along, 250.0 .. 800.0, None;
    opening_ahead, "Forward to wheel opening", "Forward from the axle's center to the edge of the wheel opening, at axle height.", Along, 200.0 .. 800.0, Some(|tape| tape.wall_ahead.value - 50.8);
    opening_behind, "Rearward to wheel opening", "Rearward from the axle's center to the edge of the wheel opening, at axle height.", Along, 200.0 .. 800.0, Some(|tape| tape.wall_behind.value - 50.8);
    kick_ahead, "Forward to start of kick-up", "How far ahead of the axle the rail reaches its height over the axle.", Along, 50.0 .. 1500.0, Some(|tape| tape.wall_ahead.value);
    kick_behind, "Rearward to end of kick-up", "How far behind the axle the rail leaves its height over the axle.", Along, 50.0 .. 1500.0, Some(|tape| tape.wall_behind.value);
    kick_drop, "Drop of the rail outside the kick-up", "How much lower the rail runs ahead of and behind its kick-up.", Size, 0.0 .. 500.0, Some(|_| 152.4);
    corner_radius, "Corner radius, roof to tub wall", "Radius of the rounded corner between roof and tub wall.", Size, 5.0 .. 250.0, Some(|_| 76.2);
    roof_fall, "Fall of the roof toward the lip", "How much lower the roof is at the lip than at the tub corner.", Size, 0.0 .. 250.0, Some(|_| 25.4);
    lip_depth, "Depth of the lip's flange", "How far the lip's flange reaches up from its lower edge.", Size, 3.0 .. 120.0, Some(|_| 19.05);
    lip_thickness, "Thickness of the lip", "How thick the folded lip is, across.", Size, 0.5 .. 40.0, Some(|_| 3.175);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tape with every reading at 300 mm and every guess made from them.
    fn tape() -> Tape {
        let reading = Reading::measured(300.0);
        let mut tape = Tape {
            to_rail: reading,
            to_tub_low: reading,
            to_tub_high: reading,
            to_seam: reading,
            to_lip: reading,
            roof_up: reading,
            lip_up: reading,
            rail_top_up: reading,
            rail_bottom_up: reading,
            kick_ahead: reading,
            kick_behind: reading,
            kick_drop: reading,
            wall_ahead: reading,
            wall_behind: reading,
            opening_ahead: reading,
            opening_behind: reading,
            corner_radius: reading,
            roof_fall: reading,
            lip_depth: reading,
            lip_thickness: reading,
        };
        for field in TAPE_FIELDS {
            if let Some(guess) = field.guess {
                let value = guess(&tape);
                (field.set_reading)(&mut tape, Reading::guessed(value));
            }
        }
        tape
    }

    fn field(key: &str) -> &'static TapeField {
        let found = TAPE_FIELDS.iter().find(|one| one.field.bound.key == key);
        found.expect(key)
    }

    #[test]
    fn a_reading_moves_the_guesses_that_lean_on_it() {
        let mut tape = tape();
        tape.opening_ahead.error = Some(20.0);
        tape.retake(field("wall_ahead"), Reading::measured(400.0));
        let leaning = Reading::guessed(400.0 - 50.8).within(Some(20.0));
        assert_eq!(tape.opening_ahead, leaning);
        assert_eq!(tape.kick_ahead, Reading::guessed(400.0));
        assert_eq!(tape.opening_behind, Reading::guessed(300.0 - 50.8));
        tape.retake(field("opening_ahead"), Reading::measured(380.0));
        tape.retake(field("wall_ahead"), Reading::measured(410.0));
        assert_eq!(tape.opening_ahead, Reading::measured(380.0));
    }

    #[test]
    fn a_guess_of_ones_own_stays_and_can_be_entered() {
        let mut tape = tape();
        tape.retake(field("opening_ahead"), Reading::guessed(321.0));
        tape.retake(field("wall_ahead"), Reading::measured(400.0));
        assert_eq!(tape.opening_ahead, Reading::guessed(321.0));
    }

    #[test]
    fn an_error_of_its_own_stays_with_a_reading_and_goes_with_a_guess() {
        let exact = Reading::measured(10.0).within(Some(0.5));
        assert_eq!(exact.retaken(12.0).error, Some(0.5));
        let vague = Reading::guessed(10.0).within(Some(30.0));
        assert_eq!(vague.retaken(12.0), Reading::measured(12.0));
    }

    /// A drum that stays on carries the face that is measured from outboard, and what is read from it comes to the same
    /// section once its thickness is taken off again.
    #[test]
    fn a_drum_that_stays_on_makes_inward_readings_longer_and_outward_ones_shorter() {
        let mut from_flange = tape();
        from_flange.to_tub_low = Reading::measured(120.0);
        from_flange.to_tub_high = Reading::measured(130.0);
        from_flange.to_seam = Reading::measured(20.0);
        from_flange.to_lip = Reading::measured(150.0);
        from_flange.roof_up = Reading::measured(400.0);
        let drum = 6.0;
        let mut from_drum = from_flange;
        for field in TAPE_FIELDS {
            let value = (field.field.get)(&from_flange) + drum * field.way.over_a_part();
            (field.field.set)(&mut from_drum, value);
        }
        let section = |tape: &Tape, face: f64| {
            let station = crate::body::Station::from_tape(tape, face, 0.0);
            station.expect("a section").points
        };
        let (a, b) = (
            section(&from_flange, 750.0),
            section(&from_drum, 750.0 + drum),
        );
        for (a, b) in a.iter().zip(&b) {
            assert!((*a - *b).length() < 1e-9, "{a:?} {b:?}");
        }
        assert!((from_drum.to_rail.value - from_flange.to_rail.value - drum).abs() < 1e-9);
    }
}
