//! What is wrong with a sheet, cell by cell, in words.

use geometry::body::{Nonsense, Place};
use geometry::units::Notation;

use super::sheet::{Cell, Entry, Sheet, understood};

/// Where a flaw is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// In a cell.
    Cell(Cell),
    /// In the surface of the span from a point to the next.
    Span(usize),
    /// Where the seam is marked.
    Seam,
    /// In the table as a whole.
    Whole,
}

/// One flaw.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flaw {
    /// Where.
    pub spot: Spot,
    /// The place in words.
    pub place: String,
    /// What was found and what would be accepted: sentences.
    pub words: String,
    /// The same in a word or two, for beside the cell.
    pub brief: &'static str,
}

impl Sheet {
    /// Everything that keeps the sheet from being taken for sheet metal.
    pub fn flaws(&self, notation: Notation) -> Vec<Flaw> {
        let mut flaws = self.not_understood(notation);
        if let Some(table) = self.table() {
            flaws.extend(table.nonsense().iter().map(|one| self.flaw(one)));
            if flaws.is_empty() && table.at(0.0).is_none() {
                flaws.push(Flaw {
                    spot: Spot::Whole,
                    place: "The stations".to_owned(),
                    words: "They do not reach straight up; a station behind straight up and one ahead of it, or one at 0, would be accepted.".to_owned(),
                    brief: "",
                });
            }
        }
        flaws
    }

    fn not_understood(&self, notation: Notation) -> Vec<Flaw> {
        let mut flaws = Vec::new();
        for (station, entries) in self.stations.iter().enumerate() {
            for (entry, held) in entries.iter().enumerate() {
                let Entry::Typed(text) = held else { continue };
                let cell = Cell { station, entry };
                let words = understood(entry, text, notation).err();
                flaws.push(Flaw {
                    spot: Spot::Cell(cell),
                    place: self.cell_name(cell),
                    brief: if text.is_empty() {
                        "empty"
                    } else {
                        "not understood"
                    },
                    words: words.unwrap_or_else(|| {
                        format!(
                            "“{text}” was typed while lengths were in another unit. Type it again."
                        )
                    }),
                });
            }
        }
        flaws
    }

    fn flaw(&self, one: &Nonsense) -> Flaw {
        let (spot, place, brief) = match one.place {
            Place::Angle { station } | Place::Station { station } => {
                let angle = Cell { station, entry: 0 };
                let place = format!("{} ({})", self.cell_name(angle), self.station_name(station));
                (Spot::Cell(angle), place, "not rising")
            }
            Place::Point { station, point } => {
                let radius = Cell::of_point(station, point, true);
                (Spot::Cell(radius), self.cell_name(radius), "no radius")
            }
            Place::Span { span } => (Spot::Span(span), self.point_name(span), "out of order"),
            Place::Seam => (Spot::Seam, "Seam".to_owned(), "not on the roof"),
        };
        let subject = match one.place {
            Place::Span { .. } => "The surface",
            Place::Seam => "It",
            _ => "The station",
        };
        Flaw {
            spot,
            place,
            words: format!(
                "{subject} {}; {} would be accepted.",
                one.found, one.accepted
            ),
            brief,
        }
    }
}

#[cfg(test)]
mod tests {
    use geometry::body::Surface;

    use super::*;
    use crate::state::stations::tests_sheet;

    #[track_caller]
    fn check(spoil: impl Fn(&mut Sheet), spot: Spot, said: &[&str]) {
        let mut sheet = tests_sheet();
        spoil(&mut sheet);
        assert!(sheet.sound_table().is_none());
        let flaws = sheet.flaws(Notation::InchFractions);
        let [flaw] = &flaws[..] else {
            panic!("one flaw is wanted: {flaws:#?}");
        };
        assert_eq!(flaw.spot, spot);
        let told = format!("{}: {}", flaw.place, flaw.words);
        for words in said {
            assert!(told.contains(words), "{told}");
        }
    }

    fn type_in(cell: Cell, text: &'static str) -> impl Fn(&mut Sheet) {
        move |sheet| sheet.enter(cell, text, Notation::InchFractions)
    }

    #[test]
    fn a_cell_that_is_not_understood_is_named() {
        let low = Cell::of_point(0, 5, false);
        let at = Spot::Cell(low);
        check(
            type_in(low, "abc"),
            at,
            &[
                "Tub wall, low, 30° behind, out: ",
                "“abc”",
                "a length such as",
            ],
        );
        check(
            type_in(low, ""),
            at,
            &["Nothing is typed here. Type 0 in to"],
        );
        check(type_in(low, "90 in"), at, &["90 in is out of range"]);
        let angle = Cell {
            station: 1,
            entry: 0,
        };
        check(
            type_in(angle, "steep"),
            Spot::Cell(angle),
            &["Angle of station 2: ", "“steep”", "such as 30 behind"],
        );
        check(
            type_in(angle, "175"),
            Spot::Cell(angle),
            &["175° ahead is out of range"],
        );
    }

    #[test]
    fn a_table_that_makes_no_sense_is_told_the_same_way() {
        let angle = Cell {
            station: 2,
            entry: 0,
        };
        check(
            type_in(angle, "10 behind"),
            Spot::Cell(angle),
            &[
                "Angle of station 3 (10° behind): ",
                "does not lie ahead",
                "rise",
            ],
        );
        let radius = Cell::of_point(1, 3, true);
        check(
            type_in(radius, "0"),
            Spot::Cell(radius),
            &["Seam, straight up, radius: ", "more than nothing"],
        );
        check(
            |sheet| sheet.set_span(0, Surface::OuterHalf),
            Spot::Span(0),
            &["Outer half, edge: The surface is not the quarter lip"],
        );
        check(
            |sheet| sheet.set_seam(1),
            Spot::Seam,
            &["Seam: It is not on the roof"],
        );
        let ahead = |sheet: &mut Sheet| {
            sheet.remove_station(0);
            sheet.enter(
                Cell {
                    station: 0,
                    entry: 0,
                },
                "5",
                Notation::Millimeters,
            );
        };
        check(ahead, Spot::Whole, &["do not reach straight up"]);
    }

    #[test]
    fn what_was_typed_in_another_unit_is_asked_for_again() {
        let mut sheet = tests_sheet();
        sheet.enter(Cell::of_point(0, 0, false), "900", Notation::InchFractions);
        let flaws = sheet.flaws(Notation::Millimeters);
        assert!(flaws[0].words.contains("another unit"), "{flaws:?}");
    }
}
