//! The fragment of the page's address: read, and listened to.

use leptos::ev;
use leptos::prelude::*;

/// The fragment, with its `#` unless it is empty.
pub fn fragment() -> String {
    window().location().hash().unwrap_or_default()
}

/// Tells every fragment that the reader goes to: by a link, by hand, back and forth.
pub fn listen(tell: impl Fn(String) + 'static) {
    let listener = window_event_listener(ev::hashchange, move |_| tell(fragment()));
    on_cleanup(move || listener.remove());
}
