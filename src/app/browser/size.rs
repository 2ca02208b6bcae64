//! How large an element is shown, and how wide as a signal.

use leptos::html::ElementType;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::web_sys::{Element, ResizeObserver};

/// Widths are told in steps of this many CSS pixels: a scroll bar that comes or goes redraws nothing.
const STEP: f64 = 8.0;

/// Calls `measure` with the element once it is there, and whenever its size changes.
pub fn on_resize<E>(element: NodeRef<E>, measure: impl Fn(&Element) + 'static)
where
    E: ElementType,
    E::Output: JsCast + Clone + 'static,
{
    let watching = StoredValue::new_local(None);
    element.on_load(move |element| {
        let element: Element = element.unchecked_into();
        let watched = element.clone();
        let measure = move || measure(&watched);
        measure();
        let on_resize = Closure::<dyn FnMut()>::new(measure);
        if let Ok(observer) = ResizeObserver::new(on_resize.as_ref().unchecked_ref()) {
            observer.observe(&element);
            watching.set_value(Some((observer, on_resize)));
        }
    });
    // An element that is gone is measured no more.
    on_cleanup(move || {
        if let Some(Some((observer, _))) = watching.try_update_value(Option::take) {
            observer.disconnect();
        }
    });
}

/// The width of the element, CSS pixels, `first` until it is known.
pub fn width_of<E>(element: NodeRef<E>, first: f64) -> ReadSignal<f64>
where
    E: ElementType,
    E::Output: JsCast + Clone + 'static,
{
    let (width, set_width) = signal(first);
    on_resize(element, move |element| {
        let shown = f64::from(element.client_width());
        let stepped = (shown / STEP).floor() * STEP;
        if stepped > 0.0 && (stepped - width.get_untracked()).abs() >= STEP {
            set_width.set(stepped);
        }
    });
    width
}
