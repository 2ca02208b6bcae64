//! The order sheet: wheel, tire, axle and bump stops.

use geometry::check::{ACCURACY, check};
use geometry::metal::Order;
use geometry::model::Model;
use geometry::units::{Notation, format_length};
use geometry::warnings::warnings;

use super::flow::Flow;
use super::table::Table;
use super::{Kind, Sheet, SheetOptions};
use crate::words::warning_words;

const CAUTIONS: [&str; 4] = [
    "Order nothing before the mock-up has been round the car.",
    "Every tire has a load, a speed and a range of rim widths. Its maker's list decides, not this sheet.",
    "A spacer needs studs long enough for full thread, and some places forbid spacers.",
    "Widening the track, covering the tread and shortening the travel are ruled on, and the rules differ by place. Ask before ordering.",
];

/// The sheet.
#[must_use]
pub fn order_sheet(model: &Model, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Order, model, options);
    flow.cautions(&CAUTIONS);
    let warned = warned(model, options.notation);
    if !warned.is_empty() {
        flow.heading("Before this is ordered");
        flow.steps(&warned);
    }
    flow.paragraph("Give the sellers these numbers, and have them answer the checks in writing. Measure what arrives before it is mounted.");
    for table in order_tables(model, options.notation) {
        flow.table(&table);
    }
    flow.heading("Ask the wheel's seller");
    flow.steps(&[
        "Is the backspacing measured from the mounting face to the outer edge of the rim, not to the bead seat? Sellers mean both.".to_owned(),
        "Bolt circle, center bore, stud size and nut seat: measure yours, and write them here: ______________________________".to_owned(),
        "Does the wheel clear the brake, with 1/4 in to spare (common practice)?".to_owned(),
        "What load is the wheel rated for?".to_owned(),
        "How much may it run out, sideways and up and down?".to_owned(),
    ]);
    flow.heading("Ask the tire's seller");
    flow.steps(&[
        "Section width and overall diameter as measured, on which rim width, at which pressure. The size printed on a tire is only its name.".to_owned(),
        "The least and the widest rim the maker allows, the load and the speed it carries, the date it was made.".to_owned(),
        "For a slick or a dragstrip tire: how much does it grow at speed?".to_owned(),
    ]);
    flow.heading("Ask the axle shop");
    flow.steps(&[
        "Is flange to flange measured between the faces that the wheels bolt to, brakes off?".to_owned(),
        "Are housing and shafts changed by the same amount on either side, or does the pinion stay off center? Ask for both halves.".to_owned(),
        "Are the shafts long enough to be cut and splined again, and are spring perches, shock mounts and brake lines where they were?".to_owned(),
    ]);
    Sheet {
        kind: Kind::Order,
        pages: flow.pages(),
    }
}

/// What the page warns of on this car, each with its caution.
fn warned(model: &Model, notation: Notation) -> Vec<String> {
    let check = check(model, ACCURACY);
    warnings(model, &check)
        .iter()
        .map(|warning| {
            let (topic, words) = warning_words(warning, notation);
            format!("{topic}: {words}")
        })
        .collect()
}

const HEADS: [(&str, f64); 4] = [
    ("what", 2.6),
    ("order", 1.5),
    ("millimeters", 1.5),
    ("what it means", 4.6),
];

/// Its tables: wheel, tire, axle and bump stops.
#[must_use]
pub fn order_tables(model: &Model, notation: Notation) -> Vec<Table> {
    let order = Order::of(&model.car);
    let mut tables = vec![
        wheel(&order, notation),
        tire(&order, &model.car.tire.designation.text, notation),
        axle(&order, notation),
        stops(&order, notation),
    ];
    tables.extend(height(&order, notation));
    tables
}

/// A table of lengths with what each means.
fn lengths(title: &str, rows: &[(&str, f64, &str)], notation: Notation) -> Table {
    let mut table = Table::new(title, &HEADS);
    for (what, length, meaning) in rows {
        table.row([
            (*what).to_owned(),
            format_length(*length, notation),
            format_length(*length, Notation::Millimeters),
            (*meaning).to_owned(),
        ]);
    }
    table
}

