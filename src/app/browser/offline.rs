//! The page without a network: a worker keeps it, and fetches a newer version beside the one that is open.

use std::rc::Rc;

use js_sys::Reflect;
use leptos::prelude::{document, window};
use leptos::task::spawn_local;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{
    ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
};
use wasm_bindgen_futures::JsFuture;

/// Which of the page's two modules this is, as the worker calls them.
const MODULE: &str = if cfg!(target_feature = "simd128") {
    "lanes"
} else {
    "plain"
};

/// Has the page kept for when there is no network; calls `ready` when a newer version waits. Where the page came with
/// no worker, or the browser takes none, the page simply needs its network.
pub fn keep_page(ready: impl Fn() + 'static) {
    let Some(workers) = workers() else { return };
    spawn_local(async move {
        let asked = workers.register(&format!("worker.js?{MODULE}"));
        let Ok(registration) = JsFuture::from(asked).await else {
            return;
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        if registration.waiting().is_some() {
            ready();
        }
        let ready = Rc::new(ready);
        let coming = registration.clone();
        let found = Closure::<dyn FnMut()>::new(move || {
            let Some(worker) = coming.installing() else {
                return;
            };
            // The first version has nothing to take the place of.
            if coming.active().is_some() {
                let ready = Rc::clone(&ready);
                when(&worker, ServiceWorkerState::Installed, move || ready());
            }
        });
        registration.set_onupdatefound(Some(found.as_ref().unchecked_ref()));
        // It lives as long as the page.
        found.forget();
    });
}

/// Puts the version that waits in the place of this one, and loads it. What is open must be kept before.
pub fn take_newer() {
    let Some(workers) = workers() else { return };
    spawn_local(async move {
        let Ok(registration) = JsFuture::from(workers.get_registration()).await else {
            return;
        };
        let waiting = registration
            .dyn_into::<ServiceWorkerRegistration>()
            .ok()
            .and_then(|registration| registration.waiting());
        match waiting {
            Some(worker) => {
                when(&worker, ServiceWorkerState::Activated, load_again);
                // A worker that hears nothing takes over at the next visit all the same.
                let _ = worker.post_message(&"take over".into());
            }
            // Taken over already, in another tab, it needs only to be loaded.
            None => load_again(),
        }
    });
}

/// Acts when a worker comes to a state.
fn when(worker: &ServiceWorker, state: ServiceWorkerState, act: impl Fn() + 'static) {
    let of = worker.clone();
    let changed = Closure::<dyn FnMut()>::new(move || {
        if of.state() == state {
            act();
        }
    });
    worker.set_onstatechange(Some(changed.as_ref().unchecked_ref()));
    changed.forget();
}

fn load_again() {
    // A browser that does not load again shows the page as it is.
    let _ = window().location().reload();
}

/// The browser's workers, where the page came with one.
fn workers() -> Option<ServiceWorkerContainer> {
    document()
        .query_selector("link[rel=manifest]")
        .ok()
        .flatten()?;
    // Only a page from a safe place may have workers; elsewhere the name is not even there.
    let navigator: JsValue = window().navigator().into();
    Reflect::get(&navigator, &"serviceWorker".into())
        .ok()?
        .dyn_into()
        .ok()
}
