//! Moving about in a station table, and making it longer and shorter.

use carfile::MANY;

use super::sheet::{Cell, Entry, Sheet};

/// Where a key leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// The cell above.
    Up,
    /// The cell below.
    Down,
    /// The cell to the left.
    Left,
    /// The cell to the right.
    Right,
}

/// Where a key leads while text of a cell is selected from `start` to `end` of `length` characters:
/// sideways arrows leave the cell only when the cursor has nowhere to go in it.
pub fn way(key: &str, shift: bool, (start, end, length): (u32, u32, u32)) -> Option<Way> {
    let all = start == 0 && end == length;
    match (key, shift) {
        ("ArrowUp", false) | ("Enter", true) => Some(Way::Up),
        ("ArrowDown" | "Enter", false) => Some(Way::Down),
        ("ArrowLeft", false) if all || end == 0 => Some(Way::Left),
        ("ArrowRight", false) if all || start == length => Some(Way::Right),
        _ => None,
    }
}

impl Sheet {
    /// The cell next to another; nothing at the edge of the table.
    pub fn next(&self, cell: Cell, way: Way) -> Option<Cell> {
        let Cell { station, entry } = cell;
        let (station, entry) = match (way, cell.point()) {
            (Way::Up, Some(0)) => (station, 0),
            (Way::Up, _) => (station, entry.checked_sub(2)?),
            (Way::Down, None) => (station, 1),
            (Way::Down, _) => (station, entry + 2),
            (Way::Left, Some(_)) if entry % 2 == 0 => (station, entry - 1),
            (Way::Left, None) => (station.checked_sub(1)?, 0),
            (Way::Left, _) => (station.checked_sub(1)?, entry + 1),
            (Way::Right, Some(_)) if entry % 2 == 1 => (station, entry + 1),
            (Way::Right, None) => (station + 1, 0),
            (Way::Right, _) => (station + 1, entry - 1),
        };
        let next = Cell { station, entry };
        self.entry(next).map(|_| next)
    }

    /// Adds a point behind another, halfway to the next one; behind the last one it goes before it.
    /// Gives its place, or nothing when the table is full.
    pub fn add_point(&mut self, after: usize) -> Option<usize> {
        if self.points() >= MANY {
            return None;
        }
        let before = after.min(self.spans.len().checked_sub(1)?);
        for station in &mut self.stations {
            let first = 1 + 2 * before;
            let halfway = |k: usize| mix(station.get(k), station.get(k + 2));
            let new = [halfway(first), halfway(first + 1)];
            let at = (first + 2).min(station.len());
            station.splice(at..at, new);
        }
        self.spans.insert(before, *self.spans.get(before)?);
        if self.seam > before {
            self.seam += 1;
        }
        Some(before + 1)
    }

    /// Takes a point away; says whether it could: two points at least make a station.
    pub fn remove_point(&mut self, point: usize) -> bool {
        if self.points() <= 2 || point >= self.points() {
            return false;
        }
        for station in &mut self.stations {
            let first = (1 + 2 * point).min(station.len());
            station.drain(first..(first + 2).min(station.len()));
        }
        // The run from the point before goes on to the point behind.
        self.spans.remove(point.min(self.spans.len() - 1));
        if self.seam > point {
            self.seam -= 1;
        }
        self.seam = self.seam.min(self.spans.len());
        true
    }

    /// Adds a station ahead of another, halfway to the next one; ahead of the last one it goes behind it.
    /// Gives its place, or nothing when the table is full or has a single station to go by.
    pub fn add_station(&mut self, after: usize) -> Option<usize> {
        let before = after.min(self.stations().checked_sub(2)?);
        if self.stations() >= MANY {
            return None;
        }
        let (a, b) = (self.stations.get(before)?, self.stations.get(before + 1)?);
        let new = (0..a.len()).map(|k| mix(a.get(k), b.get(k))).collect();
        self.stations.insert(before + 1, new);
        Some(before + 1)
    }

    /// Takes a station away; says whether it could: one at least makes a table.
    pub fn remove_station(&mut self, station: usize) -> bool {
        let can = self.stations() > 1 && station < self.stations();
        if can {
            self.stations.remove(station);
        }
        can
    }

    /// Fills cells from `from` to the right and down, as a spreadsheet does. Empty texts change nothing.
    /// Gives how many texts were entered and how many lay beyond the table.
    pub fn fill(
        &mut self,
        from: Cell,
        texts: &[Vec<String>],
        notation: geometry::units::Notation,
    ) -> (usize, usize) {
        let (mut entered, mut beyond) = (0, 0);
        // Angles stand above two columns; below them stand the first point's numbers.
        let top = from.point().map_or(0, |point| point + 1);
        let left = 2 * from.station + usize::from(from.entry > 0 && from.entry.is_multiple_of(2));
        for (down, row) in texts.iter().enumerate() {
            for (right, text) in row.iter().enumerate() {
                let (row, column) = (top + down, left + right);
                if text.trim().is_empty() || (row == 0 && column % 2 == 1) {
                    continue;
                }
                let cell = match row.checked_sub(1) {
                    Some(point) => Cell::of_point(column / 2, point, column % 2 == 1),
                    None => Cell {
                        station: column / 2,
                        entry: 0,
                    },
                };
                if self.entry(cell).is_some() {
                    self.enter(cell, text, notation);
                    entered += 1;
                } else {
                    beyond += 1;
                }
            }
        }
        (entered, beyond)
    }
}

/// Halfway between two cells; empty where one is not understood.
fn mix(a: Option<&Entry>, b: Option<&Entry>) -> Entry {
    match (a.and_then(Entry::number), b.and_then(Entry::number)) {
        (Some(a), Some(b)) => Entry::Number(f64::midpoint(a, b)),
        _ => Entry::Typed(String::new()),
    }
}

