//! Taking the reader to an element that may be folded away.

use leptos::prelude::document;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::HtmlElement;

/// Unfolds whatever the element of this id is in, and puts the focus on it, which scrolls it into sight.
pub fn reveal(id: &str) {
    let Some(element) = document().get_element_by_id(id) else {
        return;
    };
    let mut above = element.parent_element();
    while let Some(outer) = above {
        if outer.tag_name().eq_ignore_ascii_case("details") {
            // An attribute of this name is always accepted.
            let _ = outer.set_attribute("open", "");
        }
        above = outer.parent_element();
    }
    if let Ok(element) = element.dyn_into::<HtmlElement>() {
        // What cannot take the focus is in sight at least.
        element.scroll_into_view();
        let _ = element.focus();
    }
}
