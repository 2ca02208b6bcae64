//! Each surface's gap through travel, as a chart and as the sentence it proves.

use geometry::car::Targets;
use geometry::space::{Vec2, vec2};
use geometry::sweep::TravelCurve;
use geometry::units::{Notation, format_length};
use plotters::prelude::*;

use super::backend::{FINE, SceneBackend, color, on_sheet};
use super::scale::{Axis, marks};
use super::{sheet, table};
use crate::label::{Wish, place};
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Scene, Shape, View};

pub use super::table::{TravelTable, travel_rows};

/// Lettering of a chart, pixels.
const LETTERS: f64 = 12.0;
/// Height of a curve's label, pixels.
const LABEL: f64 = 15.0;
/// From the end of a curve to its label, pixels.
const LEADER: f64 = 16.0;

/// What a chart of the gaps through travel shows. One sheet unit is a CSS pixel.
#[derive(Debug, Clone, Copy)]
pub struct TravelChart<'a> {
    /// Each surface's gap, all over the same heights.
    pub curves: &'a [TravelCurve],
    /// The gaps asked for.
    pub targets: &'a Targets,
    /// How lengths are written.
    pub notation: Notation,
    /// Where the wheels stand now, mm above ride height, if that is to be marked.
    pub now: Option<f64>,
    /// How wide the chart is shown, CSS pixels.
    pub width: f64,
}

/// Draws the chart.
#[must_use]
pub fn travel_chart(chart: &TravelChart) -> Scene {
    let view = sheet(chart.width, 0.5, 220.0..=420.0);
    let mut frame = Group::new("frame", None);
    let mut curves = Group::new("curves", Some("Each surface's gap against travel"));
    if let Some(range) = Range::of(chart) {
        // Drawing into memory cannot fail; were plotters to refuse, the chart would stay empty.
        let _ = draw(chart, &range, view, &mut frame, &mut curves);
    }
    Scene {
        name: "travel",
        title: travel_finding(chart.curves, chart.targets, chart.notation),
        description:
            "Gap of each surface as both wheels rise together from full droop to full bump."
                .to_owned(),
        view,
        groups: vec![frame, curves],
        handles: Vec::new(),
    }
}

/// What the chart shows, in one sentence.
#[must_use]
pub fn travel_finding(curves: &[TravelCurve], targets: &Targets, notation: Notation) -> String {
    table::finding(curves, targets, notation)
}

/// What the axes span, mm.
struct Range {
    travel: [f64; 2],
    gap: [f64; 2],
}

