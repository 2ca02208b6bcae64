//! The cut sheet's maps: the sheet rolled out, with what stands in the way and how it is dealt with.

use std::f64::consts::FRAC_PI_4;

use geometry::metal::{CutPlan, CutRow, CutSpan, How};
use geometry::model::Model;
use geometry::side::Sides;
use geometry::space::{Vec2, vec2};
use geometry::units::{MM_PER_INCH, Notation, degrees, format_length};

use super::cut::letter;
use super::flow::rectangle;
use super::plot::{balloon, words};
use crate::hatch::Hatch;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape, View};

/// Height of a map, mm.
pub(super) const HEIGHT: f64 = 70.0;
/// What a row of the legend takes, mm.
const LEGEND_ROW: f64 = 6.0;
/// A sample of the legend, mm.
const SAMPLE: Vec2 = Vec2 { x: 12.0, y: 4.0 };

/// The sheet rolled out; whether it is a plan, and the notation of its scale.
pub(super) fn map(
    group: &mut Group,
    frame: View,
    model: &Model,
    plan: &CutPlan,
    (ready, notation): (bool, Notation),
) {
    let (Some(first), Some(last)) = (plan.rows.first(), plan.rows.last()) else {
        return;
    };
    let turn = (last.angle - first.angle).max(f64::EPSILON);
    let seams = plan.rows.iter().map(|row| row.lip_to_seam);
    let out = seams.fold(0.0, f64::max);
    let inboard = inboard(model, plan);
    let inner = View {
        x: frame.x + 24.0,
        y: frame.y + 6.0,
        width: frame.width - 52.0,
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
            put_span(group, row, span, ready, &at);
        }
    }
    let zones = model.car.no_cut.iter().enumerate();
    for (index, zone) in zones.filter(|(_, zone)| zone.side == plan.side) {
        let [rear, front] = zone
            .angles
            .map(|angle| angle.clamp(first.angle, last.angle));
        let [from, to] = zone.along.map(|along| along.clamp(-out, inboard));
        group.add(Role::NoCut, rectangle(at(rear, from), at(front, to)));
        let spot = at(f64::midpoint(rear, front), f64::midpoint(from, to));
        balloon(group, spot, letter(index));
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
    let right = inner.x + inner.width + 5.0;
    ruler(group, [-out, inboard], notation, &|along| {
        vec2(right, at(0.0, along).y)
    });
}

/// The scale of distances along the sheet, counted from the seam both ways.
fn ruler(group: &mut Group, [from, to]: [f64; 2], notation: Notation, at: &dyn Fn(f64) -> Vec2) {
    let step = match notation {
        Notation::Millimeters => 100.0,
        Notation::InchFractions | Notation::InchDecimals => 4.0 * MM_PER_INCH,
    };
    group.add(Role::Axis, Shape::line([at(from), at(to)]));
    let mut along = (from / step).ceil() * step;
    while along <= to {
        let spot = at(along);
        group.add(Role::Axis, Shape::line([spot, vec2(spot.x + 2.0, spot.y)]));
        let label = format_length(along.abs(), notation);
        words(
            group,
            vec2(spot.x + 3.0, spot.y + 1.0),
            Anchor::Start,
            &label,
        );
        along += step;
    }
}

/// One piece that stands in the way: hatched from half its row's sector to the other, the first cut in heavy lines.
fn put_span(
    group: &mut Group,
    row: &CutRow,
    span: &CutSpan,
    ready: bool,
    at: &dyn Fn(f64, f64) -> Vec2,
) {
    let [rear, front] = row.sector;
    let [from, to] = span.trim;
    hatch(group, span.how, [at(rear, from), at(front, to)]);
    for along in span.first.into_iter().flatten().filter(|_| ready) {
        group.add(Role::Cut, Shape::line([at(rear, along), at(front, along)]));
    }
}

