//! Takes numbers out of a parsed file: with units, within bounds.

use std::ops::Range;

use geometry::field::{Bound, Quantity};
use geometry::units::{self, LengthUnit, Notation, format_length};
use toml::de::DeValue;

use super::reader::{Reader, Table, Value, source};

/// What is accepted for a side.
pub(super) const SIDE: &str = "\"left\" or \"right\"";

/// How far a number may stand beyond its bound and still be at it: more than any loses in a file, less than anybody types.
const KEPT: f64 = 1e-9;

impl<'t> Reader<'t> {
    /// A number within its bound, if the key is there.
    pub(super) fn number(
        &mut self,
        table: &Table<'_, 't>,
        key: &str,
        bound: &Bound,
    ) -> Option<f64> {
        let value = table.get(key)?;
        self.as_number(value, &table.name(key), bound)
    }

    /// A value as a number within its bound.
    pub(super) fn as_number(&mut self, value: &Value<'t>, at: &str, bound: &Bound) -> Option<f64> {
        let number = self.quantity(value, at, bound)?;
        // A number at its bound may have been written in a unit that does not hold it to the last digit.
        let nearest = bound.clamp(number);
        if (nearest - number).abs() <= KEPT {
            return Some(nearest);
        }
        self.fault(
            value,
            at,
            format!("{at} is {}", source(self.text, value)),
            range_text(bound),
        );
        None
    }

    /// A value as a whole number from zero to `most`.
    pub(super) fn as_index(&mut self, value: &Value<'t>, at: &str, most: usize) -> Option<usize> {
        let index = match value.get_ref() {
            DeValue::Integer(integer) if integer.radix() == 10 => {
                integer.as_str().parse().ok().filter(|k| *k <= most)
            }
            _ => None,
        };
        if index.is_none() {
            self.fault(
                value,
                at,
                format!("{at} is {}", source(self.text, value)),
                format!("a whole number from 0 to {most}"),
            );
        }
        index
    }

    fn quantity(&mut self, value: &Value<'t>, at: &str, bound: &Bound) -> Option<f64> {
        let number: Option<f64> = match value.get_ref() {
            DeValue::String(text) => return self.typed(value, text, at, bound),
            DeValue::Integer(integer) if integer.radix() == 10 => integer.as_str().parse().ok(),
            DeValue::Float(float) => float.as_str().parse().ok(),
            _ => None,
        };
        let Some(number) = number.filter(|n| n.is_finite()) else {
            self.fault(
                value,
                at,
                format!("{at} is {}", source(self.text, value)),
                range_text(bound),
            );
            return None;
        };
        match (bound.quantity, self.bare) {
            (Quantity::Length, None) => {
                self.without_unit(value, at);
                None
            }
            (Quantity::Length, Some(unit)) => Some(number * unit.millimeters()),
            (Quantity::Angle, _) => Some(units::radians(number)),
            (Quantity::Ratio | Quantity::RimCode | Quantity::Mass | Quantity::Pressure, _) => {
                Some(number)
            }
        }
    }

    /// A number in quotes, with or without its unit.
    fn typed(&mut self, value: &Value<'t>, text: &str, at: &str, bound: &Bound) -> Option<f64> {
        let read = match bound.quantity {
            Quantity::Length => {
                let read = units::parse_length(text, self.bare.unwrap_or_default());
                // A length that is another one in another unit has none of its own.
                if self.bare.is_none() && read != units::parse_length(text, LengthUnit::Millimeter)
                {
                    self.without_unit(value, at);
                    return None;
                }
                read
            }
            Quantity::Angle => units::parse_angle(text),
            Quantity::Mass => units::parse_mass(text, LengthUnit::Millimeter),
            Quantity::Pressure => units::parse_pressure(text, LengthUnit::Millimeter),
            Quantity::Ratio | Quantity::RimCode => {
                self.fault(value, at, format!("{at} is text"), range_text(bound));
                return None;
            }
        };
        read.map_err(|fault| self.text_fault(value, at, &fault))
            .ok()
    }

    /// A fault inside a text, at the character where it was not understood.
    pub(super) fn text_fault(&mut self, value: &Value<'t>, at: &str, fault: &units::TextFault) {
        let found = format!(
            "{at} is not understood from its character {}: {}",
            fault.at + 1,
            fault.found
        );
        self.spoil(
            character(self.text, value, fault.at),
            at,
            found,
            fault.accepted.clone(),
        );
    }

    fn without_unit(&mut self, value: &Value<'t>, at: &str) {
        let found = format!("{at} is {} without a unit", source(self.text, value));
        self.fault(value, at, found, "a length with its unit such as \"7 5/8 in\" or \"193 mm\", or a line units = \"in\" or units = \"mm\" at the top");
    }

    /// A list of exactly `N` numbers.
    pub(super) fn coordinates<const N: usize>(
        &mut self,
        value: &Value<'t>,
        at: &str,
        accepted: &str,
        bound: &Bound,
    ) -> Option<[f64; N]> {
        let list = match value.get_ref() {
            DeValue::Array(list) if list.len() == N => list,
            _ => {
                self.fault(
                    value,
                    at,
                    format!("{at} is {}", source(self.text, value)),
                    accepted,
                );
                return None;
            }
        };
        let numbers: Vec<f64> = list
            .iter()
            .filter_map(|one| self.as_number(one, at, bound))
            .collect();
        numbers.try_into().ok()
    }
}

/// What a bound accepts, in words.
pub(super) fn range_text(bound: &Bound) -> String {
    let Bound { least, most, .. } = *bound;
    match bound.quantity {
        Quantity::Length => {
            let inches = |millimeters| format_length(millimeters, Notation::InchDecimals);
            format!(
                "a length from {} ({least} mm) to {} ({most} mm)",
                inches(least),
                inches(most)
            )
        }
        Quantity::Angle => format!(
            "an angle from {:.0} to {:.0} degrees",
            units::degrees(least),
            units::degrees(most)
        ),
        Quantity::Ratio | Quantity::RimCode => format!("a number from {least} to {most}"),
        Quantity::Mass => format!("a mass from {least} to {most} kg"),
        Quantity::Pressure => format!("a pressure from {least} to {most} kPa"),
    }
}

/// Where the `k`th character of a quoted text stands in the file; the text's own place when escapes
/// or triple quotes hide it.
fn character(text: &str, value: &Value<'_>, k: usize) -> usize {
    let Range { start, end } = value.span();
    let DeValue::String(content) = value.get_ref() else {
        return start;
    };
    let inside = text.get(start + 1..end).unwrap_or_default();
    if !inside.starts_with(content.as_ref()) || content.is_empty() {
        return start;
    }
    start
        + 1
        + content
            .char_indices()
            .nth(k)
            .map_or(content.len(), |(offset, _)| offset)
}
