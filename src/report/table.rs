//! The gap list as an aligned table, in inches as a tape reads and in millimeters.

use geometry::check::{Check, SurfaceCheck};
use geometry::model::Model;
use geometry::units::{Notation, format_length};

use crate::doubts::doubts;

/// The gap list as text, a surface a line; what stops the tire first is named under it, then what to doubt.
#[must_use]
pub fn to_text(model: &Model, check: &Check) -> String {
    let mut text = heading(model);
    let mut rows = vec![HEADS.map(str::to_owned)];
    for (side, list) in check.sides.iter() {
        rows.extend(
            list.surfaces
                .iter()
                .map(|surface| row(side.word(), surface)),
        );
    }
    let widths: [usize; COLUMNS] = std::array::from_fn(|k| {
        rows.iter()
            .map(|row| row[k].chars().count())
            .max()
            .unwrap_or(0)
    });
    for row in &rows {
        let mut line = String::new();
        for (k, (cell, width)) in row.iter().zip(widths).enumerate() {
            let padding = " ".repeat(width - cell.chars().count());
            // Words begin together, numbers end together.
            let padded = if WORDS.contains(&k) {
                format!("{cell}{padding}")
            } else {
                format!("{padding}{cell}")
            };
            line.push_str(&padded);
            line.push_str("  ");
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text + "\n" + &conclusion(check) + "\n" + &doubts(model, check)
}

const COLUMNS: usize = 10;
const HEADS: [&str; COLUMNS] = [
    "side",
    "surface",
    "at ride",
    "mm",
    "target",
    "in travel",
    "mm",
    "target",
    "verdict",
    "nearest in travel",
];
/// The columns that hold words.
const WORDS: [usize; 4] = [0, 1, 8, 9];

fn heading(model: &Model) -> String {
    let car = &model.car;
    let source = |is_measured| {
        if is_measured {
            "measured"
        } else {
            "printed size"
        }
    };
    format!(
        "{}\n{}: section {} ({}), diameter {} ({}), center plane {} from the car's\n\n",
        car.name,
        car.tire.designation.text,
        both(car.section_width()),
        source(car.tire.width_is_measured()),
        both(car.overall_diameter()),
        source(car.tire.diameter_is_measured()),
        both(car.axle.center_plane(car.wheel.offset())),
    )
}

fn row(side: &str, surface: &SurfaceCheck) -> [String; COLUMNS] {
    let tape = |length| format_length(length, Notation::InchFractions);
    let millimeters = |length: f64| format_length(length, Notation::Millimeters).replace(" mm", "");
    [
        side.to_owned(),
        surface.name.clone(),
        tape(surface.ride.low),
        millimeters(surface.ride.low),
        tape(surface.ride_target),
        tape(surface.travel.low),
        millimeters(surface.travel.low),
        tape(surface.travel_target),
        surface.verdict.word().to_owned(),
        drawing::bearing(surface.travel.witness.angle()),
    ]
}

fn conclusion(check: &Check) -> String {
    let word = check.verdict().word();
    let worst = check
        .sides
        .iter()
        .filter_map(|(side, list)| list.worst().map(|surface| (side, surface)))
        .min_by(|(_, a), (_, b)| {
            a.verdict
                .cmp(&b.verdict)
                .then(a.reserve().total_cmp(&b.reserve()))
        });
    match worst {
        Some((side, surface)) if surface.reserve() < 0.0 => {
            format!(
                "{word}: the {} on the {} is farthest below its target",
                surface.name,
                side.word()
            )
        }
        Some((side, surface)) => {
            format!(
                "{word}: the {} on the {} comes nearest to its target",
                surface.name,
                side.word()
            )
        }
        None => word.to_owned(),
    }
}

fn both(length: f64) -> String {
    format!(
        "{} / {}",
        format_length(length, Notation::InchFractions),
        format_length(length, Notation::Millimeters)
    )
}
