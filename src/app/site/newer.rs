//! A newer version of the page: it waits, until the next visit or until the reader takes it.

use leptos::prelude::*;

use crate::bench::listen::press;
use crate::bench::store::Bench;
use crate::browser::offline;

/// Says that a newer version waits. Nothing that is open changes by itself.
#[component]
pub fn NewerVersion(
    bench: Bench,
    /// Keeps the work as it is; says whether the browser took it.
    #[prop(into)]
    keep_now: Callback<(), bool>,
) -> impl IntoView {
    let ready = RwSignal::new(false);
    offline::keep_page(move || ready.set(true));
    let take = move || {
        if keep_now.run(()) {
            offline::take_newer();
        } else {
            bench.notice.set(Some(
                "This browser keeps nothing, and loading the new version would lose your work. Save a file first, then load the page again.".to_owned(),
            ));
        }
    };
    view! {
        <div role="status">
            <Show when=move || ready.get()>
                <div class="banner notice">
                    <p>"A new version of this page is ready. Your next visit brings it. To have it now, load it: your work is kept."</p>
                    <button type="button" class="quiet" on:click=press(take)>"Load it now"</button>
                </div>
            </Show>
        </div>
    }
}
