//! What the shell says while the page is on its way.

use leptos::prelude::document;

/// Takes it away: the page is here.
pub fn end() {
    if let Some(said) = document().get_element_by_id("starting") {
        said.remove();
    }
}
