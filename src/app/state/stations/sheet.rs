//! The cells of a station table, and what they say together.

use carfile::{STATION_ANGLE, STATION_POINT};
use geometry::body::{Station, StationTable, Surface};
use geometry::space::vec2;
use geometry::units::{self, Notation, format_length};

use super::words::{angle_of, angle_words};
use crate::state::figures::{self, decimals};

/// The surfaces that a span can be of, from the lip inward.
pub const SURFACES: &[Surface] = Surface::FIXED.split_at(5).0;

/// The longest text of a cell that is kept, characters.
const LONGEST: usize = 80;

/// One cell: of a station, the angle (`0`), or out and radius of a point, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cell {
    /// Which station.
    pub station: usize,
    /// Which of its entries.
    pub entry: usize,
}

impl Cell {
    /// The point that the cell is of; nothing for an angle.
    pub fn point(self) -> Option<usize> {
        Some(self.entry.checked_sub(1)? / 2)
    }

    /// The cell of a point: its radius, or how far out it is.
    pub fn of_point(station: usize, point: usize, radius: bool) -> Self {
        let entry = 1 + 2 * point + usize::from(radius);
        Self { station, entry }
    }

    /// Its id on the page.
    pub fn id(self, side: &str) -> String {
        format!("cell-{side}-{}-{}", self.station, self.entry)
    }

    /// The cell of an id.
    pub fn of_id(id: &str) -> Option<Self> {
        let mut parts = id.rsplit('-');
        let mut number = || parts.next()?.parse().ok();
        let (entry, station) = (number()?, number()?);
        Some(Self { station, entry })
    }
}

/// What a cell holds.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Entry {
    /// A number, mm or radians.
    Number(f64),
    /// What was typed and not understood.
    Typed(String),
}

impl Entry {
    pub(super) fn number(&self) -> Option<f64> {
        match self {
            Entry::Number(value) => Some(*value),
            Entry::Typed(_) => None,
        }
    }
}

/// A station table being edited: every station has the same points.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// For each station its angle, then out and radius of each point.
    pub(super) stations: Vec<Vec<Entry>>,
    /// The surface of each span.
    pub(super) spans: Vec<Surface>,
    /// The point where the seam is.
    pub(super) seam: usize,
}

impl Sheet {
    /// The sheet of a table.
    pub fn of(table: &StationTable) -> Self {
        let first = table.stations.first();
        Self {
            spans: first.map_or(Vec::new(), |station| station.spans.clone()),
            seam: first.map_or(0, |station| station.seam),
            stations: table.stations.iter().map(entries).collect(),
        }
    }

    /// The table of the sheet, sound or not; nothing while a cell is not understood.
    pub(super) fn table(&self) -> Option<StationTable> {
        let station = |entries: &Vec<Entry>| {
            let numbers: Option<Vec<f64>> = entries.iter().map(Entry::number).collect();
            let numbers = numbers?;
            let (angle, rest) = numbers.split_first()?;
            let points = rest.chunks_exact(2).map(|pair| vec2(pair[0], pair[1]));
            Some(Station {
                angle: *angle,
                points: points.collect(),
                spans: self.spans.clone(),
                seam: self.seam,
                fill: None,
            })
        };
        let stations: Option<Vec<Station>> = self.stations.iter().map(station).collect();
        Some(StationTable {
            stations: stations?,
        })
    }

    /// The table of the sheet, if it can be taken for sheet metal.
    pub fn sound_table(&self) -> Option<StationTable> {
        self.table()
            .filter(|table| table.nonsense().is_empty() && table.at(0.0).is_some())
    }

    /// How many stations it has.
    pub fn stations(&self) -> usize {
        self.stations.len()
    }

    /// How many points each station has.
    pub fn points(&self) -> usize {
        self.spans.len() + 1
    }

    /// The surface of the span from a point to the next; nothing for the last point.
    pub fn span(&self, point: usize) -> Option<Surface> {
        self.spans.get(point).copied()
    }

    /// The point where the seam is.
    pub fn seam(&self) -> usize {
        self.seam
    }

    pub(super) fn entry(&self, cell: Cell) -> Option<&Entry> {
        self.stations.get(cell.station)?.get(cell.entry)
    }

    /// What a cell shows: lengths without their unit, which the head of the table names.
    pub fn shown(&self, cell: Cell, notation: Notation) -> String {
        match self.entry(cell) {
            Some(Entry::Number(angle)) if cell.entry == 0 => angle_words(*angle),
            Some(Entry::Number(length)) => {
                let text = format_length(*length, notation);
                text.strip_suffix(notation.unit().symbol())
                    .map_or(text.as_str(), str::trim_end)
                    .to_owned()
            }
            Some(Entry::Typed(text)) => text.clone(),
            None => String::new(),
        }
    }

    /// What a spreadsheet gets of a cell: a plain number, finer than a tape reads.
    pub(super) fn plain(&self, cell: Cell, notation: Notation) -> String {
        let (value, places) = match self.entry(cell) {
            Some(Entry::Number(angle)) if cell.entry == 0 => (units::degrees(*angle), 4),
            Some(Entry::Number(length)) => {
                let places = if notation == Notation::Millimeters {
                    3
                } else {
                    4
                };
                (length / notation.unit().millimeters(), places)
            }
            Some(Entry::Typed(text)) => return text.clone(),
            None => return String::new(),
        };
        decimals(value, places).replace('\u{2212}', "-")
    }

