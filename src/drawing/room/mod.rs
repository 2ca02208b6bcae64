//! The room chart: section width against backspacing, and where the tire hits, is tight and clears.

mod regions;
mod words;

use geometry::room::{RoomChart, RowRoom};
use geometry::space::{Vec2, vec2};
use geometry::units::{Notation, format_length};
use plotters::prelude::*;

use crate::chart::backend::{FINE, SceneBackend, color, on_sheet};
use crate::chart::scale::{Axis, marks};
use crate::chart::sheet;
use crate::lettering;
use crate::role::Role;
use crate::scene::{Anchor, Group, Scene, Shape, View};
use regions::Regions;

pub use words::{RoomTable, room_finding, room_finding_with, room_rows, room_tub};

/// Lettering of the chart, pixels.
const LETTERS: f64 = 12.0;
/// Wheels are drilled for backspacings so far apart, mm (half an inch; common practice, no source).
const WHEEL_STEP: f64 = 12.7;

/// What is drawn. One sheet unit is a CSS pixel.
#[derive(Debug, Clone, Copy)]
pub struct RoomOptions {
    /// Whether the tub is the moved one.
    pub moved: bool,
    /// How lengths are written.
    pub notation: Notation,
    /// How wide the chart is shown, CSS pixels.
    pub width: f64,
}

impl Default for RoomOptions {
    fn default() -> Self {
        Self {
            moved: false,
            notation: Notation::default(),
            width: 640.0,
        }
    }
}

/// Draws the chart with the tub in one of its two places.
#[must_use]
pub fn room_chart(chart: &RoomChart, options: &RoomOptions) -> Scene {
    let view = sheet(options.width, 0.62, 240.0..=520.0);
    let mut frame = Group::new("frame", None);
    let mut regions = Group::new("regions", Some("Where the tire hits, is tight and clears"));
    let mut wheel = Group::new("wheel", Some("The wheel that is on the car"));
    // Drawing into memory cannot fail; were plotters to refuse, the chart would stay empty.
    let _ = draw(chart, options, view, [&mut frame, &mut regions, &mut wheel]);
    Scene {
        name: if options.moved {
            "room-moved"
        } else {
            "room-stock"
        },
        title: room_finding_with(chart, options.moved, options.notation),
        description: format!(
            "Section width against backspacing, {}: hatched close where the tire hits, wide where it is tight, open where it clears.",
            room_tub(chart, options.moved, options.notation)
        ),
        view,
        groups: vec![regions, frame, wheel],
        handles: Vec::new(),
    }
}

/// Backspacing and section width at a point of a chart of this size, mm; nothing beside its plot.
#[must_use]
pub fn room_place(chart: &RoomChart, scene: &Scene, at: Vec2) -> Option<[f64; 2]> {
    let plot = Plot::of(scene.view);
    let share = [
        (at.x - plot.left) / (plot.right - plot.left),
        (plot.bottom - at.y) / (plot.bottom - plot.top),
    ];
    let inside = share.iter().all(|share| (0.0..=1.0).contains(share));
    let value = |[from, to]: [f64; 2], share: f64| from + (to - from) * share;
    inside.then(|| {
        [
            value(chart.options.backspacings, share[0]),
            value(chart.options.widths, share[1]),
        ]
    })
}

/// Where a backspacing and a section width, mm, lie on a chart of this size; nothing beside its plot.
#[must_use]
pub fn room_spot(chart: &RoomChart, scene: &Scene, [backspacing, width]: [f64; 2]) -> Option<Vec2> {
    let within = |value: f64, [from, to]: [f64; 2]| (from..=to).contains(&value);
    let inside =
        within(backspacing, chart.options.backspacings) && within(width, chart.options.widths);
    inside.then(|| Plot::of(scene.view).at(chart, [backspacing, width]))
}

/// One tub's rows with their widths, those left out of which no tire can be made.
fn rows(chart: &RoomChart, moved: bool) -> Vec<(f64, &RowRoom)> {
    chart
        .rows
        .iter()
        .filter_map(|row| {
            let room = if moved { &row.moved } else { &row.stock };
            Some((row.width, room.as_ref()?))
        })
        .collect()
}

/// Where the plot lies on the sheet.
#[derive(Debug, Clone, Copy)]
struct Plot {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Plot {
    const MARGIN: f64 = 12.0;
    const BELOW: f64 = 40.0;
    const BESIDE: f64 = 62.0;

    fn of(view: View) -> Self {
        Self {
            left: Self::BESIDE,
            right: view.width - Self::MARGIN,
            top: Self::MARGIN,
            bottom: view.height - Self::BELOW - 4.0,
        }
    }

