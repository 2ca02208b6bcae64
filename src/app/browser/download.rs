//! Hands something to the reader as a file.

use js_sys::Array;
use leptos::prelude::document;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Saves `text` as a file called `name`; says whether the browser took it.
pub fn save(name: &str, text: &str) -> bool {
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type(name));
    Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)
        .is_ok_and(|blob| save_blob(name, &blob))
}

/// Saves anything as a file called `name`; says whether the browser took it.
pub fn save_blob(name: &str, blob: &Blob) -> bool {
    offer(name, blob).is_ok()
}

fn offer(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(blob)?;
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
