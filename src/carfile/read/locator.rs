//! Reads what holds the axle sideways.

use geometry::field::Bound;
use geometry::locator::Locator;
use geometry::space::{Vec2, vec2};

use super::reader::{Reader, Table};
use super::values::range_text;
use crate::layout;

/// The locator, if the file has one that can be read.
pub(super) fn locator<'t>(reader: &mut Reader<'t>, top: &Table<'_, 't>) -> Option<Locator> {
    let kinds: Vec<(&str, usize)> = layout::LOCATORS
        .iter()
        .enumerate()
        .map(|(k, (word, _))| (*word, k))
        .collect();
    if top.get("locator").is_none() {
        reader.missing(top, "locator", "a table [locator] with its kind");
        return None;
    }
    let every: Vec<&str> = layout::LOCATORS
        .iter()
        .flat_map(|(_, keys)| keys.iter().copied())
        .collect();
    let table = reader.table(top, "locator", &every)?;
    if table.get("kind").is_none() {
        let words: Vec<String> = kinds
            .iter()
            .map(|(word, _)| format!("\"{word}\""))
            .collect();
        reader.missing(&table, "kind", words.join(" or "));
        return None;
    }
    let kind = reader.word(&table, "kind", &kinds)?;
    let (word, keys) = layout::LOCATORS.get(kind)?;
    for key in every.iter().filter(|key| !keys.contains(key)) {
        if let Some(value) = table.get(key) {
            let found = format!("locator.{key} does not go with kind \"{word}\"");
            reader.fault(
                value,
                &table.name(key),
                found,
                format!("the keys {}", keys.join(", ")),
            );
        }
    }
    match *word {
        "track-bar" => {
            let axle_end = point(reader, &table, "axle_end");
            let body_end = point(reader, &table, "body_end");
            Some(Locator::TrackBar {
                axle_end: axle_end?,
                body_end: body_end?,
            })
        }
        "watt-link" => {
            let height = height(reader, &table);
            if table.get("pivot_on").is_none() {
                reader.missing(&table, "pivot_on", "\"axle\" or \"body\"");
            }
            let pivot_on = reader.word(&table, "pivot_on", layout::PIVOTS);
            Some(Locator::WattLink {
                height: height?,
                pivot_on: pivot_on?,
            })
        }
        "angled-links" => Some(Locator::AngledLinks {
            height: height(reader, &table)?,
        }),
        _ => Some(Locator::LeafSprings {
            height: height(reader, &table)?,
        }),
    }
}

fn height<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>) -> Option<f64> {
    if table.get("height").is_none() {
        reader.missing(table, "height", range_text(&Locator::HEIGHT));
    }
    reader.number(table, "height", &Locator::HEIGHT)
}

fn point<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>, key: &str) -> Option<Vec2> {
    let accepted = "two lengths, [left, up], from the axle's center";
    let name = table.name(key);
    let Some(value) = table.get(key) else {
        reader.missing(table, key, accepted);
        return None;
    };
    let [left, up] = reader.coordinates(value, &name, accepted, &Bound::COORDINATE)?;
    Some(vec2(left, up))
}
