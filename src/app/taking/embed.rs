//! A figure for somebody's own page.

use leptos::prelude::*;

use super::text::CopiedText;
use crate::bench::listen::entry;
use crate::bench::store::Bench;
use crate::browser::address;
use crate::state::address::{Address, Place};
use crate::state::passing::{FIGURES, Figure, picture_alone, snippet};
use crate::state::settings::{THEMES, Theme, chosen};

/// The snippet that puts one figure of this car into another page.
#[component]
pub fn EmbedPart(bench: Bench, address: RwSignal<Address>) -> impl IntoView {
    let figure = RwSignal::new(Figure::Rear);
    let alone = Memo::new(move |_| picture_alone(&bench.work.get().car, figure.get()));
    let name = Memo::new(move |_| bench.work.with(|work| work.car.name.clone()));
    let write_up = move || address.with(|address| address.on(Place::WriteUp).to_string());
    view! {
        <section class="take" aria-labelledby="embed-title">
            <h2 id="embed-title">"In a page of your own"</h2>
            <p class="lead">
                "One figure of this car with its finding, as wide as your page allows. A figure with a lever to play with is under each chapter of the "
                <a href=write_up>"Write-up"</a>
                "."
            </p>
            <div class="picture-order">
                <label for="embed-figure">"Figure"</label>
                <select id="embed-figure" on:change=entry(move |word| figure.update(|figure| *figure = chosen(&FIGURES, &word).unwrap_or(*figure)))>
                    {FIGURES.into_iter().map(|(word, name, one)| view! { <option value=word selected=move || figure.get() == one>{name}</option> }).collect_view()}
                </select>
            </div>
            <Snippet id="embed" alone=alone name=name />
        </section>
    }
}

/// The snippet of one figure, in the colors that suit the page it is for.
#[component]
pub fn Snippet(
    /// What its ids begin with.
    id: &'static str,
    /// The figure's address, while there is one.
    #[prop(into)]
    alone: Signal<Option<Address>>,
    /// What it is a figure of.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let theme = RwSignal::new(Theme::Auto);
    let text = Memo::new(move |_| {
        let snippet = |alone| snippet(&address::page(), &alone, &name.get(), theme.get());
        alone.get().map(snippet).unwrap_or_default()
    });
    view! {
        <div class="picture-order">
            <label for=format!("{id}-colors")>"Colors"</label>
            <select id=format!("{id}-colors") on:change=entry(move |word| theme.update(|theme| *theme = chosen(&THEMES, &word).unwrap_or(*theme)))>
                {THEMES.into_iter().map(|(word, name, one)| view! { <option value=word selected=move || theme.get() == one>{name}</option> }).collect_view()}
            </select>
        </div>
        <Show when=address::is_on_disk>
            <p class="lead">"This page is a file on your disk, which no other page can show. Put the page on a web server and take the snippet there."</p>
        </Show>
        <CopiedText id=format!("{id}-text") label="Snippet" button="Copy snippet" rows="6" text=text />
        <p class="lead">"The script makes the frame as high as the figure needs to be; without it, the frame keeps the height that it begins with. Auto follows each reader's system: a page that is always light takes Light."</p>
    }
}
