//! The fragment of the page's address: read, and listened to.

use leptos::ev;
use leptos::prelude::*;

/// The fragment, with its `#` unless it is empty.
pub fn fragment() -> String {
    window().location().hash().unwrap_or_default()
}

/// The page's own address, without its fragment.
pub fn page() -> String {
    let whole = window().location().href().unwrap_or_default();
    match whole.split_once('#') {
        Some((page, _)) => page.to_owned(),
        None => whole,
    }
}

/// Whether the page was opened from a disk, where nobody else can open it.
pub fn is_on_disk() -> bool {
    window().location().protocol().is_ok_and(|it| it == "file:")
}

/// What marks an entry of the browser's history whose fragment the page wrote itself.
const OURS: &str = "lip-to-rail";

/// Puts another fragment in the place of this one, which the reader cannot go back to.
pub fn replace(fragment: &str) {
    if let Ok(history) = window().history() {
        // A browser that refuses keeps the address as it was: nothing depends on it.
        let _ = history.replace_state_with_url(&OURS.into(), "", Some(fragment));
    }
}

/// Whether the page wrote this fragment itself.
pub fn is_ours() -> bool {
    let state = window().history().and_then(|history| history.state());
    state.is_ok_and(|state| state.as_string().as_deref() == Some(OURS))
}

/// Tells every fragment that the reader goes to: by a link, by hand, back and forth.
pub fn listen(tell: impl Fn(String) + 'static) {
    let listener = window_event_listener(ev::hashchange, move |_| tell(fragment()));
    on_cleanup(move || listener.remove());
}
