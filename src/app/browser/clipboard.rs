//! The clipboard, which not every browser gives a page.

use js_sys::Reflect;
use leptos::prelude::window;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::Clipboard;
use wasm_bindgen_futures::JsFuture;

/// Copies `text`; says whether the browser did.
pub async fn copy(text: &str) -> bool {
    // Only a page from a safe place has one; elsewhere the name is not even there.
    let navigator: JsValue = window().navigator().into();
    let clipboard = Reflect::get(&navigator, &"clipboard".into())
        .ok()
        .and_then(|it| it.dyn_into::<Clipboard>().ok());
    match clipboard {
        Some(clipboard) => JsFuture::from(clipboard.write_text(text)).await.is_ok(),
        None => false,
    }
}
