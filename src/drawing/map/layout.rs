//! Where the map's plot lies on its sheet. One sheet unit is a CSS pixel.

use geometry::sheet::SheetMap;
use geometry::space::{Vec2, vec2};

use super::MapOptions;
use crate::scene::View;

/// The narrowest and the widest that a map is laid out for, pixels.
const WIDTH: (f64, f64) = (280.0, 2000.0);
/// Above the plot, for the head.
pub const HEAD: f64 = 40.0;
/// Left of the plot, for lengths, and under it, for angles.
pub const LENGTHS: f64 = 72.0;
pub const ANGLES: f64 = 44.0;
/// Right of it, for the surfaces' names.
pub const NAMES: f64 = 92.0;
/// A row of the legend.
pub const ROW: f64 = 18.0;
/// Columns of the legend are at least so wide.
const LEGEND: f64 = 150.0;

/// The plot on the sheet, and what its axes span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layout {
    /// The whole sheet.
    pub view: View,
    /// Left, top, right and bottom edge of the plot.
    pub plot: [f64; 4],
    /// The first and the last angle, radians.
    pub angles: [f64; 2],
    /// The greatest distance along the sheet, mm.
    pub along: f64,
    /// Columns and rows of the legend.
    pub legend: [usize; 2],
}

impl Layout {
    /// The layout of a map; `entries` in its legend. Nothing where there is nothing to be unrolled.
    pub fn new(options: &MapOptions, map: &SheetMap, entries: usize) -> Option<Self> {
        let angles = [*map.angles.first()?, *map.angles.last()?];
        let along = map.nodes.iter().map(|node| node.along).fold(0.0, f64::max);
        if !(angles[1] > angles[0] && along > 0.0) {
            return None;
        }
        let width = if options.width.is_finite() {
            options.width.clamp(WIDTH.0, WIDTH.1)
        } else {
            720.0
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between one and a dozen"
        )]
        let columns = ((width / LEGEND).floor() as usize).clamp(1, entries.max(1));
        let rows = entries.div_ceil(columns);
        let height = (width * 0.62).clamp(260.0, 480.0);
        let bottom = HEAD + height;
        Some(Self {
            view: View {
                x: 0.0,
                y: 0.0,
                width,
                height: bottom + ANGLES + ROW * rows as f64 + 8.0,
            },
            plot: [LENGTHS, HEAD, width - NAMES, bottom],
            angles,
            along,
            legend: [columns, rows],
        })
    }

    /// A spot of the sheet metal, by its angle and its distance along it from the lip, on the sheet.
    pub fn at(&self, angle: f64, along: f64) -> Vec2 {
        let [left, top, right, bottom] = self.plot;
        let across = (angle - self.angles[0]) / (self.angles[1] - self.angles[0]);
        vec2(
            left + (right - left) * across,
            bottom - (bottom - top) * along / self.along,
        )
    }

    /// The angle of a point of the sheet, if it is in the plot.
    pub fn angle(&self, at: Vec2) -> Option<f64> {
        let [left, top, right, bottom] = self.plot;
        let inside = (left..=right).contains(&at.x) && (top..=bottom).contains(&at.y);
        inside.then(|| {
            self.angles[0] + (self.angles[1] - self.angles[0]) * (at.x - left) / (right - left)
        })
    }
}
