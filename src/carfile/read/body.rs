//! Reads the body: tape readings, stations, the parts near the tires, and where not to cut.

use geometry::body::tape::{READING_ERROR, TAPE_FIELDS, TapeField};
use geometry::body::{NoCutZone, Obstacle, Reading, Station, StationTable, Surface, Tape};
use geometry::car::{Car, SideSpec};
use geometry::field::Bound;
use geometry::side::{Side, Sides};
use geometry::space::{Vec3, vec2, vec3};
use toml::de::DeValue;

use super::reader::{Reader, Table};
use super::values::{SIDE, range_text};
use crate::layout;

/// The tape readings of both sides: a side's own table first, then the table of both.
pub(super) fn tapes<'t>(
    reader: &mut Reader<'t>,
    top: &Table<'_, 't>,
    tables: &[Table<'_, 't>],
    sides: &mut Sides<SideSpec>,
) {
    let known = layout::tape_keys();
    let shared = reader.table(top, "tape", &known);
    let mut missing: Sides<Vec<&TapeField>> = Sides::default();
    for side in Side::BOTH {
        let own = side_table(tables, side).and_then(|table| reader.table(table, "tape", &known));
        let tape = &mut sides.get_mut(side).tape;
        for field in TAPE_FIELDS {
            let said = own
                .iter()
                .chain(&shared)
                .find(|table| table.get(field.field.bound.key).is_some());
            match said {
                Some(table) => {
                    if let Some(reading) = reading(reader, table, field) {
                        (field.set_reading)(tape, reading);
                    }
                }
                None if field.guess.is_none() => missing.get_mut(side).push(field),
                None => {}
            }
        }
        let is_absent = |field: &TapeField| {
            own.iter()
                .chain(&shared)
                .all(|table| table.get(field.field.bound.key).is_none())
        };
        guess(tape, is_absent);
    }
    tell_missing(reader, shared.as_ref().unwrap_or(top), &missing);
}

/// The stations of both sides, where the file has them.
pub(super) fn stations<'t>(
    reader: &mut Reader<'t>,
    tables: &[Table<'_, 't>],
    sides: &mut Sides<SideSpec>,
) {
    for side in Side::BOTH {
        let Some(table) = side_table(tables, side).filter(|table| table.get("station").is_some())
        else {
            continue;
        };
        let listed = reader.tables(table, "station", layout::IN_STATION, layout::MANY);
        let read: Vec<Station> = listed
            .iter()
            .filter_map(|one| station(reader, one))
            .collect();
        if read.len() == listed.len() && !read.is_empty() {
            sides.get_mut(side).stations = Some(StationTable { stations: read });
        }
    }
}

/// The parts near the tires.
pub(super) fn obstacles<'t>(reader: &mut Reader<'t>, top: &Table<'_, 't>) -> Vec<Obstacle> {
    let listed = reader.tables(top, "obstacle", layout::IN_OBSTACLE, layout::MANY);
    listed
        .iter()
        .filter_map(|table| obstacle(reader, table))
        .collect()
}

/// Where the wheelhouses must not be cut.
pub(super) fn no_cut<'t>(reader: &mut Reader<'t>, top: &Table<'_, 't>) -> Vec<NoCutZone> {
    let listed = reader.tables(top, "no_cut", layout::IN_NO_CUT, layout::MANY);
    listed
        .iter()
        .filter_map(|table| no_cut_zone(reader, table))
        .collect()
}

fn side_table<'a, 'd, 't>(tables: &'a [Table<'d, 't>], side: Side) -> Option<&'a Table<'d, 't>> {
    tables.iter().find(|table| table.path == side.word())
}

/// A reading: a length; `{ measured = length }` or `{ guess = length }` where it has an error of its own.
fn reading<'t>(
    reader: &mut Reader<'t>,
    table: &Table<'_, 't>,
    field: &TapeField,
) -> Option<Reading> {
    let bound = &field.field.bound;
    let value = table.get(bound.key)?;
    if !matches!(value.get_ref(), DeValue::Table(_)) {
        return reader
            .number(table, bound.key, bound)
            .map(Reading::measured);
    }
    let inside = reader.as_table(value, table.name(bound.key), layout::IN_READING)?;
    let error = reader.number(&inside, "error", &READING_ERROR);
    match (inside.get("measured"), inside.get("guess")) {
        (Some(measured), Some(_)) => {
            let name = table.name(bound.key);
            let found = format!("{name} is both measured and a guess");
            reader.fault(measured, &name, found, "one of the two");
            return None;
        }
        (Some(_), None) => reader
            .number(&inside, "measured", bound)
            .map(Reading::measured),
        (None, Some(_)) => reader.number(&inside, "guess", bound).map(Reading::guessed),
        (None, None) => {
            reader.missing(&inside, "guess", range_text(bound));
            None
        }
    }
    .map(|reading| reading.within(error))
}

/// Guesses stand on readings, so they are made in the order of the table, after all readings.
fn guess(tape: &mut Tape, is_absent: impl Fn(&TapeField) -> bool) {
    for field in TAPE_FIELDS.iter().filter(|field| is_absent(field)) {
        if let Some(guess) = field.guess {
            let value = guess(tape);
            (field.set_reading)(tape, Reading::guessed(value));
        }
    }
}

