//! The cut sheet: what of the wheelhouse stands in the tire's room, where not to cut, and whether it is a plan at all.

use std::fmt::Write as _;

use geometry::body::Surface;
use geometry::car::Car;
use geometry::metal::{CutPlan, CutRow, CutSpan, How, Reset, zone_rows};
use geometry::model::Model;
use geometry::order;
use geometry::side::{Side, Sides};
use geometry::units::{Notation, degrees, format_length, radians};

use super::cut_map::{HEIGHT, Legend, map};
use super::cut_work::{braces, opens, work};
use super::flow::{Flow, both};
use super::table::Table;
use super::{Kind, Sheet, SheetOptions};
use crate::words::{bearing, bearings, missing_words};

const CAUTIONS: [&str; 5] = [
    "A wheelhouse is structure. Belt anchorages, shock and spring mounts and the quarter's support hang on it. A belt anchorage has to hold 22 241 N, 5000 lbf (FMVSS 210): never cut or weld one without licensed advice.",
    "Empty and take out the fuel tank, or have it made safe; move lines and wiring away; disconnect the battery. Keep a second person with an extinguisher, and watch for half an hour after the last spark.",
    "Look behind the sheet before every cut: inside the trunk, behind the trim, under the seat.",
    "Rows of spot welds that lead nowhere on your side hold something on the other: brackets, braces, a doubled sheet. Leave them until you know what it is.",
    "Glasses, gloves, ears, and a mask: sealer and undercoating give off fume when they are heated, zinc does too.",
];

const MAPS: &str = "The maps roll the sheet out, outboard up. The scale on their right is for distances along the sheet only; across them run the angles.";

/// What a side's heading and words take above its map, mm.
const WORDS: f64 = 26.0;

/// The sheet.
#[must_use]
pub fn cut_sheet(model: &Model, plans: &Sides<CutPlan>, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Cut, model, options);
    let ready = is_plan(plans);
    if !ready {
        flow.heading("Not a plan yet: do not cut");
        flow.paragraph(&instead(&flow, model, plans));
    }
    flow.cautions(&CAUTIONS);
    flow.paragraph("All distances run along the sheet, from the factory's seam, inboard toward the car's middle or outboard toward the lip. Angles count from straight up round the axle's center, the axle at ride height. Mark them with a string from the axle's center and a protractor.");
    let mapped = |side: Side| {
        let zoned = model.car.no_cut.iter().any(|zone| zone.side == side);
        zoned || !plans.get(side).is_clear()
    };
    for (side, plan) in plans.iter() {
        if mapped(side) {
            flow.need(HEIGHT + WORDS);
        }
        flow.heading(&format!("The {} side", side.word()));
        flow.paragraph(&finding(model, plan, options.notation));
        if mapped(side) {
            flow.figure(HEIGHT, |group, frame| {
                map(group, frame, model, plan, (ready, options.notation));
            });
        }
    }
    if Side::BOTH.into_iter().any(mapped) {
        let legend = Legend::of(model, plans, ready);
        flow.figure(legend.height(), |group, frame| legend.draw(group, frame));
        flow.note(MAPS);
    }
    if let Some(table) = zones(model, plans, options.notation) {
        flow.table(&table);
        flow.note("No saw, no drill, no hammer and no weld in a zone, nor where a row says STOP: a row stands for the sheet halfway to its neighbors, so that it may say STOP a little beyond the zone. A zone inboard of the seam sits on the tub and would be moved with it: that takes licensed advice, too.");
    }
    if ready && let Some(steps) = work(&flow, model, plans) {
        flow.heading("Order of work");
        flow.steps(&steps);
        if opens(model, plans) {
            flow.table(&braces());
        }
        if let Some(table) = readings(model, options.notation) {
            flow.table(&table);
            let change = model.car.axle.change_per_side();
            if change != 0.0 {
                flow.note(&format!(
                    "From the flange face of the axle that is to go in, each reads {} {}.",
                    flow.say(change.abs()),
                    if change > 0.0 { "more" } else { "less" }
                ));
            }
        }
    }
    for table in rows(model, plans, options.notation) {
        flow.table(&table);
    }
    if plans
        .iter()
        .any(|(_, plan)| plan.rows.iter().any(|row| row.goes_along))
    {
        flow.note("\u{201c}It goes along\u{201d}: the sheet there stands in the way today, and moves away with the tub or the roof.");
    }
    Sheet {
        kind: Kind::Cut,
        pages: flow.pages(),
    }
}

