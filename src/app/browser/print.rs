//! What a sheet of paper asks of the browser: the date that stands on it, the printer, and when it prints.

use leptos::prelude::*;

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

/// True from before the browser lays the page out on paper until it is done.
pub fn printing() -> ReadSignal<bool> {
    let (printing, set) = signal(false);
    let before = window_event_listener_untyped("beforeprint", move |_| set.set(true));
    let after = window_event_listener_untyped("afterprint", move |_| set.set(false));
    on_cleanup(move || {
        before.remove();
        after.remove();
    });
    printing
}
