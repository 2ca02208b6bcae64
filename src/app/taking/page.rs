//! Everything that can be taken away, in one place.

use leptos::prelude::*;

use super::embed::EmbedPart;
use super::files::Files;
use super::link::LinkPart;
use super::pictures::Pictures;
use super::post::PostPart;
use crate::bench::store::Bench;
use crate::site::TITLE;
use crate::state::address::Address;

/// What the page shows, between what is told and its foot.
#[component]
pub fn TakeAwayPage(bench: Bench, address: RwSignal<Address>) -> impl IntoView {
    let name = move || bench.work.with(|work| work.car.name.clone());
    view! {
        <h1 class="taken" id=TITLE tabindex="-1">{move || format!("Take away: {}", name())}</h1>
        <LinkPart bench=bench />
        <PostPart bench=bench />
        <Pictures bench=bench />
        <EmbedPart bench=bench address=address />
        <Files bench=bench />
    }
}
