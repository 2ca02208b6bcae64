//! Shows in the places of a station table what they are to show.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement};

use crate::state::stations::Shows;

/// The element of an id.
pub fn by_id(id: &str) -> Option<HtmlElement> {
    document().get_element_by_id(id)?.dyn_into().ok()
}

/// Fills in the places of one side. A box that is being typed into keeps what is typed.
pub fn show(places: &[(String, Shows)], side: &str) {
    clear(side);
    for (id, shows) in places {
        let Some(place) = by_id(id) else { continue };
        match shows {
            Shows::Text(text) => place.set_text_content(Some(text)),
            Shows::Markup(markup) => place.set_inner_html(markup),
            Shows::Seen(seen) => place.set_hidden(!seen),
            Shows::Marked => {
                if let Some(input) = place.dyn_ref::<HtmlInputElement>() {
                    input.set_checked(true);
                }
            }
            Shows::Holds(text) => hold(&place, text),
            Shows::Wrong(brief) => {
                set(&place, "aria-invalid", "true");
                set(&place, "aria-describedby", &[id, "-flaw"].concat());
                if let Some(beside) = place.next_element_sibling() {
                    beside.set_text_content(Some(brief));
                }
            }
        }
    }
}

/// Takes away what was wrong before.
fn clear(side: &str) {
    let Some(table) = by_id(&["sheet-", side].concat()) else {
        return;
    };
    while let Ok(Some(place)) = table.query_selector("[aria-invalid]") {
        for name in ["aria-invalid", "aria-describedby"] {
            // An attribute that is not there need not be taken away.
            let _ = place.remove_attribute(name);
        }
        if let Some(beside) = place.next_element_sibling() {
            beside.set_text_content(None);
        }
    }
}

fn hold(place: &HtmlElement, text: &str) {
    if let Some(input) = place.dyn_ref::<HtmlInputElement>() {
        if !input.has_attribute("data-typing") {
            input.set_value(text);
        }
    } else if let Some(menu) = place.dyn_ref::<HtmlSelectElement>() {
        menu.set_value(text);
    }
}

/// Sets an attribute.
pub fn set(element: &Element, name: &str, value: &str) {
    // The names are ours, and good ones.
    let _ = element.set_attribute(name, value);
}
