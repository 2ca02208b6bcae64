//! Reads a car file, or tells everything that is wrong with it.

mod blank;
mod body;
mod found;
mod locator;
mod nearest;
mod reader;
mod values;

use geometry::car::{CAR_FIELDS, Car, Shop, fields};
use geometry::model::Model;
use geometry::tire::{Designation, MeasuredWidth, TireSpec};
use geometry::wheel::WheelSpec;
use toml::de::{DeTable, DeValue};

use crate::fault::FileFault;
use crate::layout;
use crate::{FORMAT, MAX_BYTES};
use reader::{Reader, Table};
use values::range_text;

/// Reads a car file as it comes from a disk, which may hold anything.
///
/// # Errors
/// As [`read`]; text that is no UTF-8 is told alone, at the first byte that is not.
pub fn read_bytes(bytes: &[u8]) -> Result<Car, Vec<FileFault>> {
    let valid = match std::str::from_utf8(bytes) {
        Ok(text) => return read(text),
        Err(error) => bytes.get(..error.valid_up_to()).unwrap_or_default(),
    };
    let before = std::str::from_utf8(valid).unwrap_or_default();
    let mut reader = Reader::new(before);
    if is_short_enough(&mut reader, bytes) {
        reader.spoil(before.len(), "", "this is not text", "a text file in UTF-8");
    }
    Err(reader.faults.into_sorted())
}

/// Reads a car file.
///
/// What is left out takes its usual value, where it has one; a tape reading that is left out is
/// guessed from the others and marked so; `axle.width` left out is the measured axle's.
///
/// ```
/// let faults = carfile::read("format = 1\nwheel = { rimwidth = 10 }").unwrap_err();
/// assert!(faults.iter().any(|fault| fault.to_string() == "2:11: unknown key wheel.rimwidth; did you mean rim_width?"));
/// ```
///
/// # Errors
/// Every fault of the file, in the order in which they stand in it. Broken TOML, an empty or an
/// over-long file and a newer format are told alone, because nothing behind them can be understood.
pub fn read(text: &str) -> Result<Car, Vec<FileFault>> {
    let mut reader = Reader::new(text);
    let car = document(&mut reader, text);
    if let Some(car) = car.as_ref().filter(|_| !reader.incomplete) {
        for fault in Model::new(car).err().unwrap_or_default() {
            reader.of_model(fault);
        }
    }
    settled(reader, car)
}

/// Reads a car whose numbers need not go together yet: one that somebody is still entering.
///
/// # Errors
/// As [`read`], but for what [`Model::new`] finds wrong with the car.
pub fn read_unfinished(text: &str) -> Result<Car, Vec<FileFault>> {
    let mut reader = Reader::new(text);
    let car = document(&mut reader, text);
    settled(reader, car)
}

fn settled(reader: Reader<'_>, car: Option<Car>) -> Result<Car, Vec<FileFault>> {
    match car {
        Some(car) if reader.faults.is_empty() => Ok(car),
        _ => Err(reader.faults.into_sorted()),
    }
}

fn document<'t>(reader: &mut Reader<'t>, text: &'t str) -> Option<Car> {
    if !is_short_enough(reader, text.as_bytes()) {
        return None;
    }
    if text.trim().is_empty() {
        reader.spoil(
            0,
            "",
            "the file is empty",
            format!("a car file, beginning with format = {FORMAT}"),
        );
        return None;
    }
    let (document, broken) = DeTable::parse_recoverable(text);
    for error in &broken {
        let start = error.span().map_or(0, |span| span.start);
        reader.spoil(
            start,
            "",
            format!("not TOML: {}", error.message()),
            "lines such as key = value under a [table]",
        );
    }
    if !broken.is_empty() {
        return None;
    }
    let top = Table::top(document.get_ref());
    if !format_is_known(reader, &top) {
        return None;
    }
    Some(car(reader, &top))
}

fn is_short_enough(reader: &mut Reader<'_>, bytes: &[u8]) -> bool {
    if bytes.len() > MAX_BYTES {
        reader.spoil(
            0,
            "",
            "the file is too long",
            format!("at most {MAX_BYTES} bytes ({} MB)", MAX_BYTES / 1_000_000),
        );
    }
    bytes.len() <= MAX_BYTES
}

/// A newer file may mean other things by the same keys, so it is not read at all.
fn format_is_known(reader: &mut Reader<'_>, top: &Table<'_, '_>) -> bool {
    let accepted = format!("format = {FORMAT}");
    let Some(value) = top.get("format") else {
        reader.missing(top, "format", &accepted);
        return true;
    };
    let number: Option<i64> = match value.get_ref() {
        DeValue::Integer(integer) if integer.radix() == 10 => integer.as_str().parse().ok(),
        _ => None,
    };
    match number {
        Some(FORMAT) => return true,
        Some(newer) if newer > FORMAT => {
            reader.spoil(
                value.span().start,
                "format",
                format!("format {newer} is newer than this program"),
                &accepted,
            );
        }
        _ => reader.spoil(value.span().start, "format", "an unknown format", &accepted),
    }
    false
}

