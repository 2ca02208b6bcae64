//! What the reader's system asks of the page.

use leptos::prelude::window;

/// Whether motion is to be reduced.
pub fn is_reduced() -> bool {
    matches("(prefers-reduced-motion: reduce)")
}

/// Whether the page stands on a narrow screen: a phone held upright.
pub fn is_narrow() -> bool {
    matches("(max-width: 47.99rem)")
}

fn matches(query: &str) -> bool {
    window()
        .match_media(query)
        .ok()
        .flatten()
        .is_some_and(|list| list.matches())
}
