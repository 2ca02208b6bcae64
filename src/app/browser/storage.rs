//! The browser's memory between two visits. It may be missing, full or forbidden: that is told, never fatal.

use leptos::ev;
use leptos::prelude::{on_cleanup, window, window_event_listener};
use leptos::web_sys::Storage;

/// What is kept under which name.
#[derive(Debug, Clone, Copy)]
pub enum Slot {
    /// The desk.
    Desk,
    /// Set while a kept desk is being brought back, cleared once it stands: a desk that stops the page
    /// must not stop it twice.
    Opening,
    /// Desks that stopped the page or could not be read, put out of the way.
    Aside,
    /// The shop's photo, behind the name of the car that it belongs to.
    Photo,
    /// The car of this tab as its address has it, or nothing while it has faults: entries of the browser's history
    /// may hold older ones.
    Car,
    /// The name of this tab among others.
    Tab,
}

impl Slot {
    fn name(self) -> &'static str {
        match self {
            Slot::Desk => "lip-to-rail.desk",
            Slot::Opening => "lip-to-rail.opening",
            Slot::Aside => "lip-to-rail.stopped",
            Slot::Photo => "lip-to-rail.photo",
            Slot::Car => "lip-to-rail.car",
            Slot::Tab => "lip-to-rail.tab",
        }
    }
}

/// Where a slot is kept. That a desk is being brought back, the address and the name concern one tab, the rest all of
/// them.
fn storage(slot: Slot) -> Option<Storage> {
    let storage = match slot {
        Slot::Opening | Slot::Car | Slot::Tab => window().session_storage(),
        Slot::Desk | Slot::Aside | Slot::Photo => window().local_storage(),
    };
    storage.ok().flatten()
}

/// What is kept, if anything is.
pub fn read(slot: Slot) -> Option<String> {
    storage(slot)?.get_item(slot.name()).ok().flatten()
}

/// Keeps `text`; says whether it was kept.
pub fn write(slot: Slot, text: &str) -> bool {
    storage(slot).is_some_and(|storage| storage.set_item(slot.name(), text).is_ok())
}

/// Acts on what another tab wrote to this slot. It comes with the news: some browsers read it back only a moment later.
pub fn on_change(slot: Slot, act: impl Fn(Option<String>) + 'static) {
    let changed = window_event_listener(ev::storage, move |event| {
        if event.key().as_deref() == Some(slot.name()) {
            act(event.new_value());
        }
    });
    on_cleanup(move || changed.remove());
}

/// Forgets what was kept.
pub fn forget(slot: Slot) {
    if let Some(storage) = storage(slot) {
        // Nothing kept is nothing to forget.
        let _ = storage.remove_item(slot.name());
    }
}