/// The hatching of each way to deal with what stands in the way: told apart without color.
fn hatch(group: &mut Group, how: How, [a, b]: [Vec2; 2]) {
    let (role, strokes): (Role, &[(f64, f64)]) = match how {
        How::Saw => (Role::Overlap, &[(-FRAC_PI_4, 1.6)]),
        How::Dolly => (Role::TightTicks, &[(FRAC_PI_4, 3.2)]),
        How::Lip => (Role::TightTicks, &[(2.0 * FRAC_PI_4, 1.6)]),
        How::Stop => (Role::Dimension, &[(-FRAC_PI_4, 1.6), (FRAC_PI_4, 1.6)]),
    };
    let corners = [a, vec2(b.x, a.y), b, vec2(a.x, b.y)];
    let lines = strokes
        .iter()
        .flat_map(|&(angle, spacing)| Hatch { angle, spacing }.inside(&corners));
    group.add(role, Shape::Lines(lines.collect()));
    group.add(Role::Border, rectangle(a, b));
}

/// What the maps' marks mean: of those that are on them.
pub(super) struct Legend {
    rows: Vec<(Mark, &'static str)>,
}

/// A mark of the maps.
#[derive(Clone, Copy)]
enum Mark {
    Hatch(How),
    FirstCut,
    Seam,
    Zone,
}

impl Legend {
    pub fn of(model: &Model, plans: &Sides<CutPlan>, ready: bool) -> Self {
        let spans = || plans.iter().flat_map(|(_, plan)| plan.spans());
        let hatches = [
            (
                How::Saw,
                if ready {
                    "saw: the final trim"
                } else {
                    "stands in the way: do not cut yet"
                },
            ),
            (How::Dolly, "hammer and dolly: no cut"),
            (How::Lip, "lip: roll it, or trim it"),
            (How::Stop, "STOP: in the way, and not to be cut"),
        ];
        let mut rows: Vec<(Mark, &'static str)> = hatches
            .into_iter()
            .filter(|(how, _)| spans().any(|span| span.how == *how))
            .map(|(how, words)| (Mark::Hatch(how), words))
            .collect();
        if ready && spans().any(|span| span.first.is_some()) {
            rows.push((Mark::FirstCut, "between these lines: the first cut"));
        }
        rows.push((Mark::Seam, "the factory's seam"));
        if !model.car.no_cut.is_empty() {
            rows.push((Mark::Zone, "no-cut zone, with its letter"));
        }
        Self { rows }
    }

    pub fn height(&self) -> f64 {
        self.rows.len().div_ceil(2) as f64 * LEGEND_ROW
    }

    pub fn draw(&self, group: &mut Group, frame: View) {
        for (index, (mark, text)) in self.rows.iter().enumerate() {
            let column = (index % 2) as f64 * frame.width / 2.0;
            let a = vec2(frame.x + column, frame.y + (index / 2) as f64 * LEGEND_ROW);
            let b = a + SAMPLE;
            let middle = a.lerp(b, 0.5).y;
            match *mark {
                Mark::Hatch(how) => hatch(group, how, [a, b]),
                Mark::FirstCut => {
                    for y in [a.y, b.y] {
                        group.add(Role::Cut, Shape::line([vec2(a.x, y), vec2(b.x, y)]));
                    }
                }
                Mark::Seam => {
                    let line = [vec2(a.x, middle), vec2(b.x, middle)];
                    group.add(Role::CenterLine, Shape::line(line));
                }
                Mark::Zone => group.add(Role::NoCut, rectangle(a, b)),
            }
            words(group, vec2(b.x + 2.0, middle + 1.1), Anchor::Start, text);
        }
    }
}

/// How far inboard of the seam the sheet reaches along its longest row, mm.
fn inboard(model: &Model, plan: &CutPlan) -> f64 {
    let stations = &model.stock_wheelhouses.get(plan.side).stations;
    let reach = stations
        .iter()
        .map(|station| station.lengths().skip(station.seam).sum::<f64>());
    reach.fold(0.0, f64::max)
}