/// Its tables: the no-cut zones, where a re-set tub reads, and for each side what stands in the way, angle by angle.
#[must_use]
pub fn cut_tables(model: &Model, plans: &Sides<CutPlan>, notation: Notation) -> Vec<Table> {
    let mut tables: Vec<Table> = zones(model, plans, notation).into_iter().collect();
    if is_plan(plans) {
        tables.extend(readings(model, notation));
    }
    tables.extend(rows(model, plans, notation));
    tables
}

/// Whether both sides can be worked by.
fn is_plan(plans: &Sides<CutPlan>) -> bool {
    plans.iter().all(|(_, plan)| plan.is_plan())
}

/// A zone's letter.
pub(super) fn letter(zone: usize) -> char {
    ('A'..='Z').cycle().nth(zone).unwrap_or('A')
}

/// Zones by letter and name.
fn named(car: &Car, zones: &[usize]) -> String {
    let names: Vec<String> = zones
        .iter()
        .filter_map(|&index| {
            let zone = car.no_cut.get(index)?;
            Some(format!("{}, {}", letter(index), zone.name))
        })
        .collect();
    names.join("; ")
}

/// Why nothing is to be cut yet, and what to do.
fn instead(flow: &Flow, model: &Model, plans: &Sides<CutPlan>) -> String {
    let mut words = "As the car stands on the page, there is more in the way than is made room for, and to saw it out would leave holes with nothing planned to close them. What is hatched and listed below shows where the tire needs room; it is no line to cut by.".to_owned();
    // The tub goes inboard with its seam; roof and outer half do not make room by that.
    let sawn = |side: Side| {
        plans.get(side).spans().any(|span| {
            span.how == How::Saw && matches!(span.surface, Surface::TubCorner | Surface::TubWall)
        })
    };
    for side in Side::BOTH {
        let (moved, limit) = (
            model.car.sides.get(side).seam_move,
            *model.seam_limit.get(side),
        );
        if moved <= 0.0 && sawn(side) {
            let _ = write!(
                words,
                " Move the {} seam on the Bench{}.",
                side.word(),
                if limit.is_finite() && limit > 0.0 {
                    format!(
                        ": up to {}, before the tub comes within the rail's margin",
                        flow.say_both(limit)
                    )
                } else {
                    String::new()
                }
            );
        }
    }
    let mut stopped: Vec<usize> = plans
        .iter()
        .flat_map(|(_, plan)| plan.spans().flat_map(|span| span.no_cut.clone()))
        .collect();
    order::sort_by(&mut stopped, Ord::cmp);
    stopped.dedup();
    if !stopped.is_empty() {
        let _ = write!(
            words,
            " Where not to cut, room is missing, too ({}): the car has to change there, not the sheet.",
            named(&model.car, &stopped)
        );
    }
    words.push_str(" The Bench answers what each of its levers alone would take: tire, backspacing, track width, ride height, bump travel. Where the axle sits and how far the roof is raised are among the car's numbers. Print this sheet again when its first line has gone.");
    words
}

