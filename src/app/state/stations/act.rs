//! What the buttons beside a station table do.

use super::sheet::{Cell, Sheet};

impl Sheet {
    /// Does what a button is called, at a cell: gives the cell that comes of it.
    ///
    /// # Errors
    /// What stands in the way, in words; nothing when there is no button of that name.
    pub fn act(&mut self, what: &str, at: Cell) -> Result<Cell, Option<&'static str>> {
        let last = |count: usize| count.saturating_sub(1);
        let (next, cannot) = match what {
            "add-point" => {
                let point = self.add_point(at.point().unwrap_or(0));
                let next = point.map(|point| Cell::of_point(at.station, point, false));
                (next, "The table has as many points as it can hold.")
            }
            "remove-point" => {
                let gone = at.point().filter(|&point| self.remove_point(point));
                let next = gone
                    .map(|point| Cell::of_point(at.station, point.min(last(self.points())), false));
                (
                    next,
                    "Use a cell of the point that is to go first; two points at least make a station.",
                )
            }
            "add-station" => {
                let next = self.add_station(at.station);
                let next = next.map(|station| Cell { station, entry: 0 });
                (
                    next,
                    "A new station is put between two; this table has only one, or as many as it can hold.",
                )
            }
            "remove-station" => {
                let gone = self.remove_station(at.station);
                let station = at.station.min(last(self.stations()));
                (
                    gone.then_some(Cell { station, entry: 0 }),
                    "One station at least makes a table.",
                )
            }
            _ => return Err(None),
        };
        next.ok_or(Some(cannot))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::stations::tests_sheet;

    #[test]
    fn buttons_act_at_the_cell_that_was_used_last() {
        let mut sheet = tests_sheet();
        let at = Cell::of_point(1, 3, true);
        assert_eq!(sheet.act("add-point", at), Ok(Cell::of_point(1, 4, false)));
        assert_eq!(
            sheet.act("add-station", at),
            Ok(Cell {
                station: 2,
                entry: 0
            })
        );
        assert_eq!((sheet.points(), sheet.stations()), (7, 4));
        assert_eq!(
            sheet.act("remove-point", Cell::of_point(0, 6, false)),
            Ok(Cell::of_point(0, 5, false))
        );
        assert_eq!(
            sheet.act(
                "remove-station",
                Cell {
                    station: 3,
                    entry: 5
                }
            ),
            Ok(Cell {
                station: 2,
                entry: 0
            })
        );
        assert!(matches!(
            sheet.act("remove-point", Cell::default()),
            Err(Some(_))
        ));
        assert!(matches!(
            sheet.act(
                "remove-station",
                Cell {
                    station: 9,
                    entry: 0
                }
            ),
            Err(Some(_))
        ));
        assert_eq!(sheet.act("read", at), Err(None));
    }
}
