//! A sheet as lines of text that outlive a reload.

use geometry::body::Surface;

use super::sheet::{Entry, SURFACES, Sheet, clean};

/// The sheet as lines: seam and surfaces, then a line for each station. A number follows `=`, what was
/// typed follows `'`.
pub fn write(sheet: &Sheet) -> Vec<String> {
    let place = |surface: &Surface| SURFACES.iter().position(|one| one == surface).unwrap_or(0);
    let spans = sheet.spans.iter().map(|span| place(span).to_string());
    let head = [sheet.seam.to_string()].into_iter().chain(spans);
    let station = |entries: &Vec<Entry>| {
        let texts = entries.iter().map(|entry| match entry {
            Entry::Number(number) => ["=", &number.to_string()].concat(),
            Entry::Typed(text) => ["'", text].concat(),
        });
        texts.collect::<Vec<_>>().join("\t")
    };
    let mut lines = vec![head.collect::<Vec<_>>().join("\t")];
    lines.extend(sheet.stations.iter().map(station));
    lines
}

/// The sheet of such lines; nothing when they are damaged.
pub fn read<'t>(mut lines: impl Iterator<Item = &'t str>) -> Option<Sheet> {
    let mut head = lines.next()?.split('\t').map(str::parse::<usize>);
    let seam = head.next()?.ok()?;
    let spans: Option<Vec<Surface>> = head
        .map(|place| SURFACES.get(place.ok()?).copied())
        .collect();
    let spans = spans.filter(|spans| !spans.is_empty() && seam <= spans.len())?;
    let entry = |text: &str| match text.split_at_checked(1)? {
        ("=", number) => number
            .parse()
            .ok()
            .filter(|n: &f64| n.is_finite())
            .map(Entry::Number),
        ("'", typed) => Some(Entry::Typed(clean(typed))),
        _ => None,
    };
    let station = |line: &str| -> Option<Vec<Entry>> {
        let entries: Option<Vec<Entry>> = line.split('\t').map(entry).collect();
        entries.filter(|entries| entries.len() == 2 * spans.len() + 3)
    };
    let stations: Option<Vec<Vec<Entry>>> = lines.map(station).collect();
    let stations = stations.filter(|stations| !stations.is_empty())?;
    Some(Sheet {
        stations,
        spans,
        seam,
    })
}

#[cfg(test)]
mod tests {
    use geometry::units::Notation;

    use super::*;
    use crate::state::stations::{Cell, tests_sheet};

    #[test]
    fn a_sheet_comes_back_as_typed_and_a_damaged_one_does_not() {
        let mut sheet = tests_sheet();
        sheet.enter(
            Cell::of_point(1, 1, true),
            "17 3/8 = 'x'",
            Notation::Millimeters,
        );
        sheet.enter(Cell::of_point(1, 2, true), "", Notation::Millimeters);
        let lines = write(&sheet);
        let back = |lines: &[String]| read(lines.iter().map(String::as_str));
        assert_eq!(back(&lines), Some(sheet));
        assert_eq!(back(&[]), None);
        assert_eq!(back(&lines[..1]), None);
        for (line, damaged) in [(0, "9"), (0, "1\t9"), (0, "x"), (1, "=1"), (1, "")] {
            let mut lines = lines.clone();
            damaged.clone_into(&mut lines[line]);
            assert_eq!(back(&lines), None, "{damaged}");
        }
    }
}
