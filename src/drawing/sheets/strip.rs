//! The fill strip: its numbers, how it is marked out, and its pattern at full size.

use geometry::metal::strip::SPARE;
use geometry::metal::{Pattern, PatternRow, Strip, gauge};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::units::{KG_PER_POUND, MM_PER_INCH, Notation, format_length};

use super::dxf::{CUT, Dxf, EDGE, MARK};
use super::flow::{Flow, both, gauge_words, rectangle};
use super::plot::words;
use super::strip_section::{HEIGHT as SECTION, sections};
use super::table::Table;
use super::tiles::{Full, Line, Tag, tiles};
use super::{Kind, Sheet, SheetOptions};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};
use crate::words::{bearing, bearings};

/// Strips whose edges differ by less than this are one pattern, mm.
const SAME: f64 = 0.05;
/// Every so many rows of the pattern one is told in the table: five degrees.
const TOLD: usize = 5;
/// Height of the overview, mm.
const HEIGHT: f64 = 27.0;
/// Height of the lettering on a pattern for a machine, mm.
const LETTERING: f64 = 6.0;

const CAUTIONS: [&str; 3] = [
    "Cut the pattern from cardboard first and hold it on the car. The sheet is dearer than the cardboard.",
    "Fresh edges cut. File them round before the strip is carried.",
    "Zinc coating gives off fume when it is welded: grind it off where the welds go, and see the weld sheet.",
];

/// A strip that is to be made, with its pattern.
struct Made {
    side: Side,
    strip: Strip,
    pattern: Pattern,
}

/// The strips to be made: the right one is left out where it is the left one turned over.
fn strips(model: &Model) -> (Vec<Made>, bool) {
    let lap = model.car.metal.lap;
    let mut strips: Vec<Made> = Side::BOTH
        .into_iter()
        .filter_map(|side| {
            let strip = Strip::of(model, side)?;
            Some(Made {
                side,
                pattern: strip.pattern(lap),
                strip,
            })
        })
        .collect();
    let alike = matches!(&strips[..], [left, right] if is_same(&left.pattern, &right.pattern));
    if alike {
        strips.truncate(1);
    }
    (strips, alike)
}

/// Whether a strip is as far out all along.
fn is_plain(one: &Made) -> bool {
    let rows = &one.pattern.rows;
    rows.iter()
        .all(|row| (row.out - rows[0].out).abs() < SAME && (row.lap - rows[0].lap).abs() < SAME)
}

fn is_same(a: &Pattern, b: &Pattern) -> bool {
    (a.width - b.width).abs() < SAME
        && a.rows.len() == b.rows.len()
        && a.rows
            .iter()
            .zip(&b.rows)
            .all(|(a, b)| (a.along - b.along).abs() < SAME && (a.out - b.out).abs() < SAME)
}

/// The sheet.
#[must_use]
pub fn strip_sheet(model: &Model, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Strip, model, options);
    let (strips, alike) = strips(model);
    if strips.is_empty() {
        flow.paragraph("No seam is moved on this car, so there is no strip to be made. Move a seam on the page, and the pattern is here.");
    } else {
        flow.paragraph("The strip fills the room between the old seam and the new one. It is straight along the axle and bent only round the wheel, so between the seams it is cut flat and needs no stretching; what its laps need depends on the flanges, see the section. Along it runs the length of the seam, across it the distance out from the car's middle.");
        if alike {
            flow.paragraph("Left and right are the same piece: cut two, and turn one over.");
        }
        if strips.iter().all(is_plain) {
            flow.paragraph("It is a plain rectangle: its numbers are all that is needed, and the tiles at full size need not be printed.");
        }
        for one in &strips {
            let across = flow.room_across();
            flow.figure(HEIGHT, |group, frame| overview(group, frame, one, across));
        }
        flow.cautions(&CAUTIONS);
        for table in strip_tables(model, options.notation) {
            flow.table(&table);
        }
        flow.note(&format!(
            "Marking out: draw a straight base line and count along it from the seam's rear end; the sheet goes on for {} beyond either end. At each angle go square across it to the four marks. Where a row has a range of angles, the marks lie on straight lines from its one end to the other.",
            flow.say(SPARE)
        ));
        flow.figure(SECTION, sections);
        flow.heading("Make it");
        flow.steps(&make(&flow, model));
        for one in &strips {
            tiles(&mut flow, &full(one));
        }
    }
    Sheet {
        kind: Kind::Strip,
        pages: flow.pages(),
    }
}

/// Its tables: the strip's numbers, then where to mark it, row by row.
#[must_use]
pub fn strip_tables(model: &Model, notation: Notation) -> Vec<Table> {
    let (strips, alike) = strips(model);
    let mut tables = Vec::new();
    for one in &strips {
        let name = side_name(one.side, alike);
        tables.push(numbers(model, one, &name, notation));
    }
    for one in &strips {
        let name = side_name(one.side, alike);
        tables.push(marks(one, &name, notation));
    }
    tables
}

fn side_name(side: Side, alike: bool) -> String {
    if alike {
        "left and right strip".to_owned()
    } else {
        format!("{} strip", side.word())
    }
}

