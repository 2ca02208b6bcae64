//! Putting things in order. The library's sort is made anew for every kind of thing, some five kilobytes of module each
//! time; here it is made once, for places. `clippy.toml` holds everything to it.

use std::cmp::Ordering;

/// Sorts as `slice::sort_by` does: what is equal stays in the order in which it came.
pub fn sort_by<T>(items: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let mut comes_from = places(items.len(), &|a, b| compare(&items[a], &items[b]));
    // Round each ring of the permutation, and every thing is moved once.
    for start in 0..items.len() {
        let mut at = start;
        while comes_from[at] != start {
            let next = comes_from[at];
            items.swap(at, next);
            comes_from[at] = at;
            at = next;
        }
        comes_from[at] = at;
    }
}

/// The places of `count` things, in the order of what stands there.
#[expect(clippy::disallowed_methods, reason = "the one that all share")]
fn places(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|&a, &b| compare(a, b));
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_come_in_order_and_equals_as_they_came() {
        // A multiplier prime to the count: every place is taken once, and the permutation has rings of many lengths.
        for count in 0_usize..80 {
            let mut ours: Vec<(usize, usize)> =
                (0..count).map(|i| (i * 37 % (count / 3 + 1), i)).collect();
            let mut theirs = ours.clone();
            sort_by(&mut ours, |a, b| b.0.cmp(&a.0));
            theirs.sort_by_key(|thing| std::cmp::Reverse(thing.0));
            assert_eq!(ours, theirs);
        }
    }
}
