//! What a sheet of paper asks of the browser: the date that stands on it, and the printer.

use leptos::prelude::window;

/// Today where the reader is, as ISO 8601 writes it.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!(
        "{}-{:02}-{:02}",
        now.get_full_year(),
        now.get_month() + 1,
        now.get_date()
    )
}

/// Opens the browser's print dialog; says whether there is one.
pub fn print() -> bool {
    window().print().is_ok()
}