fn wheel(order: &Order, notation: Notation) -> Table {
    let mut rows = vec![
        (
            "Rim width",
            order.rim_width,
            "Between the flanges, where the tire sits.",
        ),
        (
            "Backspacing",
            order.backspacing,
            "Mounting face to the rim's inboard outer edge.",
        ),
        (
            "Front space",
            order.front_space,
            "Mounting face to the rim's outboard outer edge.",
        ),
        (
            "Offset",
            order.offset,
            "The same told from the rim's center plane: positive when the mounting face is outboard of it.",
        ),
        (
            "Overall width",
            order.overall_width,
            "Over both flanges. Backspacing is told on this width: about an inch more than the rim width.",
        ),
        ("Spacer", order.spacer, "Between brake and wheel."),
    ];
    if let Some(before) = order.before.backspacing {
        rows.push((
            "Backspacing, before",
            before,
            "Of the wheel that the plan began with.",
        ));
    }
    let mut table = lengths("Wheel", &rows, notation);
    table.row([
        "Rim diameter".to_owned(),
        format!("{}", order.rim_code),
        "\u{2014}".to_owned(),
        "A code, nominal inches.".to_owned(),
    ]);
    table
}

fn tire(order: &Order, size: &str, notation: Notation) -> Table {
    let source = if order.tire_is_measured {
        "As measured on the tire itself."
    } else {
        "On this rim, by the size's standard or as measured."
    };
    let mut rows = vec![
        ("Section width to ask for", order.section_width, source),
        ("Diameter to ask for", order.diameter, source),
        (
            "Section width, largest",
            order.largest_width,
            "The largest that the standard lets arrive (UN Regulation No. 30, recalled, not checked against the current text). Wider than this: send it back, or check the car again.",
        ),
        (
            "Diameter, largest",
            order.largest_diameter,
            "Likewise, standing still.",
        ),
    ];
    if order.growth > 0.0 {
        rows.push((
            "Growth at speed",
            order.growth,
            "What this car counts on besides. Ask the maker.",
        ));
    }
    let mut table = lengths(&format!("Tire: {size}"), &rows, notation);
    for what in ["Section, on arrival", "Diameter, on arrival"] {
        table.row([
            what.to_owned(),
            String::new(),
            String::new(),
            "Mounted on its rim at its pressure, after a day.".to_owned(),
        ]);
    }
    table
}

fn axle(order: &Order, notation: Notation) -> Table {
    let rows = [
        (
            "Flange to flange, now",
            order.axle_measured,
            "As it was measured.",
        ),
        (
            "Flange to flange, to order",
            order.axle,
            "Between the two faces that the wheels bolt to.",
        ),
        (
            "Change on either side",
            order.axle_change,
            "Of housing and shaft alike; a minus is shorter.",
        ),
    ];
    lengths("Axle", &rows, notation)
}

fn stops(order: &Order, notation: Notation) -> Table {
    let mut rows = vec![(
        "Bump travel",
        order.bump,
        "From ride height until the stop is fully squeezed: set the stop so that the axle rises no farther.",
    )];
    if let Some(taken) = order.bump_taken {
        rows.push((
            "Less than the maker's by",
            taken,
            "Some places allow no more than a third of it to be taken away.",
        ));
    }
    if let Some(before) = order.before.bump {
        rows.push(("Bump travel, before", before, "What the plan began with."));
    }
    lengths("Bump stops", &rows, notation)
}

/// What raises or lowers the body, where it is to sit at another height than it was measured at.
fn height(order: &Order, notation: Notation) -> Option<Table> {
    let change = order.ride_change;
    let (what, meaning) = if change > 0.0 {
        (
            "Body set higher by",
            "Than when it was measured. Springs, blocks or shackles do it; the driveshaft's angle changes with it.",
        )
    } else {
        (
            "Body set lower by",
            "Than when it was measured. Springs, blocks or shackles do it; the driveshaft's angle and the room over the axle change with it.",
        )
    };
    let row = (what, change.abs(), meaning);
    (change.abs() > 0.0).then(|| lengths("Ride height", &[row], notation))
}
