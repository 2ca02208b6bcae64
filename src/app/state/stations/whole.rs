//! A whole table as text: the angles in the first row, then a row for each point.

use carfile::{MANY, MAX_BYTES};
use geometry::body::Surface;
use geometry::units::{LengthUnit, Notation};

use super::separated;
use super::sheet::{Cell, Entry, SURFACES, Sheet, clean, typed};
use super::words::angle_of;

/// What a table looks like, for whoever is told that one does not.
const LAYOUT: &str = "A row of angles, each over two columns, out and radius; below it a row for each point, from the quarter lip inward, with its name and its surface before the numbers, would be accepted.";

/// What stands before the angles in a table that was copied here.
const OWN_HEAD: [&str; 2] = ["angle", "surface to the next point"];

impl Sheet {
    /// The sheet as text with tabs, as a spreadsheet takes it and [`Sheet::read`] reads it back.
    pub fn text(&self, notation: Notation) -> String {
        let unit = notation.unit().symbol();
        let stations = 0..self.stations();
        let mut text = OWN_HEAD.join("\t");
        for station in stations.clone() {
            text.push('\t');
            text.push_str(&self.copied(Cell { station, entry: 0 }, notation));
            text.push('\t');
        }
        text.push_str("\npoint\t");
        for _ in stations.clone() {
            for part in ["out", "radius"] {
                text.push_str(&["\t", part, " (", unit, ")"].concat());
            }
        }
        for point in 0..self.points() {
            text.push('\n');
            text.push_str(&self.point_name(point));
            text.push('\t');
            text.push_str(self.span(point).map_or("", Surface::label));
            for station in stations.clone() {
                for radius in [false, true] {
                    text.push('\t');
                    text.push_str(&self.copied(Cell::of_point(station, point, radius), notation));
                }
            }
        }
        text.push('\n');
        text
    }

    /// What a spreadsheet gets of a cell; in quotes where it would be taken for something that is.
    fn copied(&self, cell: Cell, notation: Notation) -> String {
        let plain = self.plain(cell, notation);
        if plain.starts_with('"') {
            return ["\"", &plain.replace('"', "\"\""), "\""].concat();
        }
        plain
    }

    /// The sheet of a text; cells that are not understood are kept as typed. Where the text names no
    /// surfaces or no seam, those of `present` hold, if it has as many points.
    ///
    /// # Errors
    /// What keeps the text from being a table at all, and what would be accepted.
    pub fn read(text: &str, present: Option<&Self>, notation: Notation) -> Result<Self, String> {
        if text.len() > MAX_BYTES {
            return Err(format!("The text is too long. {LAYOUT}"));
        }
        let rows = separated::rows(text);
        let stations = own_head(&rows).map_or_else(|| head(&rows), Ok)?;
        let labels = stations.first().map_or(0, |(column, _)| *column);
        let mut body = rows.get(1..).unwrap_or_default();
        let mut bare = notation;
        if let Some(named) = body
            .first()
            .and_then(|row| row.get(labels))
            .filter(|cell| is_out(cell))
        {
            bare = unit_of(named).unwrap_or(notation);
            body = &body[1..];
        }
        if body.len() < 2 || body.len() > MANY {
            return Err(format!(
                "There are {} rows of points below the angles. {LAYOUT}",
                body.len()
            ));
        }
        let present = present.filter(|sheet| sheet.points() == body.len());
        let spans = spans(body, labels, present)?;
        let seam = seam(body, labels, present)?;
        let station = |(column, angle): &(usize, String)| {
            let mut entries = vec![typed(0, clean(angle), bare)];
            for row in body {
                for at in [*column, column + 1] {
                    let text = row.get(at).map_or("", String::as_str);
                    entries.push(typed(entries.len(), clean(text), bare));
                }
            }
            entries
        };
        let mut sheet = Self {
            stations: stations.iter().map(station).collect(),
            spans,
            seam,
        };
        if let Some(present) = present {
            sheet.keep_exact(present, bare);
        }
        Ok(sheet)
    }

    /// A number that is only the rounded text of the present one stays the present one.
    fn keep_exact(&mut self, present: &Self, notation: Notation) {
        for station in 0..self.stations() {
            for entry in 0..=2 * self.points() {
                let cell = Cell { station, entry };
                let same = self.plain(cell, notation) == present.plain(cell, notation);
                if let (true, Some(Entry::Number(exact))) = (same, present.entry(cell))
                    && let Some(place) = self.stations[station].get_mut(entry)
                {
                    *place = Entry::Number(*exact);
                }
            }
        }
    }
}

