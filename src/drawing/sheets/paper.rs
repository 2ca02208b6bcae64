//! The paper: its sizes, its margins, and lettering that can be read on it.

use crate::scene::View;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// 8 1/2 by 11 in (ANSI/ASME Y14.1, from memory).
    #[default]
    Letter,
    /// 210 by 297 mm (ISO 216, from memory).
    A4,
}

/// Which way a page lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lie {
    Upright,
    Across,
}

/// Millimeters in a point, 1/72 in.
pub(super) const POINT: f64 = 25.4 / 72.0;
/// The least lettering, mm: nine points.
pub const LEAST_LETTERING: f64 = 9.0 * POINT;
/// Lettering of notes and tables.
pub(super) const NOTE: f64 = 9.25 * POINT;
/// Lettering of running text.
pub(super) const TEXT: f64 = 10.0 * POINT;
/// Lettering of headings.
pub(super) const HEADING: f64 = 12.5 * POINT;
/// Lettering of the sheet's title.
pub(super) const TITLE: f64 = 16.0 * POINT;
/// From one line of lettering to the next, in sizes.
pub(super) const LEADING: f64 = 1.36;
/// What common printers leave white, and a little more, mm.
pub(super) const MARGIN: f64 = 13.0;

impl Paper {
    /// Every size.
    pub const ALL: [Paper; 2] = [Paper::Letter, Paper::A4];

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Paper::Letter => "letter",
            Paper::A4 => "a4",
        }
    }

    /// Width and height upright, mm.
    #[must_use]
    pub fn size(self) -> [f64; 2] {
        match self {
            Paper::Letter => [215.9, 279.4],
            Paper::A4 => [210.0, 297.0],
        }
    }

    pub(super) fn view(self, lie: Lie) -> View {
        let [short, long] = self.size();
        let (width, height) = match lie {
            Lie::Upright => (short, long),
            Lie::Across => (long, short),
        };
        View {
            x: 0.0,
            y: 0.0,
            width,
            height,
        }
    }
}
