//! How places of a station table are named and typed.

use geometry::body::Surface;
use geometry::units::{degrees, parse_angle};

use super::sheet::{Cell, Sheet};
use crate::state::figures::decimals;
use crate::state::work::Work;
use geometry::side::Side;

/// An angle round the wheel: `30° ahead`, `15° behind`, `straight up`.
pub fn angle_words(angle: f64) -> String {
    let size = decimals(degrees(angle.abs()), 1);
    match size.as_str() {
        "0" => "straight up".to_owned(),
        _ => format!("{size}° {}", if angle > 0.0 { "ahead" } else { "behind" }),
    }
}

/// The angle of a text: degrees with a sign, or with `ahead` or `behind`.
pub fn angle_of(text: &str) -> Result<f64, String> {
    let lower = text.trim().to_ascii_lowercase();
    let (size, sign) = match (lower.strip_suffix("ahead"), lower.strip_suffix("behind")) {
        (Some(size), _) => (size, 1.0),
        (_, Some(size)) => (size, -1.0),
        _ if lower == "straight up" => return Ok(0.0),
        _ => (lower.as_str(), 1.0),
    };
    parse_angle(size).map(|angle| sign * angle + 0.0).map_err(|_| {
        let found = if lower.is_empty() { "Nothing" } else { text };
        format!("Not understood: “{found}”. Type degrees from straight up, such as 30 behind, 30 ahead or −30.")
    })
}

impl Sheet {
    /// What a point is called: after the surfaces that meet there.
    pub fn point_name(&self, point: usize) -> String {
        let before = point.checked_sub(1).and_then(|span| self.span(span));
        let name = match (before, self.span(point)) {
            _ if point == self.seam => "seam".to_owned(),
            (None, None) => String::new(),
            (None, Some(surface)) => format!("{}, edge", surface.label()),
            (Some(Surface::TubWall), None) => "tub wall, low".to_owned(),
            (Some(surface), None) => format!("{}, end", surface.label()),
            (Some(a), Some(b)) if a != b => format!("{} to {}", a.label(), b.label()),
            (Some(surface), _) => format!("{} {}", surface.label(), self.place_in_run(point)),
        };
        capital(name)
    }

    /// Which point inside its surface it is, counted from one; the seam is not counted.
    fn place_in_run(&self, point: usize) -> usize {
        let surface = self.span(point);
        let inside = |k: &usize| *k > 0 && self.span(*k) == surface && self.span(k - 1) == surface;
        (1..=point)
            .rev()
            .take_while(inside)
            .filter(|k| *k != self.seam)
            .count()
    }

    /// Where a station is: its angle, or its number while the angle is not understood.
    pub fn station_name(&self, station: usize) -> String {
        let angle = Cell { station, entry: 0 };
        match self.entry(angle).and_then(super::sheet::Entry::number) {
            Some(angle) => angle_words(angle),
            None => format!("station {}", station + 1),
        }
    }

    /// A cell in words.
    pub fn cell_name(&self, cell: Cell) -> String {
        match cell.point() {
            None => format!("Angle of station {}", cell.station + 1),
            Some(point) => {
                let part = if cell.entry % 2 == 1 { "out" } else { "radius" };
                format!(
                    "{}, {}, {part}",
                    self.point_name(point),
                    self.station_name(cell.station)
                )
            }
        }
    }

    /// A column and row in words, without which of the two numbers is meant.
    pub fn spot_name(&self, cell: Cell) -> String {
        match cell.point() {
            None => self.station_name(cell.station),
            Some(point) => format!(
                "{}, {}",
                self.point_name(point),
                self.station_name(cell.station)
            ),
        }
    }
}

/// So many stations of so many points.
pub fn counted(stations: usize, points: usize) -> String {
    format!("{stations} stations of {points} points")
}

/// Where the sheet metal of both sides comes from, in a few words.
pub fn state_words(work: &Work) -> String {
    let of = |side: Side| {
        let own = work.car.sides.get(side).stations.is_some();
        match (work.drafts.get(side), own) {
            (Some(_), _) => Some(format!("{}: has faults", side.word())),
            (None, true) => Some(format!("{}: own table", side.word())),
            (None, false) => None,
        }
    };
    let told: Vec<String> = Side::BOTH.into_iter().filter_map(of).collect();
    if told.is_empty() {
        "from the tape readings".to_owned()
    } else {
        told.join(", ")
    }
}

/// What came of pasting so many texts, so many of them beyond the table.
pub fn filled_words((entered, beyond): (usize, usize)) -> String {
    let entered = match entered {
        1 => "One cell was pasted.".to_owned(),
        many => format!("{many} cells were pasted."),
    };
    match beyond {
        0 => entered,
        _ => format!(
            "{entered} {beyond} lay beyond the table and were left out: add points or stations first, or paste a whole table below."
        ),
    }
}

/// What so many faults mean for the picture.
pub fn flaws_words(flaws: usize, own: bool) -> String {
    let shown = if own {
        "its last sound state"
    } else {
        "what the tape readings say"
    };
    match flaws {
        0 => String::new(),
        1 => format!(
            "One place of this table is to be mended. Until then the picture and the gap list show {shown}."
        ),
        many => format!(
            "{many} places of this table are to be mended. Until then the picture and the gap list show {shown}."
        ),
    }
}

fn capital(mut name: String) -> String {
    if let Some(first) = name.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    name
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::stations::tests_sheet;

    #[test]
    fn every_point_has_a_name_of_its_own() {
        let mut sheet = tests_sheet();
        let names = |sheet: &Sheet| -> Vec<String> {
            (0..sheet.points())
                .map(|point| sheet.point_name(point))
                .collect()
        };
        assert_eq!(
            names(&sheet),
            [
                "Quarter lip, edge",
                "Quarter lip to outer half",
                "Outer half to roof",
                "Seam",
                "Roof to tub wall",
                "Tub wall, low"
            ]
        );
        sheet.add_point(2);
        sheet.add_point(4);
        sheet.add_point(6);
        sheet.add_point(7);
        let named = names(&sheet);
        assert_eq!(named[3], "Roof 1");
        assert_eq!(named[5], "Roof 2");
        assert_eq!(named[7..9], ["Tub wall 1", "Tub wall 2"]);
        let mut once = named.clone();
        once.sort();
        once.dedup();
        assert_eq!(once.len(), named.len(), "{named:?}");
        let cell = Cell::of_point(0, 9, false);
        assert_eq!(sheet.cell_name(cell), "Tub wall, low, 30° behind, out");
    }

    #[test]
    fn angles_are_read_as_they_are_shown() {
        for (text, degrees_of_it) in [
            ("30° behind", -30.0),
            ("30 ahead", 30.0),
            ("-30", -30.0),
            ("−30°", -30.0),
            ("straight up", 0.0),
            ("0", 0.0),
            ("22.5 deg", 22.5),
            (" 22,5 behind ", -22.5),
        ] {
            let angle = angle_of(text).expect(text);
            assert!((degrees(angle) - degrees_of_it).abs() < 1e-9, "{text}");
            assert_eq!(angle_of(&angle_words(angle)), Ok(angle));
        }
        for text in ["", "behind", "high", "30 above", "30 ahead of it"] {
            let words = angle_of(text).expect_err(text);
            assert!(words.contains("such as 30 behind"), "{words}");
        }
    }
}
