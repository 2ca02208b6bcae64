//! Where the focus goes: to an element that may be folded away, or on from one that is taken off the page.

use leptos::prelude::{document, request_animation_frame};
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

/// The same once the page is drawn anew: what was just put on it is there by then.
pub fn reveal_soon(id: String) {
    request_animation_frame(move || reveal(&id));
}

/// Puts the focus on the element of this id, if there is one that takes it.
pub fn focus_on(id: &str) {
    let element = document().get_element_by_id(id);
    if let Some(element) = element.and_then(|it| it.dyn_into::<HtmlElement>().ok()) {
        // What takes no focus leaves it where it is.
        let _ = element.focus();
    }
}

/// Puts the focus there once the page is drawn anew, if what had it is gone by then.
pub fn pass_focus_to(id: &'static str) {
    request_animation_frame(move || {
        let holder = document().active_element();
        if holder.is_none_or(|holder| holder.tag_name().eq_ignore_ascii_case("body")) {
            focus_on(id);
        }
    });
}
