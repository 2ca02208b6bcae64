//! The map's axes, drawn by plotters onto our own sheet.

use geometry::units::{degrees, format_length, radians};
use plotters::prelude::*;

use super::Draft;
use super::layout::{ANGLES, HEAD, LENGTHS, NAMES};
use crate::chart::backend::{FINE, SceneBackend, color};
use crate::chart::scale::{Axis, marks};
use crate::role::Role;
use crate::scene::Group;

/// Lettering of the axes, pixels.
pub const LETTERS: f64 = 12.0;

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a map's size is bounded above"
)]
pub fn draw(draft: &Draft, group: &mut Group) -> Result<(), Box<dyn std::error::Error>> {
    let layout = &draft.layout;
    let fine = |pixels: f64| (pixels * FINE) as u32;
    let size = (fine(layout.view.width), fine(layout.view.height));
    let root = SceneBackend::new(group, size).into_drawing_area();
    let under = layout.view.height - layout.plot[3] - ANGLES;
    let along = Axis {
        ends: [0.0, layout.along],
        marks: marks(
            0.0,
            layout.along,
            (layout.plot[3] - layout.plot[1]) / 44.0,
            draft.options.notation,
        ),
    };
    let angles = Axis {
        ends: layout.angles,
        marks: angle_marks(layout.angles, layout.plot[2] - layout.plot[0]),
    };
    let mut plot = ChartBuilder::on(&root)
        .margin_top(fine(HEAD))
        .margin_bottom(fine(under))
        .margin_right(fine(NAMES))
        .x_label_area_size(fine(ANGLES))
        .y_label_area_size(fine(LENGTHS))
        .build_cartesian_2d(angles, along)?;
    let letters = TextStyle::from(("sans-serif", LETTERS * FINE)).with_color(color(Role::Note));
    plot.configure_mesh()
        .max_light_lines(0)
        .bold_line_style(color(Role::Grid))
        .axis_style(color(Role::Axis))
        .label_style(letters)
        .x_label_formatter(&|angle: &f64| format!("{:.0}\u{b0}", degrees(angle.abs())))
        .y_label_formatter(&|mm: &f64| format_length(*mm, draft.options.notation))
        .x_desc("behind \u{2190} straight up \u{2192} ahead")
        .set_all_tick_mark_size((3.0 * FINE) as i32)
        .draw()?;
    root.present()?;
    Ok(())
}

/// Multiples of 15 degrees, or of 30 where those would crowd.
fn angle_marks([from, to]: [f64; 2], width: f64) -> Vec<f64> {
    let apart = width * radians(15.0) / (to - from);
    let step = if apart > 34.0 { 15.0 } else { 30.0 };
    let mut marks = Vec::new();
    let mut mark = (degrees(from) / step - 1e-6).ceil();
    while mark * step <= degrees(to) + 1e-6 && marks.len() < 64 {
        marks.push(radians(mark * step).clamp(from, to));
        mark += 1.0;
    }
    marks
}
