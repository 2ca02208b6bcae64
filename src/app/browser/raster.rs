//! A drawing as pixels.

use js_sys::{Promise, encode_uri_component};
use leptos::prelude::document;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, HtmlImageElement};
use wasm_bindgen_futures::JsFuture;

/// An SVG file as an address that shows it.
pub fn address(svg: &str) -> String {
    format!(
        "data:image/svg+xml,{}",
        String::from(encode_uri_component(svg))
    )
}

/// An SVG file as a PNG, `width` pixels wide and as high as the file says.
pub async fn png(svg: &str, width: f64) -> Result<Blob, JsValue> {
    let image = HtmlImageElement::new()?;
    image.set_src(&address(svg));
    JsFuture::from(image.decode()).await?;
    let height = width * f64::from(image.natural_height()) / f64::from(image.natural_width());
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width(pixels(width));
    canvas.set_height(pixels(height));
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    context.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, width, height)?;
    let made = Promise::new(&mut |resolve, reject| {
        let done = Closure::once_into_js(move |blob: JsValue| {
            let answer = if blob.is_null() { reject } else { resolve };
            // Whoever waits is told either way.
            let _ = answer.call1(&JsValue::NULL, &blob);
        });
        // Where it throws, nobody is told and the promise stays open: browsers do so for other sites' pictures only.
        let _ = canvas.to_blob(done.unchecked_ref());
    });
    JsFuture::from(made).await.map(JsCast::unchecked_into)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a picture has as many pixels as may be asked for, which is few"
)]
fn pixels(length: f64) -> u32 {
    length.round() as u32
}
