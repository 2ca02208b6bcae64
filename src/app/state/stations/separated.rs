//! Cells of a text as spreadsheets copy and save them: parted by tabs, semicolons or commas.

/// The rows of a text, each with its cells. A cell in quotes may hold anything, with quotes doubled.
/// Commas part cells only where they cannot all be decimal commas.
pub fn rows(text: &str) -> Vec<Vec<String>> {
    let parted = |mark: char| {
        let rows = split(text, mark);
        rows.iter().any(|row| row.len() > 1).then_some(rows)
    };
    let mut rows = parted('\t')
        .or_else(|| parted(';'))
        .or_else(|| parted(',').filter(|rows| !are_decimals(rows)))
        .unwrap_or_else(|| split(text, '\t'));
    for cell in rows.iter_mut().flatten() {
        *cell = cell.trim().to_owned();
    }
    rows
}

/// Whether what the commas part reads as numbers with decimals: one comma a row, between digits, with
/// one, two or more than three digits behind it.
fn are_decimals(rows: &[Vec<String>]) -> bool {
    rows.iter().all(|row| match &row[..] {
        [] | [_] => true,
        [whole, rest] => {
            let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
            whole.ends_with(|c: char| c.is_ascii_digit()) && digits > 0 && digits != 3
        }
        _ => false,
    })
}

/// The rows and cells of a text; rows without any text are left out.
fn split(text: &str, mark: char) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let mut row = Vec::new();
    let mut rest = text;
    loop {
        let (cell, after) = quoted(rest, mark).unwrap_or_else(|| {
            let end = rest.find([mark, '\n', '\r']).unwrap_or(rest.len());
            let (cell, after) = rest.split_at(end);
            (cell.to_owned(), after)
        });
        row.push(cell);
        let mut next = after.chars();
        let found = next.next();
        rest = next.as_str();
        if found != Some(mark) {
            let done = std::mem::take(&mut row);
            if done.iter().any(|cell| !cell.trim().is_empty()) {
                rows.push(done);
            }
        }
        if found.is_none() {
            return rows;
        }
    }
}

/// A cell in quotes at the beginning of a text, and what stands behind it. A quote that is never closed
/// before the end of a cell is a sign like any other.
fn quoted(text: &str, mark: char) -> Option<(String, &str)> {
    let inside = text.strip_prefix('"')?;
    let mut cell = String::new();
    let mut rest = inside;
    loop {
        let (before, after) = rest.split_once('"')?;
        cell.push_str(before);
        rest = match after.strip_prefix('"') {
            Some(after) => after,
            None if after.is_empty() || after.starts_with([mark, '\n', '\r']) => {
                return Some((cell.replace(['\n', '\r'], " "), after));
            }
            None => return None,
        };
        cell.push('"');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &[&[&str]]) {
        assert_eq!(rows(text), expected, "{text:?}");
    }

    #[test]
    fn cells_are_parted_as_spreadsheets_part_them() {
        check("1\t2\n3\t4\n", &[&["1", "2"], &["3", "4"]]);
        check("1\t2\r\n\r\n3\t4\r\n", &[&["1", "2"], &["3", "4"]]);
        check("a;b;c", &[&["a", "b", "c"]]);
        check("1,2,3\n4,5,6", &[&["1", "2", "3"], &["4", "5", "6"]]);
        check("24 7/16\t17 3/8\"\n", &[&["24 7/16", "17 3/8\""]]);
        check("\t\t5", &[&["", "", "5"]]);
        check("", &[]);
        check("alone\n", &[&["alone"]]);
    }

    #[test]
    fn decimal_commas_are_no_marks() {
        check("620,5\t450,25", &[&["620,5", "450,25"]]);
        check("620,5;450,25", &[&["620,5", "450,25"]]);
        check("620,5\n450,25", &[&["620,5"], &["450,25"]]);
        check("620,5 mm\n450,25 mm", &[&["620,5 mm"], &["450,25 mm"]]);
        // Three digits behind the comma, or no digits at all, and it parts.
        check("620,450", &[&["620", "450"]]);
        check("angle,-30\n1,2", &[&["angle", "-30"], &["1", "2"]]);
        check("24 1/2, 17", &[&["24 1/2", "17"]]);
    }

    #[test]
    fn quotes_hold_anything() {
        check("\"a\tb\"\tc", &[&["a\tb", "c"]]);
        check("\"7 5/8\"\"\",\"1,5\",x", &[&["7 5/8\"", "1,5", "x"]]);
        check("\"two\nlines\"\t2", &[&["two lines", "2"]]);
        // Not closed: a sign like any other.
        check("\"a\tb\nc\td", &[&["\"a", "b"], &["c", "d"]]);
        check("5\"\t6\"", &[&["5\"", "6\""]]);
    }
}