/// The columns of the stations of a table that was copied here, whatever stands for an angle in them.
fn own_head(rows: &[Vec<String>]) -> Option<Vec<(usize, String)>> {
    let [angles, named, ..] = rows else {
        return None;
    };
    let labels = OWN_HEAD.len();
    if angles.get(..labels)? != OWN_HEAD {
        return None;
    }
    let columns = (labels..named.len()).step_by(2);
    let stations: Vec<(usize, String)> = columns
        .take_while(|&column| is_out(&named[column]))
        .map(|column| (column, angles.get(column).cloned().unwrap_or_default()))
        .collect();
    (!stations.is_empty() && stations.len() <= MANY).then_some(stations)
}

/// The columns of the stations, with the text of their angles.
fn head(rows: &[Vec<String>]) -> Result<Vec<(usize, String)>, String> {
    let none = || format!("The first row has no angle. {LAYOUT}");
    let head = rows.first().ok_or_else(none)?;
    let first = head
        .iter()
        .position(|cell| angle_of(cell).is_ok())
        .ok_or_else(none)?;
    let mut stations: Vec<(usize, String)> = Vec::new();
    for (column, cell) in head.iter().enumerate().skip(first) {
        match stations.last() {
            // An angle may be repeated over its second column.
            Some((before, text)) if column == before + 1 && (cell.is_empty() || cell == text) => {}
            Some((before, text)) if column == before + 1 => {
                return Err(format!(
                    "The station at {text} has one column, out and radius want two. {LAYOUT}"
                ));
            }
            _ if cell.is_empty() => {}
            _ => stations.push((column, cell.clone())),
        }
    }
    if stations.len() > MANY {
        return Err(format!(
            "There are {} stations; at most {MANY} would be accepted.",
            stations.len()
        ));
    }
    Ok(stations)
}

fn spans(
    body: &[Vec<String>],
    labels: usize,
    present: Option<&Sheet>,
) -> Result<Vec<Surface>, String> {
    let runs = body.split_last().map_or(&[][..], |(_, before)| before);
    let named = |row: &Vec<String>| row.iter().take(labels).find_map(|cell| surface(cell));
    match (runs.iter().map(named).collect(), present) {
        (Some(spans), _) => Ok(spans),
        (None, Some(present)) => Ok(present.spans.clone()),
        (None, None) => {
            let at = runs
                .iter()
                .position(|row| named(row).is_none())
                .unwrap_or(0)
                + 1;
            let known: Vec<&str> = SURFACES.iter().map(|surface| surface.label()).collect();
            Err(format!(
                "Row {at} of the points names no surface; {} would be accepted in a cell before the numbers.",
                known.join(", ")
            ))
        }
    }
}

fn seam(body: &[Vec<String>], labels: usize, present: Option<&Sheet>) -> Result<usize, String> {
    let is_seam = |row: &Vec<String>| {
        row.iter()
            .take(labels)
            .any(|cell| cell.to_ascii_lowercase().starts_with("seam"))
    };
    let found = body.iter().position(is_seam).or(present.map(Sheet::seam));
    found.ok_or_else(|| {
        "No row is named seam; the word in the first cell of the seam's row would be accepted."
            .to_owned()
    })
}

/// A surface by its label, with spaces or hyphens.
fn surface(cell: &str) -> Option<Surface> {
    let label = cell.to_ascii_lowercase().replace('-', " ");
    SURFACES
        .iter()
        .copied()
        .find(|surface| surface.label() == label)
}

fn is_out(cell: &str) -> bool {
    cell.to_ascii_lowercase().starts_with("out")
}