fn car<'t>(reader: &mut Reader<'t>, top: &Table<'_, 't>) -> Car {
    reader.keys(top, &layout::top());
    reader.bare = reader.word(top, "units", layout::UNITS);
    let mut car = blank::car();
    for (key, most, text) in [
        ("name", Car::LONGEST_NAME, &mut car.name),
        ("purpose", Car::LONGEST_NOTES, &mut car.purpose),
    ] {
        text.push_str(reader.short_text(top, key, most).unwrap_or_default());
    }
    let nothing = DeTable::new();
    let tables: Vec<Table<'_, 't>> = [
        "tire",
        "wheel",
        "axle",
        "travel",
        "targets",
        "tape_error",
        "stock",
        "before",
        "metal",
        "left",
        "right",
    ]
    .into_iter()
    .map(|name| {
        let mut known = layout::keys_of(name);
        if matches!(name, "left" | "right") {
            known.extend(layout::IN_SIDE);
        }
        let absent = Table::absent(name, &nothing);
        reader.table(top, name, &known).unwrap_or(absent)
    })
    .collect();
    numbers(reader, &tables, &mut car);
    for table in &tables {
        match table.path.as_str() {
            "tire" => tire(reader, table, &mut car.tire, car.wheel.rim_width),
            "wheel" => backspacing(reader, table, &mut car.wheel),
            "metal" => {
                if let Some(plugs) = reader.word(table, "plugs", layout::PLUGS) {
                    car.metal.plugs = plugs;
                }
            }
            _ => {}
        }
    }
    car.shop = shop(reader, top);
    if let Some(locator) = locator::locator(reader, top) {
        car.locator = locator;
    }
    body::tapes(reader, top, &tables, &mut car.sides);
    body::stations(reader, &tables, &mut car.sides);
    car.obstacles = body::obstacles(reader, top);
    car.no_cut = body::no_cut(reader, top);
    car.found = found::read(reader, top, car.obstacles.len());
    car
}

fn shop<'t>(reader: &mut Reader<'t>, top: &Table<'_, 't>) -> Shop {
    let keys = layout::IN_SHOP.map(|(key, _)| key);
    let Some(table) = reader.table(top, "shop", &keys) else {
        return Shop::default();
    };
    let [name, notes] = layout::IN_SHOP.map(|(key, most)| {
        let text = reader.short_text(&table, key, most);
        text.unwrap_or_default().to_owned()
    });
    Shop { name, notes }
}

/// Every number that stands in a table under its own key.
fn numbers<'t>(reader: &mut Reader<'t>, tables: &[Table<'_, 't>], car: &mut Car) {
    let find = |key: &'static str| {
        let (of, name) = key.split_once('.')?;
        tables
            .iter()
            .find(|table| table.path == of)
            .map(|table| (table, name))
    };
    for field in CAR_FIELDS {
        let Some((table, key)) = find(field.bound.key) else {
            continue;
        };
        let value = match (table.get(key), field.bound.usual) {
            (Some(_), _) => reader.number(table, key, &field.bound),
            (None, Some(usual)) => Some(usual),
            (None, None) => {
                let elsewhere = match field.bound.key {
                    "wheel.backspacing" => continue, // or the offset; see below
                    "axle.width" => Some(car.axle.measured_width),
                    _ => None,
                };
                if elsewhere.is_none() {
                    reader.missing(table, key, range_text(&field.bound));
                }
                elsewhere
            }
        };
        if let Some(value) = value {
            (field.set)(car, value);
        }
    }
    for field in fields::OPTIONAL_FIELDS {
        let Some((table, key)) = find(field.bound.key) else {
            continue;
        };
        let value = reader.number(table, key, &field.bound);
        (field.set)(car, value);
    }
}

fn tire<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>, tire: &mut TireSpec, fitted_rim: f64) {
    if let Some(arrival) = reader.word(table, "arrival", layout::ARRIVALS) {
        tire.arrival = arrival;
    }
    match (reader.text(table, "size", SIZE), table.get("size")) {
        (Some(size), Some(value)) => match Designation::parse(size) {
            Ok(designation) => tire.designation = designation,
            Err(fault) => reader.text_fault(value, "tire.size", &fault),
        },
        (None, None) => reader.missing(table, "size", SIZE),
        _ => {}
    }
    let on_rim = reader.number(table, "section_width_on", &layout::SECTION_WIDTH_ON);
    match (&mut tire.section_width, on_rim) {
        (Some(MeasuredWidth { on_rim, .. }), said) => *on_rim = said.unwrap_or(fitted_rim),
        (None, Some(_)) => {
            reader.missing(
                table,
                "section_width",
                "the section width that was measured on that rim",
            );
        }
        (None, None) => {}
    }
}

const SIZE: &str = "a size in quotes such as \"275/60R15\"";

/// Exactly one of backspacing and offset.
fn backspacing<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>, wheel: &mut WheelSpec) {
    let offset = reader.number(table, "offset", &layout::OFFSET);
    match (table.get("backspacing"), table.get("offset")) {
        (Some(_), Some(value)) => {
            reader.fault(
                value,
                "wheel.offset",
                "wheel.backspacing and wheel.offset both stand here",
                "one of the two",
            );
        }
        (None, Some(value)) => {
            let Some(offset) = offset else { return };
            wheel.backspacing = wheel.backspacing_for(offset);
            if !fields::BACKSPACING.bound.admits(wheel.backspacing) && !reader.incomplete {
                let found = format!(
                    "wheel.offset makes a backspacing of {:.1} mm",
                    wheel.backspacing
                );
                reader.fault(
                    value,
                    "wheel.offset",
                    found,
                    range_text(&fields::BACKSPACING.bound),
                );
            }
        }
        (None, None) => reader.missing(table, "backspacing", "a backspacing, or an offset"),
        (Some(_), None) => {}
    }
}
