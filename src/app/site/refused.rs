//! A file that could not be opened: everything that is wrong with it, at once.

use leptos::html;
use leptos::prelude::*;

use crate::bench::store::Bench;

/// The dialog. The car on the bench stays as it is.
#[component]
pub fn RefusedFile(bench: Bench) -> impl IntoView {
    let dialog: NodeRef<html::Dialog> = NodeRef::new();
    let name = move || {
        bench.refused.with(|refused| {
            refused
                .as_ref()
                .map_or(String::new(), |refused| refused.name.clone())
        })
    };
    let faults = move || {
        bench.refused.with(|refused| {
            refused
                .as_ref()
                .map_or(Vec::new(), |refused| refused.faults.clone())
        })
    };
    let count = move || match faults().len() {
        1 => "One thing is wrong with it".to_owned(),
        many => format!("{many} things are wrong with it"),
    };
    Effect::new(move |_| {
        let (Some(dialog), is_refused) = (dialog.get(), bench.refused.with(Option::is_some)) else {
            return;
        };
        if is_refused && !dialog.open() {
            // Shown already is shown enough.
            let _ = dialog.show_modal();
        } else if !is_refused {
            dialog.close();
        }
    });
    view! {
        <dialog class="refused" node_ref=dialog aria-labelledby="refused-title" on:close=move |_| bench.refused.set(None)>
            <h2 id="refused-title">{move || format!("“{}” was not opened", name())}</h2>
            <p>{move || format!("{}. The car on the bench is as it was.", count())}</p>
            <ol tabindex="0" aria-label="What is wrong">
                {move || faults().into_iter().map(|fault| view! { <li>{fault}</li> }).collect_view()}
            </ol>
            <form method="dialog">
                <button>"Close"</button>
            </form>
        </dialog>
    }
}
