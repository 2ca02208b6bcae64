//! A figure for somebody's own page.

use leptos::prelude::*;

use super::text::CopiedText;
use crate::bench::listen::entry;
use crate::bench::store::Bench;
use crate::browser::address;
use crate::state::passing::{FIGURES, Figure, snippet};
use crate::state::settings::chosen;

/// The snippet that puts one figure of this car into another page.
#[component]
pub fn EmbedPart(bench: Bench) -> impl IntoView {
    let figure = RwSignal::new(Figure::Rear);
    let text = Memo::new(move |_| {
        let car = bench.work.get().car;
        snippet(&address::page(), &car, figure.get()).unwrap_or_default()
    });
    view! {
        <section class="take" aria-labelledby="embed-title">
            <h2 id="embed-title">"In a page of your own"</h2>
            <p class="lead">"One figure of this car with its finding, as wide as your page allows. The script makes it as high as it needs to be; without it, the frame keeps the height that it begins with."</p>
            <div class="picture-order">
                <label for="embed-figure">"Figure"</label>
                <select id="embed-figure" on:change=entry(move |word| figure.update(|figure| *figure = chosen(&FIGURES, &word).unwrap_or(*figure)))>
                    {FIGURES.into_iter().map(|(word, name, one)| view! { <option value=word selected=move || figure.get() == one>{name}</option> }).collect_view()}
                </select>
            </div>
            <CopiedText id="embed-text" label="Snippet" button="Copy snippet" rows="6" text=text />
        </section>
    }
}