impl Range {
    fn of(chart: &TravelChart) -> Option<Self> {
        let all = || {
            chart
                .curves
                .iter()
                .flat_map(|curve| &curve.points)
                .filter(|(t, g)| t.is_finite() && g.is_finite())
        };
        let least = |curve: &TravelCurve| {
            curve
                .points
                .iter()
                .map(|&(_, gap)| gap)
                .fold(f64::INFINITY, f64::min)
        };
        let travel = all().fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], &(t, _)| {
            [a.min(t), b.max(t)]
        });
        let low = all().map(|&(_, gap)| gap).fold(0.0, f64::min);
        // Every curve shows at least its least gap; what is far above concerns nobody.
        let high = chart
            .curves
            .iter()
            .map(least)
            .filter(|gap| gap.is_finite())
            .fold(chart.targets.travel * 1.6, f64::max);
        let room = (high - low) * 0.12 + 1.0;
        (travel[1] > travel[0]).then_some(Self {
            travel,
            gap: [low - room, high + room],
        })
    }

    /// The parts of a curve below the upper edge.
    fn clip(&self, points: &[(f64, f64)]) -> Vec<Vec<(f64, f64)>> {
        let top = self.gap[1];
        let mut parts = vec![Vec::new()];
        for pair in points.windows(2) {
            let [a, b] = [pair[0], pair[1]];
            let cross = || (a.0 + (b.0 - a.0) * (top - a.1) / (b.1 - a.1), top);
            let ends = match (a.1 <= top, b.1 <= top) {
                (true, true) => [a, b],
                (true, false) => [a, cross()],
                (false, true) => [cross(), b],
                (false, false) => continue,
            };
            match parts.last_mut() {
                Some(part) if part.last() == Some(&ends[0]) => part.push(ends[1]),
                _ => parts.push(ends.to_vec()),
            }
        }
        parts.retain(|part| {
            !part.is_empty() && part.iter().all(|(t, g)| t.is_finite() && g.is_finite())
        });
        parts
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a chart's size is bounded above"
)]
fn draw(
    chart: &TravelChart,
    range: &Range,
    view: View,
    frame: &mut Group,
    curves: &mut Group,
) -> Result<(), Box<dyn std::error::Error>> {
    let size = ((view.width * FINE) as u32, (view.height * FINE) as u32);
    let fine = |pixels: f64| (pixels * FINE) as u32;
    let beside = chart
        .curves
        .iter()
        .map(|curve| width(&curve.name, LETTERS) + width(", above", LETTERS))
        .fold(0.0, f64::max);
    let backend = SceneBackend::new(frame, size);
    let root = backend.into_drawing_area();
    let length = |mm: &f64| format_length(*mm, chart.notation);
    let axis = |ends: [f64; 2], count| Axis {
        ends,
        marks: marks(ends[0], ends[1], count, chart.notation),
    };
    let mut plot = ChartBuilder::on(&root)
        .margin_top(fine(10.0))
        .margin_bottom(fine(5.0))
        .margin_right(fine((beside + LEADER + 6.0).min(view.width * 0.4)))
        .x_label_area_size(fine(40.0))
        .y_label_area_size(fine(58.0))
        .build_cartesian_2d(
            axis(range.travel, view.width / 110.0),
            axis(range.gap, view.height / 46.0),
        )?;
    let letters = TextStyle::from(("sans-serif", LETTERS * FINE)).with_color(color(Role::Note));
    plot.configure_mesh()
        .max_light_lines(0)
        .bold_line_style(color(Role::Grid))
        .axis_style(color(Role::Axis))
        .label_style(letters)
        .x_label_formatter(&length)
        .y_label_formatter(&length)
        .x_desc("both wheels, above ride height")
        .set_all_tick_mark_size((3.0 * FINE) as i32)
        .draw()?;

    let across = |gap: f64| vec![(range.travel[0], gap), (range.travel[1], gap)];
    plot.draw_series(LineSeries::new(across(0.0), color(Role::Zero)))?;
    if chart.targets.travel < range.gap[1] {
        plot.draw_series(LineSeries::new(
            across(chart.targets.travel),
            color(Role::Target),
        ))?;
    }
    if let Some(now) = chart
        .now
        .filter(|now| (range.travel[0]..=range.travel[1]).contains(now))
    {
        plot.draw_series(LineSeries::new(
            [(now, range.gap[0]), (now, range.gap[1])],
            color(Role::Now),
        ))?;
    }
    let at = |point: (f64, f64)| on_sheet(plot.backend_coord(&point));
    let corner = at((range.travel[0], range.gap[1]));
    let edge = at((range.travel[1], range.gap[0]));
    let zero = at((range.travel[0], 0.0));
    let asked = at((range.travel[0], chart.targets.travel));
    let lines: Vec<Vec<Vec<Vec2>>> = chart
        .curves
        .iter()
        .map(|curve| {
            range
                .clip(&curve.points)
                .into_iter()
                .map(|part| part.into_iter().map(at).collect())
                .collect()
        })
        .collect();
    root.present()?;
    drop(plot);
    drop(root);

    note(frame, vec2(corner.x + 6.0, corner.y + 12.0), "gap");
    note(frame, vec2(zero.x + 6.0, zero.y - 4.0), "touching");
    note(frame, vec2(asked.x + 6.0, asked.y - 4.0), "asked for");
    draw_curves(chart, &lines, [corner.y, edge.y], edge.x, curves);
    Ok(())
}

fn note(group: &mut Group, at: Vec2, text: &str) {
    group.add(
        Role::Note,
        Shape::Text {
            at,
            anchor: Anchor::Start,
            size: LETTERS - 0.5,
            text: text.to_owned(),
        },
    );
}

/// The curves, each with its name beside its right end.
fn draw_curves(
    chart: &TravelChart,
    lines: &[Vec<Vec<Vec2>>],
    [top, bottom]: [f64; 2],
    edge: f64,
    group: &mut Group,
) {
    let ends: Vec<Option<Vec2>> = lines
        .iter()
        .map(|parts| parts.last()?.last().copied())
        .collect();
    let wishes: Vec<Wish> = ends
        .iter()
        .map(|end| Wish {
            middle: end.map_or(top, |end| end.y),
            height: LABEL,
        })
        .collect();
    let places = place(&wishes, top - LABEL / 2.0, bottom + LABEL / 2.0);
    for (index, (curve, (parts, middle))) in chart
        .curves
        .iter()
        .zip(lines.iter().zip(places))
        .enumerate()
    {
        let Some(end) = ends[index] else { continue };
        group.add(Role::curve(index), Shape::Lines(parts.clone()));
        let mut text = curve.name.clone();
        if end.x < edge - 1.0 {
            // It has left through the upper edge: a leader would cross half the chart.
            text.push_str(", above");
        } else {
            let near = vec2(edge + 3.0, middle);
            group.add(
                Role::Dimension,
                Shape::line([end, near, vec2(edge + LEADER - 4.0, middle)]),
            );
        }
        let at = vec2(edge + LEADER, middle + 0.36 * LETTERS);
        group.add(
            Role::Note,
            Shape::Text {
                at,
                anchor: Anchor::Start,
                size: LETTERS,
                text,
            },
        );
    }
}
