//! Whether an element is on the screen, or nearly, as a signal.

use leptos::html::ElementType;
use leptos::prelude::*;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{
    Element, IntersectionObserver, IntersectionObserverEntry, IntersectionObserverInit,
};

/// How far off the screen an element counts as seen: it is drawn by the time that it arrives.
const NEARLY: &str = "160px";

/// Whether the element is in sight; where the browser cannot tell, it always is. One that is collapsed is not.
pub fn in_sight<E>(element: NodeRef<E>) -> ReadSignal<bool>
where
    E: ElementType,
    E::Output: JsCast + Clone + 'static,
{
    watched(element, true)
}

/// The same, but for one that is far down a long page: it is out of sight until the browser tells otherwise, and in
/// sight when the page is printed.
pub fn comes_in_sight<E>(element: NodeRef<E>) -> ReadSignal<bool>
where
    E: ElementType,
    E::Output: JsCast + Clone + 'static,
{
    watched(element, false)
}

fn watched<E>(element: NodeRef<E>, first: bool) -> ReadSignal<bool>
where
    E: ElementType,
    E::Output: JsCast + Clone + 'static,
{
    let (seen, set_seen) = signal(first);
    let printing = window_event_listener_untyped("beforeprint", move |_| set_seen.set(true));
    let watching = StoredValue::new_local(None);
    element.on_load(move |element| {
        let element: Element = element.unchecked_into();
        let told = move |entries: JsValue| {
            let newest = js_sys::Array::from(&entries).pop();
            if let Ok(entry) = newest.dyn_into::<IntersectionObserverEntry>()
                && entry.is_intersecting() != seen.get_untracked()
            {
                set_seen.set(entry.is_intersecting());
            }
        };
        let on_change = Closure::<dyn FnMut(JsValue)>::new(told);
        let init = IntersectionObserverInit::new();
        init.set_root_margin(NEARLY);
        let observer =
            IntersectionObserver::new_with_options(on_change.as_ref().unchecked_ref(), &init);
        if let Ok(observer) = observer {
            observer.observe(&element);
            watching.set_value(Some((observer, on_change)));
        } else {
            set_seen.set(true);
        }
    });
    // An element that is gone is watched no more.
    on_cleanup(move || {
        printing.remove();
        if let Some(Some((observer, _))) = watching.try_update_value(Option::take) {
            observer.disconnect();
        }
    });
    seen
}
