//! The sheets: what goes to the shop floor, as pages of paper in millimeters.
//!
//! Each sheet is a list of pages, each page a [`Scene`] as large as its paper, so that it prints at its true size. A
//! sheet's tables are data ([`Table`]): the page prints them, a spreadsheet reads them.

mod cut;
mod cut_map;
mod cut_work;
mod dxf;
mod flow;
mod mock_up;
mod order;
mod paper;
mod plot;
mod positions;
mod strip;
mod strip_section;
mod table;
mod tape;
mod tape_figure;
mod tiles;
mod weld;
mod wrap;

use geometry::units::Notation;

use crate::scene::Scene;

pub use cut::{cut_sheet, cut_tables};
pub use mock_up::{mock_up_sheet, mock_up_tables};
pub use order::{order_sheet, order_tables};
pub use paper::{LEAST_LETTERING, Paper};
pub use positions::{Position, PositionRow, mock_up_positions};
pub use strip::{strip_dxf, strip_sheet, strip_tables};
pub use table::{Cell, Table, csv};
pub use tape::{LETTERS, tape_sheet, tape_tables};
pub use weld::{weld_dxf, weld_sheet, weld_tables};

/// Which sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// What to measure.
    Tape,
    /// What to order.
    Order,
    /// The plywood stand-in for wheel and tire.
    MockUp,
    /// What to cut.
    Cut,
    /// The fill strip, full size.
    Strip,
    /// How it is welded.
    Weld,
}

impl Kind {
    /// Every sheet, in the order in which a job needs them.
    pub const ALL: [Kind; 6] = [
        Kind::Tape,
        Kind::Order,
        Kind::MockUp,
        Kind::Cut,
        Kind::Strip,
        Kind::Weld,
    ];

    /// Its word in an address and on a command line.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Kind::Tape => "tape",
            Kind::Order => "order",
            Kind::MockUp => "mock-up",
            Kind::Cut => "cut",
            Kind::Strip => "strip",
            Kind::Weld => "weld",
        }
    }

    /// What it is called.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Kind::Tape => "Tape sheet",
            Kind::Order => "Order sheet",
            Kind::MockUp => "Mock-up sheet",
            Kind::Cut => "Cut sheet",
            Kind::Strip => "Fill strip",
            Kind::Weld => "Weld sheet",
        }
    }

    /// What it is for, in one sentence.
    #[must_use]
    pub fn purpose(self) -> &'static str {
        match self {
            Kind::Tape => "What to measure on the car, with blanks to fill.",
            Kind::Order => "Wheel, tire, axle and bump stops, in numbers a seller can answer to.",
            Kind::MockUp => {
                "A plywood stand-in for wheel and tire at its largest, and what to check with it."
            }
            Kind::Cut => {
                "What of the wheelhouse stands in the tire's room, by angle round the wheel."
            }
            Kind::Strip => "The new metal between the old seam and the new one, full size.",
            Kind::Weld => "Laps, plug welds, and a strip to drill by.",
        }
    }
}

/// What all sheets are told.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SheetOptions {
    /// The paper.
    pub paper: Paper,
    /// How lengths are written.
    pub notation: Notation,
    /// The date as it is to stand on the sheet.
    pub date: String,
}

/// A sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Which.
    pub kind: Kind,
    /// Its pages.
    pub pages: Vec<Scene>,
}
