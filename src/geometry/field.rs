//! Bounds as data: what a number of the car is called, what it may be, and how it is stepped.
//!
//! One table feeds the slider, the number box, the address, the car file and the text of a fault,
//! so none of them can disagree.

/// What kind of number a field holds, which decides how it is typed and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A length, millimeters inside.
    Length,
    /// An angle, radians inside, degrees at the edge.
    Angle,
    /// A plain ratio.
    Ratio,
    /// A rim diameter code: nominal inches by name, not a length.
    RimCode,
    /// A mass in kilograms.
    Mass,
    /// A pressure in kilopascals.
    Pressure,
}

/// What a number is called and what it may be. Inclusive at both ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// Where the number stands in a car file, `table.key`.
    pub key: &'static str,
    /// What a person calls it.
    pub label: &'static str,
    /// One plain sentence: what it is and how it is measured.
    pub help: &'static str,
    /// What kind of number it is.
    pub quantity: Quantity,
    /// The least accepted.
    pub least: f64,
    /// The most accepted.
    pub most: f64,
    /// What is taken when nothing is said, if anything is.
    pub usual: Option<f64>,
}

impl Bound {
    /// What a coordinate of a part of the car may be: a locator's end, a part near the tire.
    pub const COORDINATE: Bound = Bound {
        key: "coordinate",
        label: "Coordinate",
        help: "In the car's frame.",
        quantity: Quantity::Length,
        least: -2000.0,
        most: 2000.0,
        usual: None,
    };

    /// Whether the number is finite and within the bound.
    #[must_use]
    pub fn admits(&self, value: f64) -> bool {
        value.is_finite() && value >= self.least && value <= self.most
    }

    /// The nearest number that is admitted; `least` for a number that is none.
    #[must_use]
    pub fn clamp(&self, value: f64) -> f64 {
        if value.is_nan() {
            self.least
        } else {
            value.clamp(self.least, self.most)
        }
    }
}

/// A number of `T` (the car, or one side's tape readings) with its bound.
#[derive(Debug, Clone, Copy)]
pub struct Field<T> {
    /// Name and bound.
    pub bound: Bound,
    /// Reads it.
    pub get: fn(&T) -> f64,
    /// Sets it, without checking the bound.
    pub set: fn(&mut T, f64),
}

/// One thing that is wrong with an input: where, what was found, what would be accepted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The key in a car file, `table.key`; empty when the whole is meant.
    pub at: String,
    /// What was found.
    pub found: String,
    /// What would be accepted.
    pub accepted: String,
}

impl Fault {
    /// A fault at `at`.
    pub fn new(
        at: impl Into<String>,
        found: impl Into<String>,
        accepted: impl Into<String>,
    ) -> Self {
        Self {
            at: at.into(),
            found: found.into(),
            accepted: accepted.into(),
        }
    }
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if !self.at.is_empty() {
            write!(f, "{}: ", self.at)?;
        }
        write!(f, "{}; {}", self.found, self.accepted)
    }
}