fn numbers(model: &Model, one: &Made, name: &str, notation: Notation) -> Table {
    let metal = &model.car.metal;
    let thickness = gauge::thickness(metal.gauge).unwrap_or_default();
    let say = |length: f64| both(length, notation);
    let area = |square: f64| {
        format!(
            "{:.2} sq ft ({:.4} sq m)",
            square / (144.0 * MM_PER_INCH * MM_PER_INCH),
            square * 1e-6
        )
    };
    let weight = |square: f64| {
        let kilograms = gauge::weight(square, thickness);
        format!("{:.2} lb ({kilograms:.3} kg)", kilograms / KG_PER_POUND)
    };
    let [length, width] = one.pattern.blank();
    let mut table = Table::new(format!("The {name}"), &[("what", 4.0), ("", 4.0)]);
    let rows = [
        (
            "Sheet".to_owned(),
            gauge_words(metal.gauge, thickness, notation),
        ),
        (
            "Length of the flat pattern".to_owned(),
            say(one.strip.length()),
        ),
        ("Width between the seams".to_owned(), say(one.strip.width)),
        ("Lap on either edge".to_owned(), say(metal.lap)),
        ("Spare at either end".to_owned(), say(SPARE)),
        (
            "Cut from a rectangle, laps and spare ends in it".to_owned(),
            format!("{} by {}", say(length), say(width)),
        ),
        ("Area between the seams".to_owned(), area(one.strip.area())),
        (
            "Area with laps and spare ends".to_owned(),
            area(one.pattern.area()),
        ),
        (
            "Weight between the seams".to_owned(),
            weight(one.strip.area()),
        ),
        (
            "Weight with laps and spare ends".to_owned(),
            weight(one.pattern.area()),
        ),
        (
            "Seam to weld, on either edge".to_owned(),
            say(one.strip.edge_length()),
        ),
    ];
    for (what, words) in rows {
        table.row([what, words]);
    }
    table
}

/// From a straight line along the outermost edge: where each row's four marks lie.
fn marks(one: &Made, name: &str, notation: Notation) -> Table {
    let mut table = Table::new(
        format!("Marking out the {name}"),
        &[
            ("angle", 1.7),
            ("along", 1.6),
            ("outboard cut", 1.3),
            ("old seam", 1.3),
            ("new seam", 1.3),
            ("inboard cut", 1.3),
        ],
    );
    let rows = &one.pattern.rows;
    let base = base_line(&one.pattern);
    let say = |length: f64| format_length(length, notation);
    let told: Vec<(&PatternRow, [String; 4])> = rows
        .iter()
        .enumerate()
        .filter(|(index, _)| index % TOLD == 0 || index + 1 == rows.len())
        .map(|(_, row)| {
            let across = base - row.out;
            let inner = across + one.pattern.width;
            let marks = [across - row.lap, across, inner, inner + row.lap];
            (row, marks.map(say))
        })
        .collect();
    // Runs of equal marks are one row.
    for run in told.chunk_by(|a, b| a.1 == b.1) {
        let ((first, marks), (last, _)) = (&run[0], &run[run.len() - 1]);
        let along = if run.len() > 1 {
            format!("{} to {}", say(first.along), say(last.along))
        } else {
            say(first.along)
        };
        let angles = bearings([first.angle, last.angle]);
        table.row([angles, along].into_iter().chain(marks.clone()));
    }
    table
}

/// How far out the outermost cut is, mm from the car's center plane.
fn base_line(pattern: &Pattern) -> f64 {
    pattern
        .rows
        .iter()
        .map(|row| row.out + row.lap)
        .fold(f64::NEG_INFINITY, f64::max)
}

fn make(flow: &Flow, model: &Model) -> Vec<String> {
    let metal = &model.car.metal;
    vec![
        "Print the tiles at 100 %, on the paper this sheet is set for. Check both rulers on every tile with a tape. Of two tiles that join cut one only, as each tile says, so that the other keeps crosses to lay it on; then tape. Or mark the strip out by the table, or give the DXF file to a shop that cuts sheet.".to_owned(),
        "Glue the pattern to cardboard, cut it, bend it round, and hold it to both seams on the car with the tub clamped in its new place. Correct the cardboard, not the car.".to_owned(),
        "The left strip is drawn as seen from above, the right one as seen from below, from the wheel: rear is on the left, outboard is up.".to_owned(),
        format!(
            "Cut the sheet. {} at either end is spare, in the pattern as in the rectangle: trim it on the car.",
            flow.say(SPARE)
        ),
        format!(
            "The laps, {} each, lie on the trunk side of the outer half and of the tub, out of the tire's room (common practice, no source). Where the flange lies flat in the sheet, the lap lies flat on it and follows the arch as the strip does. Where the flange stands up, the lap is bent up along the seam line and fits the flange: the arch stretches a lap that stands, so cut it from its edge nearly to the seam line, at each angle's mark and as often between as it wants, and let the cuts open.",
            flow.say(metal.lap)
        ),
        "Bend the strip round a drum or over a knee, never over a sharp edge. It is bent enough when it lies on the seam without force.".to_owned(),
    ]
}