    /// A place of the chart on the sheet.
    fn at(&self, chart: &RoomChart, [backspacing, width]: [f64; 2]) -> Vec2 {
        let share = |value: f64, [from, to]: [f64; 2]| (value - from) / (to - from);
        vec2(
            self.left + (self.right - self.left) * share(backspacing, chart.options.backspacings),
            self.bottom - (self.bottom - self.top) * share(width, chart.options.widths),
        )
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a chart's size is bounded above"
)]
fn draw(
    chart: &RoomChart,
    options: &RoomOptions,
    view: View,
    [frame, regions, wheel]: [&mut Group; 3],
) -> Result<(), Box<dyn std::error::Error>> {
    let plot = Plot::of(view);
    let fine = |pixels: f64| (pixels * FINE) as u32;
    let (across, up) = (chart.options.backspacings, chart.options.widths);
    if !(across[1] > across[0] && up[1] > up[0]) {
        return Ok(());
    }
    let root = SceneBackend::new(frame, (fine(view.width), fine(view.height))).into_drawing_area();
    let length = |mm: &f64| format_length(*mm, options.notation);
    let axis = |ends: [f64; 2], count| Axis {
        ends,
        marks: marks(ends[0], ends[1], count, options.notation),
    };
    let mut mesh = ChartBuilder::on(&root)
        .margin_top(fine(plot.top))
        .margin_bottom(fine(4.0))
        .margin_right(fine(Plot::MARGIN))
        .x_label_area_size(fine(Plot::BELOW))
        .y_label_area_size(fine(Plot::BESIDE))
        .build_cartesian_2d(
            axis(across, view.width / 100.0),
            axis(up, view.height / 46.0),
        )?;
    let letters = TextStyle::from(("sans-serif", LETTERS * FINE)).with_color(color(Role::Note));
    mesh.configure_mesh()
        .max_light_lines(0)
        .bold_line_style(color(Role::Grid))
        .axis_style(color(Role::Axis))
        .label_style(letters)
        .x_label_formatter(&length)
        .y_label_formatter(&length)
        .x_desc("backspacing; short marks where wheels come")
        .set_all_tick_mark_size((3.0 * FINE) as i32)
        .draw()?;
    let ends = [
        on_sheet(mesh.backend_coord(&(across[0], up[0]))),
        on_sheet(mesh.backend_coord(&(across[1], up[1]))),
    ];
    root.present()?;
    drop(mesh);
    drop(root);

    let plot = Plot {
        left: ends[0].x,
        right: ends[1].x,
        top: ends[1].y,
        bottom: ends[0].y,
    };
    wheel_steps(chart, plot, frame);
    note(
        frame,
        vec2(plot.left + 6.0, plot.top + 14.0),
        "section width",
    );
    let rows = rows(chart, options.moved);
    if let Some((last, _)) = rows.last().filter(|(last, _)| *last < up[1]) {
        let edge = plot.at(chart, [across[0], *last]);
        note(
            frame,
            vec2(edge.x + 6.0, edge.y - 6.0),
            "above: no such tire on this rim",
        );
    }
    let mark = plot.at(chart, chart.present);
    Regions::of(&rows, across).draw(&|place| plot.at(chart, place), mark, regions);
    present(chart, plot, wheel);
    Ok(())
}

/// Short marks on the lower axis at the backspacings that wheels come in.
fn wheel_steps(chart: &RoomChart, plot: Plot, frame: &mut Group) {
    let [from, to] = chart.options.backspacings;
    let mut step = (from / WHEEL_STEP).ceil();
    let mut lines = Vec::new();
    while step * WHEEL_STEP <= to && lines.len() < 100 {
        let foot = plot.at(chart, [step * WHEEL_STEP, chart.options.widths[0]]);
        lines.push(vec![foot, vec2(foot.x, foot.y - 7.0)]);
        step += 1.0;
    }
    frame.add(Role::Axis, Shape::Lines(lines));
}

/// The wheel that is on the car: lines to both axes, and a spot where they cross.
fn present(chart: &RoomChart, plot: Plot, group: &mut Group) {
    let at = plot.at(chart, chart.present);
    let inside =
        (plot.left..=plot.right).contains(&at.x) && (plot.top..=plot.bottom).contains(&at.y);
    if !inside {
        return;
    }
    group.add(
        Role::Now,
        Shape::Lines(vec![
            vec![vec2(plot.left, at.y), vec2(plot.right, at.y)],
            vec![vec2(at.x, plot.top), vec2(at.x, plot.bottom)],
        ]),
    );
    group.add(
        Role::Spot,
        Shape::Circle {
            center: at,
            radius: 5.0,
        },
    );
    let text = "on the car now";
    let fits = at.x + 10.0 + lettering::width(text, LETTERS) < plot.right;
    group.add(
        Role::Text,
        Shape::Text {
            at: vec2(at.x + if fits { 10.0 } else { -10.0 }, at.y - 8.0),
            anchor: if fits { Anchor::Start } else { Anchor::End },
            size: LETTERS,
            text: text.to_owned(),
        },
    );
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