/// What the plan comes to on one side.
fn finding(model: &Model, plan: &CutPlan, notation: Notation) -> String {
    let spec = model.car.sides.get(plan.side);
    let say = |length: f64| both(length, notation);
    let moves = spec.seam_move > 0.0 || spec.roof_raise > 0.0;
    let mut words = String::new();
    if spec.seam_move > 0.0 {
        let _ = write!(
            words,
            "The tub is parted from the outer half at the seam and re-set {} inboard. ",
            say(spec.seam_move)
        );
    }
    if spec.roof_raise > 0.0 {
        let _ = write!(words, "The roof is raised by {}. ", say(spec.roof_raise));
    }
    words.push_str(match (plan.is_clear(), moves) {
        (true, true) => "Nothing else has to be cut.",
        (true, false) => "Nothing has to be cut.",
        (false, true) => "What is listed below still stands in the way after that. Try on the page first whether moving it farther would do instead.",
        (false, false) => "What is listed below stands in the way.",
    });
    if let Some(worst) = plan.spans().map(|span| span.short).reduce(f64::max) {
        let _ = write!(
            words,
            " At the worst spot {} is missing.",
            missing_words(worst, notation)
        );
    }
    let ends: Vec<String> = plan
        .short_at_ends()
        .into_iter()
        .flatten()
        .map(|(angle, short)| format!("{} {}", missing_words(short, notation), bearing(angle)))
        .collect();
    if !ends.is_empty() {
        let _ = write!(
            words,
            " At the end of the list there is still missing: {}. The sheet goes on below it, the readings do not: measure there, and try the mock-up there, before anything is decided.",
            ends.join(", ")
        );
    }
    words
}

/// Where not to cut, in distances to be marked; nothing where the car names no zone.
fn zones(model: &Model, plans: &Sides<CutPlan>, notation: Notation) -> Option<Table> {
    let mut table = Table::new(
        "Where not to cut: mark these first, in red",
        &[
            ("zone", 2.6),
            ("angles", 2.2),
            ("at", 1.5),
            ("from the seam", 2.2),
            ("from the lip", 2.0),
            ("missing in it", 1.4),
        ],
    );
    let say = |length: f64| format_length(length, notation);
    for (side, plan) in plans.iter() {
        for row in zone_rows(model, side) {
            let zone = &model.car.no_cut[row.zone];
            let inside = plan.spans().filter(|span| span.no_cut.contains(&row.zone));
            let short = inside.map(|span| span.short).reduce(f64::max);
            table.row([
                format!("{}, {}, {} side", letter(row.zone), zone.name, side.word()),
                bearings(outward(zone.angles)),
                bearing(row.angle),
                from_seam(row.from_seam, &say),
                format!("{} to {}", say(row.from_lip[0]), say(row.from_lip[1])),
                short.map_or_else(
                    || "\u{2014}".to_owned(),
                    |short| missing_words(short, notation),
                ),
            ]);
        }
    }
    (!table.rows.is_empty()).then_some(table)
}

/// Two angles as whole degrees that leave nothing of what is between them out.
fn outward([rear, front]: [f64; 2]) -> [f64; 2] {
    const WHOLE: f64 = 1e-6;
    [
        radians((degrees(rear) + WHOLE).floor()),
        radians((degrees(front) - WHOLE).ceil()),
    ]
}

/// Where each re-set tub is to read; nothing where none is moved.
fn readings(model: &Model, notation: Notation) -> Option<Table> {
    let mut table = Table::new(
        "Check readings: in from the flange face that the tape sheet measured from",
        &[
            ("reading", 3.4),
            ("before", 1.3),
            ("at the new place", 1.6),
            ("found", 1.6),
        ],
    );
    let say = |length: f64| format_length(length, notation);
    for side in Side::BOTH {
        let Some(reset) = Reset::of(model, side) else {
            continue;
        };
        let tape = &model.car.sides.get(side).tape;
        for (what, before, new) in [
            ("tub's seam", tape.to_seam.value, reset.seam),
            (
                "tub wall, low: at axle height",
                tape.to_tub_low.value,
                reset.low,
            ),
            (
                "tub wall, high: a hand below the roof",
                tape.to_tub_high.value,
                reset.high,
            ),
        ] {
            table.row([
                format!("{}, {what}", side.word()),
                say(before),
                say(new),
                String::new(),
            ]);
        }
    }
    (!table.rows.is_empty()).then_some(table)
}

