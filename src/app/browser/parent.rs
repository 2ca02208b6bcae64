//! The page that this one stands in, if it does.

use js_sys::{Object, Reflect};
use leptos::prelude::window;

/// What the height is called in the message. It is in the snippet that the page gives away.
const HEIGHT: &str = "lipToRailHeight";

/// Tells the page around how high this one is, CSS pixels: `{ lipToRailHeight: number }`.
pub fn tell_height(height: f64) {
    let Ok(Some(parent)) = window().parent() else {
        return;
    };
    let message = Object::new();
    // A plain object takes any property; and nothing depends on being heard. The height is nobody's secret.
    let _ = Reflect::set(&message, &HEIGHT.into(), &height.ceil().into());
    let _ = parent.post_message(&message, "*");
}
