//! What part of the sheet the rear view shows, and how large lettering is on it.
//!
//! The frame follows the body all round the wheel, not the tire and not the section's angle, and steps in whole
//! steps: it must not breathe while a lever is dragged or the section swung.

use geometry::model::Model;
use geometry::side::Side;

use super::{RearOptions, Shown};
use crate::lettering::Lettering;
use crate::scene::View;

/// The frame grows in steps of this, mm.
const STEP: f64 = 50.0;
/// Shown beyond the lip, mm: a tire may stand out that far.
const BESIDE: f64 = 60.0;
/// Shown of the other side when one side is looked at, mm.
const BEYOND_CENTER: f64 = 30.0;
/// The least that is taken for the car's half width, mm, so that no body makes a frame of nothing.
const LEAST: f64 = 400.0;
/// Room for lettering above the wheelhouse and below the ground, pixels.
const ABOVE: f64 = 104.0;
const BELOW: f64 = 50.0;

/// The frame and the size of its lettering.
pub struct Frame {
    /// What is shown.
    pub view: View,
    /// What a pixel is.
    pub lettering: Lettering,
}

/// The frame for a model.
pub fn frame(model: &Model, options: &RearOptions) -> Frame {
    let shown: &[Side] = match options.shown {
        Shown::Both => &Side::BOTH,
        Shown::One(Side::Left) => &[Side::Left],
        Shown::One(Side::Right) => &[Side::Right],
    };
    let (mut out, mut top) = (LEAST, LEAST);
    for &side in shown {
        let tables = [&model.stock_wheelhouses, &model.wheelhouses];
        for point in tables
            .iter()
            .flat_map(|table| &table.get(side).stations)
            .flat_map(|station| &station.points)
            .filter(|point| point.is_finite())
        {
            out = out.max(point.x);
            top = top.max(point.y);
        }
        top = top.max(model.rails.get(side).top);
    }
    let out = step_up(out + BESIDE);
    let top = step_up(top);
    // A swung section shows the tire unpressed.
    let bottom = step_up(-model.ground() + model.deflection);

    let (x, width) = match options.shown {
        Shown::Both => (-out, 2.0 * out),
        Shown::One(Side::Left) => (-out, out + BEYOND_CENTER),
        Shown::One(Side::Right) => (-BEYOND_CENTER, out + BEYOND_CENTER),
    };
    let pixels = if options.width.is_finite() {
        options.width.clamp(200.0, 4000.0)
    } else {
        1100.0
    };
    let lettering = Lettering {
        pixel: width / pixels,
    };
    let y = -top - lettering.px(ABOVE);
    let view = View {
        x,
        y,
        width,
        height: bottom + lettering.px(BELOW) - y,
    };
    Frame { view, lettering }
}

/// The next step at or above a length; a step for what is no length.
fn step_up(length: f64) -> f64 {
    ((length.clamp(STEP, 5000.0)) / STEP).ceil().max(1.0) * STEP
}
