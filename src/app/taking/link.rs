//! The link that carries the whole car.

use leptos::prelude::*;

use super::text::CopiedText;
use crate::bench::store::Bench;
use crate::browser::address;
use crate::state::address::Place;
use crate::state::passing;
use crate::state::settings::Settings;

/// The link to a place of the page with this car; empty while the car has faults.
pub fn link_of(bench: Bench, place: Place) -> Memo<String> {
    Memo::new(move |_| {
        let car = bench.work.get().car;
        passing::link(&address::page(), place, &car).unwrap_or_default()
    })
}

/// The link, and what is in it.
#[component]
pub fn LinkPart(bench: Bench) -> impl IntoView {
    let link = link_of(bench, Place::Bench);
    let owners = link_of(bench, Place::WalkRound);
    let has_wishes = move || bench.settings.with(Settings::has_wishes);
    let has_drafts = move || bench.work.with(passing::has_drafts);
    view! {
        <section class="take" aria-labelledby="link-title">
            <h2 id="link-title">"A link"</h2>
            <p class="lead">"Whoever opens it sees this car with these numbers. The whole car is in the link itself: nothing is stored anywhere, so it works as long as the page does."</p>
            <Show when=has_drafts>
                <p class="lead">"A station table has cells that cannot be read yet. The link has the wheelhouse as it was before them."</p>
            </Show>
            <Show when=has_wishes>
                <p class="lead">"What you said may be changed, and in which order, stays with you: until a plan is on the car, its Walk-round proposes there by the usual order. Put the plan on first, with Try it on the Bench."</p>
            </Show>
            <Show when=address::is_on_disk>
                <p class="lead">"This page is a file on your disk: the link opens only there. Give away the file too, or the car file below."</p>
            </Show>
            <Show
                when=move || link.with(|link| !link.is_empty())
                fallback=|| view! { <p class="lead">"There is no link while the numbers do not go together."</p> }
            >
                <CopiedText id="link-text" label="Link" button="Copy link" rows="2" text=link />
                <CopiedText id="owner-text" label="The same for the car's owner: opens the Walk-round" button="Copy for the owner" rows="2" text=owners />
            </Show>
        </section>
    }
}
