//! When the page itself fails: the work is kept already, and a plain message takes the place of a blank page.

use std::cell::Cell;

use leptos::prelude::document;
use leptos::wasm_bindgen::JsValue;
use leptos::web_sys::Element;

thread_local! {
    /// Whether the browser keeps the newest desk that the page is known to have survived.
    static IS_KEPT: Cell<bool> = const { Cell::new(false) };
}

/// Remembers whether the browser took the work the last time: what is said when the page stops.
pub fn remember(is_kept: bool) {
    IS_KEPT.set(is_kept);
}

/// Takes over from the default of showing nothing.
pub fn set_hook() {
    std::panic::set_hook(Box::new(|panic| {
        console_error_panic_hook::hook(panic);
        // A page without a body cannot say anything anyway.
        let _ = tell(IS_KEPT.get());
    }));
}

fn tell(kept: bool) -> Result<(), JsValue> {
    let document = document();
    let note = document.create_element("div")?;
    note.set_class_name("stopped");
    note.set_attribute("role", "alert")?;
    let work = if kept {
        "Your car is kept, up to the last change but one. Load the page again to go on."
    } else {
        "The browser keeps nothing for this page, so the last changes may be lost. Load the page again to go on."
    };
    say(&note, "h1", "The page stopped")?;
    say(
        &note,
        "p",
        "This is a fault of the page, not of your numbers.",
    )?;
    say(&note, "p", work)?;
    let again = document.create_element("a")?;
    // The same address without its fragment loads the page anew, as one file too.
    again.set_attribute("href", "")?;
    again.set_text_content(Some("Load the page again"));
    note.append_child(&again)?;
    if let Some(body) = document.body() {
        let main = document.create_element("main")?;
        main.append_child(&note)?;
        body.set_inner_html("");
        body.append_child(&main)?;
    }
    Ok(())
}

fn say(note: &Element, tag: &str, text: &str) -> Result<(), JsValue> {
    let line = note
        .owner_document()
        .ok_or(JsValue::NULL)?
        .create_element(tag)?;
    line.set_text_content(Some(text));
    note.append_child(&line)?;
    Ok(())
}
