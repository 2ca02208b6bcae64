//! The cut sheet: what of the wheelhouse stands in the tire's room, and the order of work.

use std::fmt::Write as _;

use geometry::metal::{CutPlan, CutRow, CutSpan, How};
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, vec2};
use geometry::units::{Notation, degrees, format_length};

use super::flow::{Flow, rectangle};
use super::plot::words;
use super::table::Table;
use super::{Kind, Sheet, SheetOptions};
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};
use crate::words::bearing;

/// Height of the map, mm.
const HEIGHT: f64 = 70.0;

const CAUTIONS: [&str; 5] = [
    "A wheelhouse is structure. Belt anchorages, shock and spring mounts and the quarter's support hang on it. A belt anchorage has to hold 22 241 N, 5000 lbf (FMVSS 210): never cut or weld one without licensed advice.",
    "Empty and take out the fuel tank, or have it made safe; move lines and wiring away; battery off. Keep a second person with an extinguisher, and watch for half an hour after the last spark.",
    "Look behind the sheet before every cut: inside the trunk, behind the trim, under the seat.",
    "Rows of spot welds that lead nowhere on your side hold something on the other: brackets, braces, a doubled sheet. Leave them until you know what it is.",
    "Glasses, gloves, ears, and a mask: sealer and undercoating give off fume when they are heated, zinc does too.",
];

/// The sheet.
#[must_use]
pub fn cut_sheet(model: &Model, plans: &Sides<CutPlan>, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Cut, model, options);
    flow.paragraph("All distances run along the sheet, from the factory's seam, inboard toward the car's middle or outboard toward the lip. Angles count from straight up round the axle's center, the axle at ride height. Mark them with a string from the axle's center and a protractor.");
    for (side, plan) in plans.iter() {
        flow.heading(&format!("The {} side", side.word()));
        flow.paragraph(&finding(model, plan, &|length| flow.say_both(length)));
        flow.figure(HEIGHT, |group, frame| map(group, frame, model, plan));
    }
    flow.note("\u{201c}It goes along\u{201d}: the sheet there stands in the way today, and moves away with the tub or the roof. In the maps the sheet is rolled out, the rear on the left. Hatched: the final trim. Between the heavy lines: the first cut. Dash-dot: the seam. Dotted: where not to cut.");
    flow.cautions(&CAUTIONS);
    flow.heading("Order of work");
    flow.steps(&work(&flow, model, plans));
    for table in cut_tables(model, plans, options.notation) {
        flow.table(&table);
    }
    Sheet {
        kind: Kind::Cut,
        pages: flow.pages(),
    }
}

/// Its tables: for each side what stands in the way, angle by angle.
#[must_use]
pub fn cut_tables(model: &Model, plans: &Sides<CutPlan>, notation: Notation) -> Vec<Table> {
    plans
        .iter()
        .map(|(_, plan)| table(model, plan, notation))
        .collect()
}