/// The whole strip, small, with its angles and the tiles that it is printed on.
fn overview(group: &mut Group, frame: View, one: &Made, across: View) {
    let full = full(one);
    let [low, high] = full.bounds();
    let size = high - low;
    let scale = (frame.width / size.x).min((frame.height - 10.0) / size.y);
    let left = frame.x + (frame.width - size.x * scale) / 2.0;
    let at = |p: Vec2| {
        vec2(
            left + (p.x - low.x) * scale,
            frame.y + 5.0 + (high.y - p.y) * scale,
        )
    };
    for line in &full.lines {
        group.add(
            line.role,
            Shape::line(line.points.iter().map(|&p| at(p)).collect::<Vec<_>>()),
        );
    }
    let label = |group: &mut Group, p: Vec2, anchor: Anchor, text: &str| {
        words(group, p, anchor, text);
    };
    for (index, [low, high]) in full.grid(across).tiles().enumerate() {
        let (a, b) = (at(low), at(high));
        group.add(Role::SectionLine, rectangle(a, b));
        let middle = vec2(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y) + 1.2);
        label(group, middle, Anchor::Middle, &format!("{}", index + 1));
    }
    let (top, foot) = (frame.y + 3.0, frame.y + 9.5 + size.y * scale);
    label(
        group,
        vec2(left, top),
        Anchor::Start,
        &format!(
            "{} strip: outboard is up, the numbers are the tiles",
            one.side.word()
        ),
    );
    label(group, vec2(left, foot), Anchor::Start, "rear");
    label(
        group,
        vec2(left + size.x * scale, foot),
        Anchor::End,
        "front",
    );
}

/// The strip at full size: x along, y out.
fn full(one: &Made) -> Full {
    let pattern = &one.pattern;
    let mut outline = pattern.outline();
    outline.extend(outline.first().copied());
    let mut lines = vec![Line {
        role: Role::Cut,
        points: outline,
    }];
    for edge in pattern.edges() {
        lines.push(Line {
            role: Role::Stock,
            points: edge,
        });
    }
    let mut tags = Vec::new();
    for (along, angle, ends) in stations(one) {
        lines.push(Line {
            role: Role::Dimension,
            points: ends.to_vec(),
        });
        tags.push(Tag {
            at: vec2(along + 1.5, f64::midpoint(ends[0].y, ends[1].y)),
            words: bearing(angle),
        });
    }
    if let Some(row) = pattern.rows.get(TOLD / 2) {
        for (out, text) in [
            (row.out - 4.0, "old seam: this edge is outboard"),
            (row.out - pattern.width + 1.5, "new seam: the tub's edge"),
            (row.out + 2.0, "lap"),
            (row.out - pattern.width - 6.0, "lap"),
        ] {
            tags.push(Tag {
                at: vec2(row.along + 2.0, out),
                words: text.to_owned(),
            });
        }
    }
    Full {
        name: format!("{} strip", one.side.word()),
        lines,
        tags,
    }
}

/// Each station with how far along it lies, and a line across the strip there, from the old seam to the new one.
fn stations(one: &Made) -> Vec<(f64, f64, [Vec2; 2])> {
    let rows = &one.pattern.rows;
    let at = |angle: f64| {
        rows.iter()
            .min_by(|a, b| (a.angle - angle).abs().total_cmp(&(b.angle - angle).abs()))
    };
    one.strip
        .edge
        .iter()
        .filter_map(|edge| {
            let row = at(edge.angle)?;
            let ends = [
                vec2(row.along, row.out),
                vec2(row.along, row.out - one.pattern.width),
            ];
            Some((row.along, edge.angle, ends))
        })
        .collect()
}

/// The patterns for a cutting machine, in millimeters; nothing where no seam is moved.
#[must_use]
pub fn strip_dxf(model: &Model) -> Option<String> {
    let (strips, _) = strips(model);
    let mut dxf = Dxf::new();
    let mut below = 0.0;
    for one in &strips {
        let full = full(one);
        let [low, high] = full.bounds();
        // One under the other, each from the left edge.
        let shift = vec2(-low.x, below - high.y);
        let moved = |points: &[Vec2]| points.iter().map(|&p| p + shift).collect::<Vec<_>>();
        dxf.polyline(CUT, &moved(&one.pattern.outline()), true);
        for edge in one.pattern.edges() {
            dxf.polyline(EDGE, &moved(&edge), false);
        }
        for (along, angle, ends) in stations(one) {
            dxf.polyline(MARK, &moved(&ends), false);
            let at = vec2(along + 2.0, f64::midpoint(ends[0].y, ends[1].y));
            dxf.words(at + shift, LETTERING, &bearing(angle));
        }
        let name = format!(
            "{} strip, rear end on the left, outboard up",
            one.side.word()
        );
        below -= high.y - low.y + 4.0 * LETTERING;
        dxf.words(vec2(0.0, below + 2.0 * LETTERING), LETTERING, &name);
    }
    (!strips.is_empty()).then(|| dxf.file())
}
