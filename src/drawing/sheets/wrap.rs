//! Words broken into lines, by how wide they come out at most.

use crate::lettering::width;
use crate::role::Role;

/// How much wider than the estimate lettering may come out, plain and bold: the most that was measured on any text of
/// the sheets in a browser on Linux, whose own sans serif is the widest of the common ones.
const PLAIN: f64 = 1.06;
const BOLD: f64 = 1.23;

/// How wide words come out at most, at `size`.
pub(super) fn widest(words: &str, size: f64, role: Role) -> f64 {
    width(words, size * slack(role))
}

fn slack(role: Role) -> f64 {
    if role == Role::SheetHeading {
        BOLD
    } else {
        PLAIN
    }
}

/// Words as lines no wider than `room` at `size`; never none.
pub(super) fn wrapped(words: &str, room: f64, size: f64, role: Role) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in glued(words) {
        let last = lines.len() - 1;
        let longer = if lines[last].is_empty() {
            word.clone()
        } else {
            format!("{} {word}", lines[last])
        };
        if widest(&longer, size, role) <= room || lines[last].is_empty() {
            lines[last] = longer;
        } else {
            lines.push(word);
        }
    }
    lines
}

/// The words between which a line may be broken: a number keeps its fraction and its unit.
pub(super) fn glued(words: &str) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric());
        let belongs = matches!(bare, "in" | "mm") || (bare.contains('/') && starts_in_digit(bare));
        match list.last_mut() {
            Some(last) if belongs && last.ends_with(|c: char| c.is_ascii_digit()) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => list.push(word.to_owned()),
        }
    }
    list
}

fn starts_in_digit(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_not_broken_from_its_fraction_or_its_unit() {
        let lines = wrapped("wide: 12 5/16 in (312.0 mm) or so", 22.0, 2.0, Role::Text);
        assert_eq!(lines, ["wide: 12 5/16 in", "(312.0 mm) or so"]);
    }

    #[test]
    fn nothing_makes_one_empty_line_and_a_long_word_stays_whole() {
        assert_eq!(wrapped("", 10.0, 2.0, Role::Text), [""]);
        assert_eq!(
            wrapped("unbreakable", 1.0, 2.0, Role::Text),
            ["unbreakable"]
        );
    }
}
