//! A photo from a file, made small enough to be kept.

use leptos::prelude::{document, window};
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap};
use wasm_bindgen_futures::JsFuture;

/// The longer edge of a photo that is kept, pixels: enough for half a printed page.
const LONGEST: f64 = 1200.0;
/// The longest text that a photo is kept as, bytes: a browser keeps some millions in all.
const LARGEST: usize = 400_000;
/// What is tried in turn until the photo is small enough: how true it stays.
const TRUE_TO: [f64; 4] = [0.82, 0.66, 0.5, 0.34];

/// The photo as the text of a picture that a page can show; nothing for a file that is no picture, or that stays too
/// large.
pub async fn made_small(file: &File) -> Option<String> {
    let read = window().create_image_bitmap_with_blob(file).ok()?;
    let photo: ImageBitmap = JsFuture::from(read).await.ok()?.dyn_into().ok()?;
    drawn(&photo).ok().flatten()
}

fn drawn(photo: &ImageBitmap) -> Result<Option<String>, JsValue> {
    let (width, height) = (f64::from(photo.width()), f64::from(photo.height()));
    let scale = (LONGEST / width.max(height)).min(1.0);
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.dyn_into()?;
    let [across, down] = [width, height].map(|edge| pixels(edge * scale));
    canvas.set_width(across);
    canvas.set_height(down);
    let Some(sheet) = canvas.get_context("2d")? else {
        return Ok(None);
    };
    let sheet: CanvasRenderingContext2d = sheet.dyn_into()?;
    let (across, down) = (f64::from(across), f64::from(down));
    sheet.draw_image_with_image_bitmap_and_dw_and_dh(photo, 0.0, 0.0, across, down)?;
    for true_to in TRUE_TO {
        let text =
            canvas.to_data_url_with_type_and_encoder_options("image/jpeg", &true_to.into())?;
        if text.len() <= LARGEST {
            return Ok(Some(text));
        }
    }
    Ok(None)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "an edge of a picture is a positive number of at most some thousand"
)]
fn pixels(edge: f64) -> u32 {
    edge.round().max(1.0) as u32
}
