//! Marks the boxes whose number does not go with the others, wherever they are on the page.

use leptos::prelude::document;

/// The attribute that the style sheet shows.
const MARK: &str = "data-wrong";

/// Marks the boxes of these ids in place of those that were marked before.
pub fn mark(before: &[String], now: &[String]) {
    let boxes = |ids: &[String]| {
        let found = ids.iter().filter_map(|id| document().get_element_by_id(id));
        found.collect::<Vec<_>>()
    };
    // An attribute of this name is always accepted.
    for element in boxes(before) {
        let _ = element.remove_attribute(MARK);
    }
    for element in boxes(now) {
        let _ = element.set_attribute(MARK, "");
    }
}
