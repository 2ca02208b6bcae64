//! The keys that work everywhere on the page.

use leptos::ev;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{HtmlElement, HtmlInputElement, HtmlTextAreaElement};

use crate::bench::store::Bench;

/// Listens for undo and redo.
pub fn listen(bench: Bench) {
    let listener = window_event_listener(ev::keydown, move |key| {
        let Some(back) = wants_step(&key) else { return };
        // Whoever is typing takes back letters, not cars.
        if is_typing() {
            return;
        }
        key.prevent_default();
        if back { bench.undo() } else { bench.redo() }
    });
    on_cleanup(move || listener.remove());
}

/// Whether the keys ask for a step, and whether it is one back.
fn wants_step(key: &KeyboardEvent) -> Option<bool> {
    if !(key.ctrl_key() || key.meta_key()) || key.alt_key() {
        return None;
    }
    match (key.key().to_ascii_lowercase().as_str(), key.shift_key()) {
        ("z", false) => Some(true),
        ("z", true) | ("y", false) => Some(false),
        _ => None,
    }
}

fn is_typing() -> bool {
    let focused = document().active_element();
    let Some(element) = focused.and_then(|element| element.dyn_into::<HtmlElement>().ok()) else {
        return false;
    };
    if element.is_instance_of::<HtmlTextAreaElement>() {
        return true;
    }
    let is_text = element
        .dyn_ref::<HtmlInputElement>()
        .is_some_and(|input| input.type_() == "text");
    is_text && element.get_attribute("data-typing").is_some()
}
