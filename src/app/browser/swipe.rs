//! Sliders under a finger that scrolls: the touch that begins the swipe moves them first, and the browser leaves it so.

use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Event, EventInit, EventTarget, HtmlInputElement};

/// Puts a slider back where it was before a swipe began on it, for as long as the page is there.
pub fn put_sliders_back() {
    let touched = StoredValue::new_local(None::<(HtmlInputElement, String)>);
    let slider = |target: Option<EventTarget>| {
        let input: HtmlInputElement = target?.dyn_into().ok()?;
        (input.type_() == "range").then_some(input)
    };
    // The value is still the one before the touch.
    let down = window_event_listener(ev::pointerdown, move |pointer| {
        touched.set_value(slider(pointer.target()).map(|input| {
            let value = input.value();
            (input, value)
        }));
    });
    // A finger that scrolls is no pointer of the page any more.
    let cancel = window_event_listener(ev::pointercancel, move |_| {
        let Some(Some((input, value))) = touched.try_update_value(Option::take) else {
            return;
        };
        if input.value() == value {
            return;
        }
        input.set_value(&value);
        let bubbling = EventInit::new();
        bubbling.set_bubbles(true);
        if let Ok(moved) = Event::new_with_event_init_dict("input", &bubbling) {
            // Whoever listens is told as of any other move of the slider.
            let _ = input.dispatch_event(&moved);
        }
    });
    on_cleanup(move || {
        down.remove();
        cancel.remove();
    });
}
