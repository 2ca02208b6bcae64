//! A table of a sheet: the same for the page and for a spreadsheet.

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
    pub(super) fn row<const N: usize>(&mut self, cells: [String; N]) {
        let cell = |words: String| {
            if words.is_empty() {
                Cell::Blank
            } else {
                Cell::Words(words)
            }
        };
        self.rows.push(cells.into_iter().map(cell).collect());
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
    fn what_a_spreadsheet_would_mistake_is_quoted() {
        let mut table = Table::new("a, b", &[("length", 1.0), ("found", 1.0)]);
        table.row(["7 5/8\"".to_owned(), String::new()]);
        assert_eq!(
            csv(&[table]),
            "\"a, b\"\r\nlength,found\r\n\"7 5/8\"\"\",\r\n"
        );
    }
}
