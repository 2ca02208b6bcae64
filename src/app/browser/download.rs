//! Hands a text to the reader as a file.

use js_sys::Array;
use leptos::prelude::document;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Saves `text` as a file called `name`; says whether the browser took it.
pub fn save(name: &str, text: &str) -> bool {
    offer(name, text).is_ok()
}

fn offer(name: &str, text: &str) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type(name));
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link = document()
        .create_element("a")?
        .dyn_into::<HtmlAnchorElement>()?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}

/// What a file of this name holds.
fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("svg") => "image/svg+xml",
        Some("csv") => "text/csv",
        Some("dxf") => "image/vnd.dxf",
        Some("toml") => "application/toml",
        _ => "text/plain",
    }
}
