//! A text to be copied: always there to be selected by hand, for browsers that refuse.

use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::bench::listen::press;
use crate::browser::clipboard;

/// The text in a box, and a button that copies it.
#[component]
pub fn CopiedText(
    #[prop(into)] id: String,
    /// What the box holds, as its label says it.
    label: &'static str,
    /// What the button says.
    button: &'static str,
    rows: &'static str,
    #[prop(into)] text: Signal<String>,
) -> impl IntoView {
    let area: NodeRef<html::Textarea> = NodeRef::new();
    let told = RwSignal::new("");
    let copy = move || {
        spawn_local(async move {
            if clipboard::copy(&text.get_untracked()).await {
                told.set("Copied.");
            } else {
                if let Some(area) = area.get_untracked() {
                    // What is selected can be copied by hand.
                    let _ = area.focus();
                    area.select();
                }
                told.set(
                    "The browser did not let the page copy. The text is selected: copy it by hand.",
                );
            }
        });
    };
    // What was copied is no longer what stands here.
    Effect::new(move |_| {
        text.track();
        told.set("");
    });
    view! {
        <label class="text-label" for=id.clone()>{label}</label>
        <textarea id=id class="to-copy" readonly rows=rows spellcheck="false" node_ref=area prop:value=text></textarea>
        <p class="to-do">
            <button type="button" class="quiet" on:click=press(copy)>{button}</button>
            <output>{told}</output>
        </p>
    }
}
