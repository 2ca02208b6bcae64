//! The way from page to page: links that the browser follows by itself, and what happens when it did.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use crate::bench::store::Bench;
use crate::browser::address;
use crate::browser::reveal::focus_on;
use crate::state::address::{Address, PLACES, Place};

/// The id of the heading that every page opens with.
pub const TITLE: &str = "place-title";

/// A link to every page.
#[component]
pub fn Navigation(address: RwSignal<Address>) -> impl IntoView {
    let link = move |(name, place): (&'static str, Place)| {
        let to = move || address.with(|address| address.on(place).to_string());
        let is_here = move || address.with(|address| address.place.word() == place.word());
        view! {
            <a href=to aria-current=move || is_here().then_some("page")>{name}</a>
        }
    };
    view! { <nav class="places" aria-label="Pages">{PLACES.into_iter().map(link).collect_view()}</nav> }
}

/// The address, wherever the reader goes. One that names no page is told; the page that is shown stands in for it.
pub fn follow(bench: Bench) -> RwSignal<Address> {
    let address = RwSignal::new(Address::read(&address::fragment()));
    let tell = move || {
        if let Some(word) = address.with_untracked(|address| address.unknown.clone()) {
            bench.notice.set(Some(format!(
                "The address asks for a page “{word}”, which is not one of this version's. What you see stands in for it; your car is as it was."
            )));
        }
    };
    tell();
    address::listen(move |fragment| {
        address.set(Address::read(&fragment));
        tell();
    });
    address
}

/// Whoever goes to another page begins at its heading.
pub fn begin_at_heading(place: Memo<Place>) {
    Effect::new(move |before: Option<Place>| {
        let place = place.get();
        if before.is_some_and(|before| before != place) {
            // The page is drawn first.
            request_animation_frame(focus_heading);
        }
        place
    });
}

fn focus_heading() {
    focus_on(TITLE);
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// Past the strip, for who goes by keys: the first thing on every page.
#[component]
pub fn SkipLink(address: RwSignal<Address>) -> impl IntoView {
    let here = move || address.with(ToString::to_string);
    let skip = move |click: MouseEvent| {
        // The fragment is the page's address: it stays.
        click.prevent_default();
        focus_on(TITLE);
    };
    view! { <a class="skip" href=here on:click=skip>"Skip to the page itself"</a> }
}
