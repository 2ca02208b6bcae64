//! Faults of a car file, with the line and column where each stands.

use geometry::order;

/// One thing that is wrong with a car file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileFault {
    /// The line, counted from one.
    pub line: usize,
    /// The column, counted from one, in characters.
    pub column: usize,
    /// The key, `table.key`; empty when the whole file is meant.
    pub at: String,
    /// What was found.
    pub found: String,
    /// What would be accepted.
    pub accepted: String,
}

/// `LINE:COLUMN: found; accepted`, as editors and terminals follow it.
impl std::fmt::Display for FileFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{}:{}: {}; {}",
            self.line, self.column, self.found, self.accepted
        )
    }
}

impl std::error::Error for FileFault {}

/// The most faults that are told of one file: whoever has more than these has another kind of file.
const MOST: usize = 100;

/// Gathers faults of one text, which it needs to turn a byte's offset into line and column.
pub(crate) struct Faults<'t> {
    text: &'t str,
    list: Vec<FileFault>,
}

impl<'t> Faults<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        Self {
            text,
            list: Vec::new(),
        }
    }

    /// Adds a fault at a byte's offset.
    pub(crate) fn add(
        &mut self,
        offset: usize,
        at: impl Into<String>,
        found: impl Into<String>,
        accepted: impl Into<String>,
    ) {
        if self.list.len() >= MOST {
            return;
        }
        let (line, column) = line_and_column(self.text, offset);
        let (at, found, accepted) = (at.into(), found.into(), accepted.into());
        self.list.push(FileFault {
            line,
            column,
            at,
            found,
            accepted,
        });
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The faults in the order in which they stand in the file, each once.
    pub(crate) fn into_sorted(mut self) -> Vec<FileFault> {
        order::sort_by(&mut self.list, Ord::cmp);
        self.list.dedup();
        self.list
    }
}

fn line_and_column(text: &str, offset: usize) -> (usize, usize) {
    let mut end = offset.min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let before = &text[..end];
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (
        before.matches('\n').count() + 1,
        before[line_start..].chars().count() + 1,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_lines_and_characters_from_one() {
        let text = "a\nz\u{e4}\u{e4}b\n";
        assert_eq!(line_and_column(text, 0), (1, 1));
        assert_eq!(line_and_column(text, 2), (2, 1));
        assert_eq!(line_and_column(text, 7), (2, 4));
        assert_eq!(line_and_column(text, 4), (2, 2)); // within a character
        assert_eq!(line_and_column(text, 99), (3, 1));
    }
}
