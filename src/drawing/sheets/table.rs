//! A table of a sheet: the same for the page and for a spreadsheet.

use super::flow::PAD;
use super::paper::NOTE;
use super::wrap::{glued, widest};
use crate::role::Role;

/// A cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cell {
    /// What stands in it.
    Words(String),
    /// Nothing yet: a line to write on.
    Blank,
}

/// A table with its title.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it lists.
    pub title: String,
    /// The heads of its columns, each with its share of the width.
    pub heads: Vec<(&'static str, f64)>,
    /// Its rows, each as long as the heads.
    pub rows: Vec<Vec<Cell>>,
}

impl Table {
    pub(super) fn new(title: impl Into<String>, heads: &[(&'static str, f64)]) -> Self {
        Self {
            title: title.into(),
            heads: heads.to_vec(),
            rows: Vec::new(),
        }
    }

    /// Adds a row; empty words are a blank to write on.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        let cell = |words: String| {
            if words.is_empty() {
                Cell::Blank
            } else {
                Cell::Words(words)
            }
        };
        self.rows.push(cells.into_iter().map(cell).collect());
    }

    /// The widths of its columns on paper, `whole` together, mm: by their shares, but none less than its longest word
    /// that is not broken takes.
    pub(super) fn widths(&self, whole: f64) -> Vec<f64> {
        let longest = |words: &str, role: Role| {
            let words = glued(words);
            let widths = words.iter().map(|word| widest(word, NOTE, role));
            widths.fold(0.0, f64::max) + 2.0 * PAD
        };
        let least: Vec<f64> = (0..self.heads.len())
            .map(|column| {
                let cells = self.rows.iter().map(|row| match &row[column] {
                    Cell::Words(words) => longest(words, Role::Text),
                    Cell::Blank => 0.0,
                });
                cells.fold(longest(self.heads[column].0, Role::SheetHeading), f64::max)
            })
            .collect();
        // A column that its share would leave too narrow takes what it needs; the others share the rest.
        let mut narrow = vec![false; least.len()];
        loop {
            let taken: f64 = least
                .iter()
                .zip(&narrow)
                .map(|(least, &is)| if is { *least } else { 0.0 })
                .sum();
            let shares = self.heads.iter().zip(&narrow);
            let all: f64 = shares
                .map(|((_, share), &is)| if is { 0.0 } else { *share })
                .sum();
            let widths: Vec<f64> = (0..least.len())
                .map(|column| {
                    if narrow[column] {
                        least[column]
                    } else {
                        self.heads[column].1 / all * (whole - taken)
                    }
                })
                .collect();
            let too_narrow =
                (0..least.len()).find(|&column| !narrow[column] && widths[column] < least[column]);
            match too_narrow {
                Some(column) => narrow[column] = true,
                None => return widths,
            }
        }
    }

    /// The table with its title as lines of comma-separated values (RFC 4180).
    fn write(&self, out: &mut String) {
        line(out, [self.title.as_str()].into_iter());
        line(out, self.heads.iter().map(|(head, _)| *head));
        for row in &self.rows {
            line(
                out,
                row.iter().map(|cell| match cell {
                    Cell::Words(words) => words.as_str(),
                    Cell::Blank => "",
                }),
            );
        }
    }
}

/// Tables as one file of comma-separated values, an empty line between two of them.
#[must_use]
pub fn csv(tables: &[Table]) -> String {
    let mut out = String::new();
    for (index, table) in tables.iter().enumerate() {
        if index > 0 {
            out.push_str("\r\n");
        }
        table.write(&mut out);
    }
    out
}

fn line<'a>(out: &mut String, fields: impl Iterator<Item = &'a str>) {
    for (index, field) in fields.enumerate() {
        if index > 0 {
            out.push(',');
        }
        if field.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&field.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(field);
        }
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_is_never_narrower_than_its_longest_word() {
        let mut table = Table::new("", &[("a", 1.0), ("b", 9.0)]);
        table.row(["10 15/16 in".to_owned(), "so".to_owned()]);
        let widths = table.widths(100.0);
        let needed = widest("10 15/16 in", NOTE, Role::Text) + 2.0 * PAD;
        assert!(needed > 10.0 && (widths[0] - needed).abs() < 1e-9);
        assert!((widths[0] + widths[1] - 100.0).abs() < 1e-9);
    }

    #[test]
    fn what_a_spreadsheet_would_mistake_is_quoted() {
        let mut table = Table::new("a, b", &[("length", 1.0), ("found", 1.0)]);
        table.row(["7 5/8\"".to_owned(), String::new()]);
        assert_eq!(
            csv(&[table]),
            "\"a, b\"\r\nlength,found\r\n\"7 5/8\"\"\",\r\n"
        );
    }
}