fn table(model: &Model, plan: &CutPlan, notation: Notation) -> Table {
    let mut table = Table::new(
        format!("The {} side, by angle", plan.side.word()),
        &[
            ("angle", 1.5),
            ("lip to seam", 1.3),
            ("first cut, from the seam", 2.2),
            ("final trim, from the seam", 2.2),
            ("final trim, from the lip", 1.9),
            ("missing", 1.3),
            ("how", 2.2),
        ],
    );
    let say = |length: f64| format_length(length, notation);
    for row in &plan.rows {
        let seam = say(row.lip_to_seam);
        if row.spans.is_empty() {
            let words = if row.goes_along {
                "nothing: it goes along"
            } else {
                "nothing"
            };
            let dash = || "\u{2014}".to_owned();
            let cells = [
                bearing(row.angle),
                seam,
                dash(),
                dash(),
                dash(),
                dash(),
                words.to_owned(),
            ];
            table.row(cells);
            continue;
        }
        for span in &row.spans {
            let first = match span.first {
                Some(ends) => from_seam(ends, &say),
                None if span.how == How::Saw => {
                    let middle = f64::midpoint(span.trim[0], span.trim[1]);
                    format!("one slit at {}", from_seam([middle; 2], &say))
                }
                None => "\u{2014}".to_owned(),
            };
            let from_lip = span.trim.map(|along| say(along + row.lip_to_seam));
            table.row([
                bearing(row.angle),
                seam.clone(),
                first,
                from_seam(span.trim, &say),
                format!("{} to {}", from_lip[0], from_lip[1]),
                say(span.short),
                how(model, span),
            ]);
        }
    }
    table
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

fn how(model: &Model, span: &CutSpan) -> String {
    let mut words = match span.how {
        How::Lip => "roll or trim the lip",
        How::Dolly => "hammer and dolly",
        How::Saw => "saw",
        How::Stop => "STOP",
    }
    .to_owned();
    if span.flange {
        words.push_str("; leave the seam's flange until last");
    }
    for &index in &span.no_cut {
        if let Some(zone) = model.car.no_cut.get(index) {
            // Writing to a string cannot fail.
            let _ = write!(words, "; do not cut: {}", zone.name);
        }
    }
    words
}

/// What the plan comes to on one side.
fn finding(model: &Model, plan: &CutPlan, say: &dyn Fn(f64) -> String) -> String {
    let spec = model.car.sides.get(plan.side);
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
    let spans = || plan.rows.iter().flat_map(|row| &row.spans);
    let worst = spans().map(|span| span.short).fold(0.0, f64::max);
    let rest = if plan.is_clear() {
        "Nothing else has to be cut."
    } else if spec.seam_move > 0.0 || spec.roof_raise > 0.0 {
        "What is listed below still stands in the way after that. Try on the page first whether moving it farther would do instead."
    } else {
        "What is listed below stands in the way. Where the list runs over long stretches inboard of the seam, moving the seam is the cleaner job: try it on the page first."
    };
    words.push_str(rest);
    if worst > 0.0 {
        let _ = write!(words, " At the worst spot {} is missing.", say(worst));
    }
    words
}

fn work(flow: &Flow, model: &Model, plans: &Sides<CutPlan>) -> Vec<String> {
    let metal = &model.car.metal;
    let any = |of: fn(&CutSpan) -> bool| {
        plans
            .iter()
            .any(|(_, plan)| plan.rows.iter().flat_map(|row| &row.spans).any(of))
    };
    let moves = model.car.sides.iter().any(|(_, spec)| spec.seam_move > 0.0);
    let mut steps = vec![
        "Strip sealer and undercoating along the seam and along every line, to bare metal, far enough to see the spot welds.".to_owned(),
        "Mark the angles, then the distances of the list at each angle. Join the marks with a bendable strip of metal or tape. Each row stands for the sheet halfway to its neighbors: where two rows differ, follow the one that takes more.".to_owned(),
        "Bolt or tack a brace across the opening, lip to rail side, before anything is cut, and measure across it: it must be the same when you are done.".to_owned(),
    ];
    if moves {
        steps.push("Drill the spot welds of the seam through the tub's flange only, not through the outer half's. The outer half's flange stays: it carries the joint. Part the two with a thin chisel.".to_owned());
        steps.push("Free the tub where it meets the floor, the trunk and the front wall: spot welds where there are any, otherwise a cut that leaves a flange of a lap's width on the car.".to_owned());
        steps.push("Set the tub at its new place and clamp it. Front, rear and floor will not meet it: make closing pieces to fit from cardboard first. They are not on these sheets.".to_owned());
    }
    if any(|span| span.how == How::Saw) {
        steps.push(format!(
            "Make the first cut, {} short of the final trim at every edge. It is better to cut twice than to cut too much (common practice).",
            flow.say(metal.first_cut)
        ));
        steps.push("Try the mock-up at ride height, bump and droop. Then trim to the final line, only where it is needed, and try again.".to_owned());
        steps.push("What was cut out is closed with new sheet that stands clear of the line by at least what is missing there: cardboard first, then steel of the weld sheet's gauge, lapped and welded as the weld sheet says. It is not on the strip's pattern.".to_owned());
    }
    if any(|span| span.how == How::Dolly) {
        steps.push(format!(
            "Where the list says hammer and dolly, no more than {} is missing (common practice): work the sheet back in small steps, over a dolly, and try the mock-up often.",
            flow.say(metal.dolly)
        ));
    }
    if any(|span| span.how == How::Lip) {
        steps.push("The lip's flange holds quarter panel and outer half together. Roll it flat if that is enough. Where it has to be trimmed, weld the two sheets along the cut as you go, a little at a time, or the quarter loses its edge.".to_owned());
    }
    steps.push("File every edge round. Bare metal is primed the same day.".to_owned());
    steps
}

/// The sheet rolled out, with what is cut.
fn map(group: &mut Group, frame: View, model: &Model, plan: &CutPlan) {
    let (Some(first), Some(last)) = (plan.rows.first(), plan.rows.last()) else {
        return;
    };
    let turn = (last.angle - first.angle).max(f64::EPSILON);
    let out = plan
        .rows
        .iter()
        .map(|row| row.lip_to_seam)
        .fold(0.0, f64::max);
    let inboard = inboard(model, plan);
    let inner = View {
        x: frame.x + 24.0,
        y: frame.y + 6.0,
        width: frame.width - 30.0,
        height: frame.height - 16.0,
    };
    let scale = inner.height / (out + inboard);
    // Outboard is up, rear is on the left.
    let at = |angle: f64, along: f64| {
        vec2(
            inner.x + (angle - first.angle) / turn * inner.width,
            inner.y + (out + along) * scale,
        )
    };
    let edge = |of: &dyn Fn(&CutRow) -> f64| -> Vec<Vec2> {
        plan.rows.iter().map(|row| at(row.angle, of(row))).collect()
    };
    group.add(Role::Cut, Shape::line(edge(&|row| -row.lip_to_seam)));
    group.add(Role::CenterLine, Shape::line(edge(&|_| 0.0)));
    for row in &plan.rows {
        let spot = at(row.angle, inboard);
        let label = format!("{:.0}\u{b0}", degrees(row.angle).abs());
        words(group, vec2(spot.x, spot.y + 4.5), Anchor::Middle, &label);
        let tick = [at(row.angle, -row.lip_to_seam), at(row.angle, inboard)];
        group.add(Role::Grid, Shape::line(tick));
        for span in &row.spans {
            put_span(group, row, span, &at);
        }
    }
    for zone in model
        .car
        .no_cut
        .iter()
        .filter(|zone| zone.side == plan.side)
    {
        let [rear, front] = zone
            .angles
            .map(|angle| angle.clamp(first.angle, last.angle));
        let [from, to] = zone.along;
        group.add(Role::NoCut, rectangle(at(rear, from), at(front, to)));
        let spot = at(f64::midpoint(rear, front), f64::midpoint(from, to));
        words(group, spot, Anchor::Middle, &zone.name);
    }
    let label = |group: &mut Group, along: f64, text: &str| {
        let spot = at(first.angle, along);
        words(group, vec2(inner.x - 2.5, spot.y + 1.0), Anchor::End, text);
    };
    label(group, -first.lip_to_seam, "lip");
    label(group, 0.0, "seam");
    label(group, inboard, "inboard");
    for (angle, word) in [(first.angle, "behind"), (last.angle, "ahead")] {
        let spot = at(angle, inboard);
        words(group, vec2(spot.x, spot.y + 9.0), Anchor::Middle, word);
    }
    let up = at(0.0, inboard);
    words(group, vec2(up.x, up.y + 9.0), Anchor::Middle, "straight up");
}

/// One piece that stands in the way: hatched from half its row's sector to the other, the first cut in heavy lines.
fn put_span(group: &mut Group, row: &CutRow, span: &CutSpan, at: &dyn Fn(f64, f64) -> Vec2) {
    const HATCH: f64 = 2.2;
    let [rear, front] = row.sector;
    let [from, to] = span.trim;
    let (a, b) = (at(rear, from), at(front, to));
    group.add(Role::Border, rectangle(a, b));
    let height = b.y - a.y;
    let mut lines = Vec::new();
    let mut x = a.x - height;
    while x < b.x {
        // A stroke at 45 degrees, cut off at the sides.
        let (low, high) = ((a.x - x).max(0.0), (b.x - x).min(height));
        if high > low {
            lines.push(vec![vec2(x + low, b.y - low), vec2(x + high, b.y - high)]);
        }
        x += HATCH;
    }
    group.add(Role::Overlap, Shape::Lines(lines));
    for along in span.first.into_iter().flatten() {
        group.add(Role::Cut, Shape::line([at(rear, along), at(front, along)]));
    }
}

/// How far inboard of the seam the sheet reaches along its longest row, mm.
fn inboard(model: &Model, plan: &CutPlan) -> f64 {
    let side: Side = plan.side;
    let reach = model
        .stock_wheelhouses
        .get(side)
        .stations
        .iter()
        .map(|station| {
            station.points[station.seam..]
                .windows(2)
                .map(|ends| (ends[1] - ends[0]).length())
                .sum::<f64>()
        });
    reach.fold(0.0, f64::max)
}
