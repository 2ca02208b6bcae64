//! What part of the sheet the side view shows. It follows the body and steps in whole steps: it must not breathe.

use geometry::model::Model;

use super::SideOptions;
use crate::lettering::Lettering;
use crate::scene::View;

/// The ring grows in steps of this, mm.
const STEP: f64 = 25.0;
/// Between the sheet and the ring, mm.
const CLEAR: f64 = 18.0;
/// The least ring, mm, so that no body makes a frame of nothing.
const LEAST: f64 = 350.0;
/// From this width on the ring has room for gaps, pixels.
const ROOMY: f64 = 490.0;
/// From this width on the key has two columns, pixels.
const TWO_COLUMNS: f64 = 620.0;
/// How thick the ring is, with and without room for gaps, pixels.
const RING: [f64; 2] = [64.0, 44.0];
/// Beside the ring, and above it for the head, pixels.
const EDGE: f64 = 10.0;
const HEAD: f64 = 64.0;
/// Height of a row of the key, and of the legend, pixels.
pub const ROW: f64 = 18.0;
/// Between the ground and the key, pixels.
pub const UNDER_GROUND: f64 = 22.0;
/// How far the section's line runs past the ring, pixels.
const PAST: f64 = 6.0;
/// The narrowest and the widest that a drawing is laid out for, pixels.
const WIDTH: (f64, f64) = (280.0, 4000.0);

/// The frame of the drawing.
pub struct Frame {
    /// What is shown.
    pub view: View,
    /// What a pixel is.
    pub lettering: Lettering,
    /// The ring's inner and outer radius, mm.
    pub ring: [f64; 2],
    /// Height of the ground at ride height on the sheet.
    pub ground: f64,
    /// Whether there is room for gaps in the ring.
    pub is_roomy: bool,
    /// Columns of the key.
    pub columns: usize,
}

impl Frame {
    /// How far from the axle's line the section's line ends.
    pub fn section_end(&self) -> f64 {
        self.ring[1] + self.lettering.px(PAST)
    }
}

/// The frame for a side with so many surfaces.
pub fn frame(model: &Model, options: &SideOptions, surfaces: usize) -> Frame {
    let tables = [&model.stock_wheelhouses, &model.wheelhouses];
    let reach = tables
        .iter()
        .flat_map(|table| &table.get(options.side).stations)
        .flat_map(|station| &station.points)
        .filter(|point| point.is_finite())
        .fold(LEAST, |reach, point| reach.max(point.y));
    let inner = ((reach + CLEAR).min(5000.0) / STEP).ceil() * STEP;
    let pixels = if options.width.is_finite() {
        options.width.clamp(WIDTH.0, WIDTH.1)
    } else {
        720.0
    };
    let is_roomy = pixels >= ROOMY;
    let thickness = if is_roomy { RING[0] } else { RING[1] };
    let lettering = Lettering {
        pixel: 2.0 * inner / (pixels - 2.0 * (thickness + EDGE)),
    };
    let px = |count: f64| lettering.px(count);
    let outer = inner + px(thickness);
    let half = outer + px(EDGE);
    let ground = (-model.ground()).clamp(100.0, 2000.0);
    let is_wide = pixels >= TWO_COLUMNS;
    let columns = if is_wide { 2 } else { 1 };
    let rows = surfaces.div_ceil(columns) + if is_wide { 1 } else { 2 };
    let y = -outer - px(HEAD);
    Frame {
        view: View {
            x: -half,
            y,
            width: 2.0 * half,
            height: ground + px(UNDER_GROUND + ROW * rows as f64 + 8.0) - y,
        },
        lettering,
        ring: [inner, outer],
        ground,
        is_roomy,
        columns,
    }
}
