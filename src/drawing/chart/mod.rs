//! Charts, drawn by plotters onto our own sheet: they get roles, and with them the drawings' style.

pub(crate) mod backend;
pub(crate) mod scale;
pub mod table;
pub mod travel;

use std::ops::RangeInclusive;

use crate::scene::View;

/// The sheet of a chart that is shown `width` CSS pixels wide, so high a share of it as `heights` lets it be; of a middling
/// size where the width is no number.
pub(crate) fn sheet(width: f64, share: f64, heights: RangeInclusive<f64>) -> View {
    let width = if width.is_finite() {
        width.clamp(260.0, 2000.0)
    } else {
        640.0
    };
    View {
        x: 0.0,
        y: 0.0,
        width,
        height: (width * share).clamp(*heights.start(), *heights.end()),
    }
}