fn rows(model: &Model, plans: &Sides<CutPlan>, notation: Notation) -> Vec<Table> {
    let ready = is_plan(plans);
    plans
        .iter()
        .map(|(_, plan)| table(model, plan, ready, notation))
        .collect()
}

fn table(model: &Model, plan: &CutPlan, ready: bool, notation: Notation) -> Table {
    let (what, area) = if ready {
        ("by angle", "from the seam (saw: the final trim)")
    } else {
        (
            "what stands in the way: no lines to cut by yet",
            "from the seam",
        )
    };
    let mut heads = vec![("angle", 1.4), ("what to do", 2.1)];
    if ready {
        heads.push(("saw rows only: first cut, from the seam", 2.0));
    }
    heads.extend([
        (area, 2.1),
        ("the same from the lip", 1.8),
        ("missing", 1.2),
        ("lip to seam", 1.2),
    ]);
    let mut table = Table::new(format!("The {} side, {what}", plan.side.word()), &heads);
    let say = |length: f64| format_length(length, notation);
    let dash = || "\u{2014}".to_owned();
    // Runs of rows with nothing to do are one row.
    for run in plan
        .rows
        .chunk_by(|a, b| a.spans.is_empty() && b.spans.is_empty() && a.goes_along == b.goes_along)
    {
        let (first, last) = (&run[0], &run[run.len() - 1]);
        if first.spans.is_empty() {
            let words = if first.goes_along {
                "nothing: it goes along"
            } else {
                "nothing"
            };
            let mut cells = vec![bearings([first.angle, last.angle]), words.to_owned()];
            cells.resize(heads.len() - 1, dash());
            cells.push(seams(run, &say));
            table.row(cells);
        }
        for span in &first.spans {
            let mut cells = vec![bearing(first.angle), how(model, span, ready)];
            if ready {
                cells.push(match span.first {
                    Some(ends) => from_seam(ends, &say),
                    None if span.how == How::Saw => {
                        let middle = f64::midpoint(span.trim[0], span.trim[1]);
                        format!("one slit at {}", from_seam([middle; 2], &say))
                    }
                    None => dash(),
                });
            }
            let from_lip = span.trim.map(|along| say(along + first.lip_to_seam));
            cells.extend([
                from_seam(span.trim, &say),
                format!("{} to {}", from_lip[0], from_lip[1]),
                missing_words(span.short, notation),
                say(first.lip_to_seam),
            ]);
            table.row(cells);
        }
    }
    table
}

/// The least and the most from lip to seam of a run of rows.
fn seams(run: &[CutRow], say: &dyn Fn(f64) -> String) -> String {
    let of = |pick: fn(f64, f64) -> f64| {
        let all = run.iter().map(|row| row.lip_to_seam);
        all.reduce(pick).map_or_else(String::new, say)
    };
    let (least, most) = (of(f64::min), of(f64::max));
    if least == most {
        least
    } else {
        format!("{least} to {most}")
    }
}

/// From where to where, told from the seam.
fn from_seam([from, to]: [f64; 2], say: &dyn Fn(f64) -> String) -> String {
    let way = |along: f64| if along < 0.0 { "outboard" } else { "inboard" };
    let told = |along: f64| format!("{} {}", say(along.abs()), way(along));
    if from.to_bits() == to.to_bits() {
        told(from)
    } else if way(from) == way(to) {
        format!("{} to {}", say(from.abs()), told(to))
    } else {
        format!("{} to {}", told(from), told(to))
    }
}

fn how(model: &Model, span: &CutSpan, ready: bool) -> String {
    let words = match span.how {
        How::Stop => {
            return format!("STOP, do not cut: {}", named(&model.car, &span.no_cut));
        }
        _ if span.is_slight() => "no cut; hammer and dolly only if the mock-up rubs",
        How::Lip => "roll the lip, or trim it",
        How::Dolly => "hammer and dolly: no cut",
        How::Saw if ready => "saw",
        How::Saw => "in the way: do not cut yet",
    };
    if span.flange && ready {
        format!("{words}; leave the seam's flange until last")
    } else {
        words.to_owned()
    }
}