/// One fault for a reading that neither side has, one a side otherwise.
fn tell_missing(reader: &mut Reader<'_>, shared: &Table<'_, '_>, missing: &Sides<Vec<&TapeField>>) {
    for (side, fields) in missing.iter() {
        for field in fields {
            let bound = &field.field.bound;
            let both = Side::BOTH.iter().all(|side| {
                missing
                    .get(*side)
                    .iter()
                    .any(|one| one.field.bound.key == bound.key)
            });
            let name = if both {
                format!("tape.{}", bound.key)
            } else {
                format!("{}.tape.{}", side.word(), bound.key)
            };
            reader.spoil(
                shared.start,
                &name,
                format!("{name} is missing"),
                range_text(bound),
            );
        }
    }
}

fn station<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>) -> Option<Station> {
    reader.want(
        table,
        &[
            (
                "angle",
                "degrees from straight up, positive toward the front",
            ),
            (
                "points",
                "a list of points [out, radius], from the lip inward",
            ),
            ("spans", "a list of surfaces, one fewer than the points"),
            ("seam", "the number of the seam's point, counted from 0"),
        ],
    );
    let angle = reader.number(table, "angle", &layout::STATION_ANGLE);
    let points_value = table.get("points")?;
    let name = table.name("points");
    let mut points = Vec::new();
    for one in reader.list(
        points_value,
        &name,
        "a list of points [out, radius]",
        layout::MANY,
    )? {
        let [out, radius] = reader.coordinates(
            one,
            &name,
            "two lengths, [out, radius]",
            &layout::STATION_POINT,
        )?;
        points.push(vec2(out, radius));
    }
    if points.len() < 2 {
        reader.fault(
            points_value,
            &name,
            format!("{name} has {} points", points.len()),
            "at least 2",
        );
        return None;
    }
    let spans_value = table.get("spans")?;
    let name = table.name("spans");
    let mut spans: Vec<Surface> = Vec::new();
    for one in reader.list(spans_value, &name, "a list of surfaces", layout::MANY)? {
        spans.push(reader.as_word(one, &name, layout::SPANS)?);
    }
    if spans.len() + 1 != points.len() {
        let found = format!(
            "{name} has {} surfaces for {} points",
            spans.len(),
            points.len()
        );
        reader.fault(
            spans_value,
            &name,
            found,
            format!("{} surfaces", points.len() - 1),
        );
        return None;
    }
    let seam = reader.as_index(table.get("seam")?, &table.name("seam"), points.len() - 1)?;
    let fill = match table.get("fill") {
        Some(value) => Some(reader.as_index(value, &table.name("fill"), spans.len() - 1)?),
        None => None,
    };
    Some(Station {
        angle: angle?,
        points,
        spans,
        seam,
        fill,
    })
}

fn obstacle<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>) -> Option<Obstacle> {
    reader.want(
        table,
        &[
            ("name", "what the part is, in quotes"),
            ("side", SIDE),
            ("from", ENDS),
            ("to", ENDS),
            ("radius", "a length"),
        ],
    );
    let name = reader.short_text(table, "name", Car::LONGEST_NAME);
    let side = reader.word(table, "side", layout::SIDES);
    let from = end(reader, table, "from");
    let to = end(reader, table, "to");
    let radius = reader.number(table, "radius", &Obstacle::RADIUS);
    Some(Obstacle {
        name: name?.to_owned(),
        side: side?,
        from: from?,
        to: to?,
        radius: radius?,
    })
}

const ENDS: &str = "three lengths, [forward, out, up], from the car's center plane at the axle";

fn end<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>, key: &str) -> Option<Vec3> {
    let [forward, out, up] =
        reader.coordinates(table.get(key)?, &table.name(key), ENDS, &Bound::COORDINATE)?;
    Some(vec3(forward, out, up))
}

fn no_cut_zone<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>) -> Option<NoCutZone> {
    reader.want(
        table,
        &[
            ("name", "what is behind the sheet, in quotes"),
            ("side", SIDE),
            ("angles", ANGLES),
            ("along", ALONG),
        ],
    );
    let name = reader.short_text(table, "name", Car::LONGEST_NAME);
    let side = reader.word(table, "side", layout::SIDES);
    let angles = ends(reader, table, "angles", ANGLES, &NoCutZone::ANGLE);
    let along = ends(reader, table, "along", ALONG, &NoCutZone::ALONG);
    Some(NoCutZone {
        name: name?.to_owned(),
        side: side?,
        angles: angles?,
        along: along?,
    })
}

const ANGLES: &str = "two angles in rising order, [from, to], in degrees from straight up, positive toward the front";
const ALONG: &str =
    "two lengths in rising order, [from, to], along the sheet from the seam, positive inboard";

/// Two numbers of a table.
fn ends<'t>(
    reader: &mut Reader<'t>,
    table: &Table<'_, 't>,
    key: &str,
    accepted: &str,
    bound: &Bound,
) -> Option<[f64; 2]> {
    reader.coordinates(table.get(key)?, &table.name(key), accepted, bound)
}