#[cfg(test)]
mod tests {
    use geometry::units::Notation;

    use super::*;
    use crate::state::stations::tests_sheet;

    const MM: Notation = Notation::Millimeters;

    #[test]
    fn keys_move_from_cell_to_cell_and_stop_at_the_edge() {
        let sheet = tests_sheet();
        let start = Cell {
            station: 0,
            entry: 0,
        };
        let go = |from, ways: &[Way]| {
            ways.iter()
                .try_fold(from, |cell, &way| sheet.next(cell, way))
        };
        let at = |station, entry| Some(Cell { station, entry });
        assert_eq!(go(start, &[Way::Down, Way::Right, Way::Right]), at(1, 1));
        assert_eq!(
            go(start, &[Way::Down, Way::Right, Way::Right, Way::Left]),
            at(0, 2)
        );
        assert_eq!(go(start, &[Way::Down, Way::Right, Way::Up]), at(0, 0));
        assert_eq!(go(start, &[Way::Right, Way::Down, Way::Down]), at(1, 3));
        assert_eq!(go(start, &[Way::Right, Way::Left]), at(0, 0));
        for edge in [Way::Up, Way::Left] {
            assert_eq!(sheet.next(start, edge), None);
        }
        let last = Cell::of_point(2, 5, true);
        for edge in [Way::Down, Way::Right] {
            assert_eq!(sheet.next(last, edge), None);
        }
        for (there, back) in [(Way::Up, Way::Down), (Way::Left, Way::Right)] {
            assert_eq!(go(last, &[there, back]), Some(last));
        }
    }

    #[test]
    fn sideways_arrows_move_in_the_text_first() {
        assert_eq!(way("ArrowLeft", false, (0, 4, 4)), Some(Way::Left));
        assert_eq!(way("ArrowLeft", false, (2, 2, 4)), None);
        assert_eq!(way("ArrowLeft", false, (0, 0, 4)), Some(Way::Left));
        assert_eq!(way("ArrowRight", false, (4, 4, 4)), Some(Way::Right));
        assert_eq!(way("ArrowRight", false, (0, 2, 4)), None);
        assert_eq!(way("ArrowRight", true, (4, 4, 4)), None);
        assert_eq!(way("ArrowDown", false, (1, 1, 4)), Some(Way::Down));
        assert_eq!(way("Enter", true, (1, 1, 4)), Some(Way::Up));
        assert_eq!(way("Tab", false, (0, 0, 0)), None);
    }

    #[test]
    fn what_is_added_lies_halfway_and_what_is_removed_is_gone() {
        let sheet = tests_sheet();
        for after in 0..sheet.points() {
            let mut longer = sheet.clone();
            let new = longer.add_point(after).expect("there is room");
            assert!(longer.sound_table().is_some());
            assert_eq!(longer.point_name(longer.seam()), "Seam");
            assert!(longer.remove_point(new));
            assert_eq!(longer, sheet);
        }
        for after in 0..sheet.stations() {
            let mut wider = sheet.clone();
            let new = wider.add_station(after).expect("there is room");
            assert!(wider.sound_table().is_some());
            assert!(wider.remove_station(new));
            assert_eq!(wider, sheet);
        }
    }

    #[test]
    fn a_table_has_a_least_and_a_most() {
        let mut sheet = tests_sheet();
        while sheet.remove_point(0) {}
        while sheet.remove_station(0) {}
        assert_eq!((sheet.points(), sheet.stations()), (2, 1));
        assert!(sheet.seam() < 2 && sheet.add_station(0).is_none());
        while sheet.add_point(0).is_some() {}
        assert_eq!(sheet.points(), MANY);
    }

    #[test]
    fn next_to_a_cell_that_is_not_understood_a_new_one_is_empty() {
        let mut sheet = tests_sheet();
        sheet.enter(Cell::of_point(1, 1, false), "?", MM);
        let new = sheet.add_point(0).expect("there is room");
        assert_eq!(sheet.shown(Cell::of_point(1, new, false), MM), "");
        assert_ne!(sheet.shown(Cell::of_point(1, new, true), MM), "");
    }

    #[test]
    fn pasted_cells_fill_to_the_right_and_down() {
        let rows = |text: &str| -> Vec<Vec<String>> {
            text.lines()
                .map(|row| row.split(' ').map(str::to_owned).collect())
                .collect()
        };
        let mut sheet = tests_sheet();
        let from = Cell::of_point(1, 4, true);
        assert_eq!(sheet.fill(from, &rows("501 602\n1  3 4 5"), MM), (4, 2));
        let shown =
            |station, point, radius| sheet.shown(Cell::of_point(station, point, radius), MM);
        assert_eq!(shown(1, 4, true), "501.0");
        assert_eq!(shown(2, 4, false), "602.0");
        assert_eq!(shown(1, 5, true), "1.0");
        assert_eq!(
            shown(2, 5, false),
            tests_sheet().shown(Cell::of_point(2, 5, false), MM)
        );
        assert_eq!(shown(2, 5, true), "3.0");

        let angle = Cell {
            station: 1,
            entry: 0,
        };
        assert_eq!(sheet.fill(angle, &rows("5 x 31\n901 301"), MM), (4, 0));
        assert_eq!(sheet.shown(angle, MM), "5° ahead");
        assert_eq!(
            sheet.shown(
                Cell {
                    station: 2,
                    entry: 0
                },
                MM
            ),
            "31° ahead"
        );
        assert_eq!(sheet.shown(Cell::of_point(1, 0, true), MM), "301.0");
    }
}
