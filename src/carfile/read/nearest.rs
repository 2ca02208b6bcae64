//! The known word nearest to one that is not known.

/// The known word that takes the fewest slips of a finger to become `word`, if it takes few enough.
pub(super) fn nearest<'k>(word: &str, known: &[&'k str]) -> Option<&'k str> {
    // A long word is surely not a known one, and the table of slips grows with its length.
    if word.len() > 64 {
        return None;
    }
    let few_enough = (word.chars().count() / 3).max(2);
    known
        .iter()
        .map(|candidate| (slips(word, candidate), *candidate))
        .filter(|(slips, _)| *slips <= few_enough)
        .min()
        .map(|(_, candidate)| candidate)
}

/// Letters to put in, take out or change (Levenshtein 1966), by rows.
fn slips(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, to) in b.iter().enumerate() {
            let changed = diagonal + usize::from(from != *to);
            diagonal = row[j + 1];
            row[j + 1] = changed.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_what_was_meant() {
        let known = ["backspacing", "rim_width", "to_rail", "to_lip"];
        assert_eq!(nearest("backspaceing", &known), Some("backspacing"));
        assert_eq!(nearest("rimwidth", &known), Some("rim_width"));
        assert_eq!(nearest("to_lp", &known), Some("to_lip"));
        assert_eq!(nearest("color", &known), None);
        assert_eq!(nearest(&"x".repeat(5000), &known), None);
    }
}
