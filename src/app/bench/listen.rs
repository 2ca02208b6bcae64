//! Listeners of one type each, so that the page holds the code of one, not of every closure.

use leptos::ev::Event;
use leptos::prelude::*;

/// Something to do on a click.
pub fn press<E: 'static>(mut act: impl FnMut() + 'static) -> Box<dyn FnMut(E)> {
    Box::new(move |_| act())
}

/// Something to do with what an input holds.
pub fn entry(mut take: impl FnMut(String) + 'static) -> Box<dyn FnMut(Event)> {
    Box::new(move |event| take(event_target_value(&event)))
}

/// Something to do with a tick.
pub fn tick(mut take: impl FnMut(bool) + 'static) -> Box<dyn FnMut(Event)> {
    Box::new(move |event| take(event_target_checked(&event)))
}
