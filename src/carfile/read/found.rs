//! Reads the gaps that were found with the mock-up.

use geometry::body::{Surface, SurfaceId};
use geometry::car::FoundGap;
use geometry::travel::Pose;

use super::reader::{Reader, Table};
use super::values::SIDE;
use crate::layout;

const POSE: &str =
    "three lengths, [left wheel up, right wheel up, axle to the left], from ride height";

/// The found gaps of a car with so many parts bolted nearby.
pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    top: &Table<'_, 't>,
    parts: usize,
) -> Vec<FoundGap> {
    let listed = reader.tables(top, "found", layout::IN_FOUND, layout::FOUND);
    listed
        .iter()
        .filter_map(|table| one(reader, table, parts))
        .collect()
}

fn one<'t>(reader: &mut Reader<'t>, table: &Table<'_, 't>, parts: usize) -> Option<FoundGap> {
    reader.want(
        table,
        &[
            ("side", SIDE),
            ("surface", "a surface of the car, in quotes"),
            ("pose", POSE),
            ("gap", "a length; a hit is a minus"),
        ],
    );
    let side = reader.word(table, "side", layout::SIDES);
    let surface = reader.word(table, "surface", &layout::found_to());
    let index = surface.and_then(|surface| part(reader, table, surface, parts));
    let pose = reader.coordinates(
        table.get("pose")?,
        &table.name("pose"),
        POSE,
        &FoundGap::POSE,
    );
    let gap = reader.number(table, "gap", &FoundGap::GAP);
    let [left, right, give] = pose?;
    Some(FoundGap {
        side: side?,
        id: SurfaceId {
            surface: surface?,
            index: index?,
        },
        pose: Pose { left, right, give },
        gap: gap?,
    })
}

/// Which part bolted nearby; sheet metal has no such number.
fn part<'t>(
    reader: &mut Reader<'t>,
    table: &Table<'_, 't>,
    surface: Surface,
    parts: usize,
) -> Option<usize> {
    let name = table.name("part");
    match (surface, table.get("part")) {
        (Surface::Obstacle, None) => {
            reader.want(
                table,
                &[("part", "its place in the list of obstacles, counted from 0")],
            );
            None
        }
        (Surface::Obstacle, Some(value)) => {
            let Some(last) = parts.checked_sub(1) else {
                let found = format!("{name} is of a car without obstacles");
                reader.fault(value, &name, found, "a surface of this car");
                return None;
            };
            reader.as_index(value, &name, last)
        }
        (_, Some(value)) => {
            let found = format!("{name} stands beside sheet metal");
            reader.fault(value, &name, found, "no part, or the surface \"part\"");
            None
        }
        (_, None) => Some(0),
    }
}