    /// Enters what was typed into a cell. What is shown is rounded: entering it again changes nothing.
    pub fn enter(&mut self, cell: Cell, text: &str, notation: Notation) {
        let text = clean(text);
        let same = |shown: &str| shown == text;
        if same(&self.shown(cell, notation)) || same(&self.plain(cell, notation)) {
            return;
        }
        let entry = typed(cell.entry, text, notation);
        let station = self.stations.get_mut(cell.station);
        if let Some(place) = station.and_then(|station| station.get_mut(cell.entry)) {
            *place = entry;
        }
    }

    /// Makes the span from a point to the next one of another surface.
    pub fn set_span(&mut self, point: usize, surface: Surface) {
        if let Some(span) = self.spans.get_mut(point) {
            *span = surface;
        }
    }

    /// Puts the seam at a point.
    pub fn set_seam(&mut self, point: usize) {
        self.seam = point.min(self.spans.len());
    }
}

fn entries(station: &Station) -> Vec<Entry> {
    let points = station.points.iter().flat_map(|point| [point.x, point.y]);
    std::iter::once(station.angle)
        .chain(points)
        .map(Entry::Number)
        .collect()
}

/// What was typed, as a number if it is understood.
pub(super) fn typed(entry: usize, text: String, notation: Notation) -> Entry {
    match understood(entry, &text, notation) {
        Ok(number) => Entry::Number(number),
        Err(_) => Entry::Typed(text),
    }
}

/// The number of a text in a station's entry, or what is wrong with it in words.
pub(super) fn understood(entry: usize, text: &str, notation: Notation) -> Result<f64, String> {
    if entry > 0 {
        let read = |text: &str| figures::understood(text, &STATION_POINT, notation);
        // A comma before three digits may part thousands; not where that would be out of all bounds.
        return read(text).or_else(|fault| match read(&text.replace(',', ".")) {
            Ok(decimal) if read(&text.replace(',', "")).is_err() => Ok(decimal),
            _ => Err(fault),
        });
    }
    let angle = angle_of(text)?;
    if STATION_ANGLE.admits(angle) {
        return Ok(angle);
    }
    let most = angle_words(STATION_ANGLE.most);
    Err(format!(
        "{} is out of range. Type up to {most} or behind.",
        angle_words(angle)
    ))
}

/// Text as a cell can keep it: in one line, not endless.
pub(super) fn clean(text: &str) -> String {
    let spaced = text
        .trim()
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c });
    let short: String = spaced.take(LONGEST).collect();
    short.trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::stations::tests_sheet;

    const TAPE: Notation = Notation::InchFractions;

    #[test]
    fn a_table_is_its_sheet_and_back() {
        let sheet = tests_sheet();
        let table = sheet.sound_table().expect("it is sound");
        assert_eq!(Sheet::of(&table), sheet);
        assert_eq!((sheet.stations(), sheet.points(), sheet.seam()), (3, 6, 3));
    }

    #[test]
    fn what_is_shown_is_read_back_as_the_same_number() {
        let sheet = tests_sheet();
        for notation in Notation::ALL {
            let mut again = sheet.clone();
            for station in 0..sheet.stations() {
                for entry in 0..=2 * sheet.points() {
                    let cell = Cell { station, entry };
                    again.enter(cell, &sheet.shown(cell, notation), notation);
                    again.enter(cell, &sheet.plain(cell, notation), notation);
                    assert_eq!(Cell::of_id(&cell.id("left")), Some(cell));
                }
            }
            assert_eq!(again, sheet);
        }
    }

    #[test]
    fn a_cell_reads_any_notation() {
        let cell = Cell::of_point(1, 2, true);
        for text in ["17 3/8", "17.375 in", "17 3/8\"", "441.325mm", "44,1325 cm"] {
            let mut sheet = tests_sheet();
            sheet.enter(cell, text, TAPE);
            let number = sheet.entry(cell).and_then(Entry::number).expect(text);
            assert!((number - 441.325).abs() < 1e-9, "{text}: {number}");
            assert_eq!(sheet.shown(cell, TAPE), "17 3/8");
        }
        assert_eq!(cell.point(), Some(2));
    }

    #[test]
    fn a_comma_is_read_where_only_one_reading_is_possible() {
        let cell = Cell::of_point(0, 0, false);
        let read = |text: &str, notation| {
            let mut sheet = tests_sheet();
            sheet.enter(cell, text, notation);
            sheet.entry(cell).and_then(Entry::number)
        };
        assert_eq!(read("620,125", Notation::Millimeters), Some(620.125));
        assert_eq!(read("22,875 in", TAPE), Some(22.875 * 25.4));
        assert_eq!(read("1,500", Notation::Millimeters), None);
        assert_eq!(read("1,2,3", Notation::Millimeters), None);
    }

    #[test]
    fn what_is_not_understood_stays_as_typed() {
        let cell = Cell::of_point(0, 0, false);
        let mut sheet = tests_sheet();
        sheet.enter(cell, " a\tb ", TAPE);
        assert_eq!(sheet.shown(cell, TAPE), "a b");
        assert_eq!(sheet.table(), None);
        sheet.enter(cell, "", TAPE);
        assert_eq!(sheet.shown(cell, TAPE), "");
        assert_eq!(sheet.table(), None);
        // A place that the sheet does not have takes nothing.
        sheet.enter(Cell::of_point(9, 9, true), "1", TAPE);
    }
}
