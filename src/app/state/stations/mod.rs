//! The station table as somebody edits it: cells that hold numbers, or what was typed in their place.
//!
//! A sheet that can be taken for sheet metal becomes the side's own table at once. One that cannot is
//! kept as typed beside the car, and the car keeps its last sound table.

mod act;
mod edit;
mod flaws;
mod kept;
mod markup;
mod separated;
mod sheet;
mod thin;
mod whole;
mod words;

use std::sync::Arc;

use geometry::body::StationTable;
use geometry::side::Side;

use super::work::Work;

pub use edit::way;
pub use kept::{read as read_kept, write as write_kept};
pub use markup::{Shows, block, places, table};
pub use separated::rows;
pub use sheet::{Cell, SURFACES, Sheet};
pub use thin::{CHOICES as THIN_CHOICES, thinned};
pub use words::{counted, filled_words, state_words};

/// The sheet of a side: what is being edited, else its own table; nothing while it has tape readings only.
pub fn present(work: &Work, side: Side) -> Option<Arc<Sheet>> {
    let own = || {
        let table = work.car.sides.get(side).stations.as_ref()?;
        Some(Arc::new(Sheet::of(table)))
    };
    work.drafts.get(side).clone().or_else(own)
}

/// The stations that a side's tape readings stand for; nothing when they leave no room for a wheelhouse.
pub fn of_tape(work: &Work, side: Side) -> Option<StationTable> {
    let face = work.car.axle.measured_face();
    StationTable::from_tape(&work.car.sides.get(side).tape, face).ok()
}

/// The work with `sheet` in place of the side's own table, or beside it where it is not sound.
pub fn with_sheet(work: &Work, side: Side, sheet: Sheet) -> Work {
    let mut next = work.clone();
    if let Some(table) = sheet.sound_table() {
        *next.drafts.get_mut(side) = None;
        return next.with(|car| car.sides.get_mut(side).stations = Some(table));
    }
    *next.drafts.get_mut(side) = Some(Arc::new(sheet));
    next
}

/// The work with a side back on its tape readings.
pub fn without(work: &Work, side: Side) -> Work {
    let mut next = work.clone();
    *next.drafts.get_mut(side) = None;
    next.with(|car| car.sides.get_mut(side).stations = None)
}

/// A small sound sheet.
#[cfg(test)]
fn tests_sheet() -> Sheet {
    use geometry::body::{Station, Surface};
    use geometry::space::vec2;
    let station = |degrees: f64| Station {
        angle: geometry::units::radians(degrees),
        points: vec![
            vec2(920.1, 320.07),
            vec2(917.0, 340.0),
            vec2(917.0, 446.3),
            vec2(731.234_567, 470.0),
            vec2(612.0, 476.25),
            vec2(606.5, 101.6),
        ],
        spans: vec![
            Surface::QuarterLip,
            Surface::OuterHalf,
            Surface::Roof,
            Surface::Roof,
            Surface::TubWall,
        ],
        seam: 3,
        fill: None,
    };
    Sheet::of(&StationTable {
        stations: vec![station(-30.0), station(0.0), station(30.0)],
    })
}

#[cfg(test)]
mod tests {
    use geometry::units::Notation;

    use super::*;
    use crate::state::opening;

    const CELL: Cell = Cell {
        station: 6,
        entry: 3,
    };

    fn opened() -> Work {
        opening::invented(0).expect("the first invented car opens")
    }

    /// The coupe with its left stations edited.
    fn own() -> Work {
        let work = opened();
        let table = of_tape(&work, Side::Left).expect("the coupe has stations");
        with_sheet(&work, Side::Left, Sheet::of(&thinned(&table, 1.0)))
    }

    #[test]
    fn a_side_has_no_sheet_until_it_is_given_one() {
        assert_eq!(present(&opened(), Side::Left), None);
        let own = own();
        assert!(present(&own, Side::Left).is_some() && own.drafts.left.is_none());
        assert_eq!(present(&own, Side::Right), None);
        assert!(own.is_own());
    }

    #[test]
    fn a_bad_cell_is_kept_beside_the_last_sound_table() {
        let own = own();
        let mut sheet = Sheet::clone(&present(&own, Side::Left).expect("a sheet"));
        sheet.enter(CELL, "abc", Notation::InchFractions);
        let drafted = with_sheet(&own, Side::Left, sheet.clone());
        assert_eq!(drafted.car, own.car);
        assert_eq!(present(&drafted, Side::Left).as_deref(), Some(&sheet));
        sheet.enter(CELL, "36 in", Notation::InchFractions);
        let mended = with_sheet(&drafted, Side::Left, sheet);
        assert_eq!(mended.drafts.left, None);
        assert_ne!(mended.car, own.car);
    }

    #[test]
    fn back_to_the_tape_is_the_car_as_it_was_opened() {
        let back = without(&own(), Side::Left);
        assert_eq!(back, opened());
    }
}