/// The unit that a head names in brackets.
fn unit_of(head: &str) -> Option<Notation> {
    let named = |unit: LengthUnit| head.contains(&["(", unit.symbol(), ")"].concat());
    match (named(LengthUnit::Millimeter), named(LengthUnit::Inch)) {
        (true, _) => Some(Notation::Millimeters),
        (_, true) => Some(Notation::InchDecimals),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::stations::tests_sheet;

    const MM: Notation = Notation::Millimeters;

    #[test]
    fn what_is_copied_reads_back_in_any_notation() {
        let sheet = tests_sheet();
        for written in Notation::ALL {
            for read in Notation::ALL {
                let text = sheet.text(written);
                assert_eq!(Sheet::read(&text, Some(&sheet), read).as_ref(), Ok(&sheet));
                let alone = Sheet::read(&text, None, read).expect("it names all it needs");
                assert!(alone.sound_table().is_some());
                assert_eq!(alone.text(written), text);
                // As a spreadsheet saves it.
                let commas = text.replace('\t', "\",\"").replace('\n', "\"\n\"");
                let commas = ["\"", commas.trim_end_matches('"')].concat();
                assert_eq!(Sheet::read(&commas, None, read), Ok(alone));
            }
        }
    }

    #[test]
    fn a_bad_cell_is_copied_as_typed_and_comes_back() {
        let mut sheet = tests_sheet();
        sheet.enter(Cell::of_point(1, 1, true), "17,5 wide", MM);
        assert_eq!(
            Sheet::read(&sheet.text(MM), Some(&sheet), MM),
            Ok(sheet.clone())
        );
    }

    #[test]
    fn a_station_whose_angle_is_not_understood_is_copied_and_comes_back() {
        let angle = |station| Cell { station, entry: 0 };
        for (station, typed) in [(0, ""), (0, "steep"), (2, ""), (1, "\"30\"")] {
            let mut sheet = tests_sheet();
            sheet.enter(angle(station), typed, MM);
            sheet.enter(Cell::of_point(1, 1, true), "\"7\"\" 5", MM);
            let text = sheet.text(MM);
            assert_eq!(
                Sheet::read(&text, None, MM).map(|read| read.text(MM)),
                Ok(text.clone())
            );
            assert_eq!(Sheet::read(&text, Some(&sheet), MM), Ok(sheet), "{typed}");
        }
    }

    const SMALL: &str = "\t30 behind\t\t0\t\t30 ahead\t30 ahead
quarter lip\t36\t13\t36\t13\t36\t13
outer half\t36\t14\t36\t14\t36\t14
roof\t36\t17 1/2\"\t36\t18\t36\t17.5
seam, roof\t30\t18\t30\t18.5\t30\t18
tub wall\t24\t18\t24\t18.5\t24\t18
\t24\t4\t24\t4\t24\t4
";

    #[test]
    fn a_table_typed_by_hand_is_read() {
        let text = SMALL
            .replace("seam, roof", "seam\troof")
            .replace("\t36", "\t\t36");
        // One label column for most rows will not do: the numbers begin where the angles stand.
        assert!(Sheet::read(&text, None, Notation::InchFractions).is_err());
        let named = "quarter lip,outer half,roof,roof,tub wall,"
            .split(',')
            .zip(["", "", "", "seam", "", ""])
            .zip(SMALL.lines().skip(1))
            .map(|((surface, name), row)| {
                let numbers = row.split_once('\t').map_or("", |(_, numbers)| numbers);
                format!("{name}\t{surface}\t{numbers}")
            });
        let rows: Vec<String> = named.collect();
        let text = format!(
            "\t\t30 behind\t\t0\t\t30 ahead\t30 ahead\n{}",
            rows.join("\n")
        );
        let sheet = Sheet::read(&text, None, Notation::InchFractions).expect("a table");
        assert_eq!((sheet.stations(), sheet.points(), sheet.seam()), (3, 6, 3));
        assert_eq!(sheet.flaws(Notation::InchFractions), []);
    }

    #[track_caller]
    fn refused(text: &str, found: &str) {
        let words = Sheet::read(text, None, MM).expect_err(text);
        assert!(
            words.contains(found) && words.contains("would be accepted"),
            "{words}"
        );
    }

    #[test]
    fn what_is_no_table_is_told_in_words() {
        refused("", "no angle");
        refused("a table\nof words", "no angle");
        refused(
            "\t-30\t0\t30\nroof\t1\t2\t3",
            "The station at -30 has one column",
        );
        refused("\t-30\t\t0\t\n", "There are 0 rows");
        refused(
            "\t0\t\nseam\t1\t2\n\t3\t4\n",
            "Row 1 of the points names no surface",
        );
        refused("\t0\t\nroof\t1\t2\n\t3\t4\n", "No row is named seam");
        let many = "\t0\t\n".to_owned() + &"roof\t1\t2\n".repeat(MANY + 1);
        refused(&many, "rows of points");
        refused(&"x".repeat(MAX_BYTES + 1), "too long");
    }

    #[test]
    fn bare_numbers_take_the_present_rows() {
        let sheet = tests_sheet();
        let text = "-20\t\t0\t\t20\t\n".to_owned() + &"900\t400\t900\t400\t900\t400\n".repeat(6);
        let read = Sheet::read(&text, Some(&sheet), MM).expect("as many points as before");
        assert_eq!((read.seam(), &read.spans), (sheet.seam(), &sheet.spans));
        refused(&text, "names no surface");
    }
}
