//! Which tire everything is of, beside the verdict, while it is not the nominal one.

use geometry::tire::Arrival;
use leptos::prelude::*;

use super::listen::press;
use super::store::Bench;
use crate::browser::reveal::pass_focus_to;
use crate::site::TITLE;
use crate::state::tire;

/// What is to be seen, in a sentence; nothing while it is the nominal tire.
pub fn asked_words(bench: Bench) -> Memo<Option<String>> {
    Memo::new(move |_| {
        let notation = bench.notation.get();
        bench
            .model
            .with(|model| tire::asked(&model.as_ref()?.car, notation))
    })
}

/// Takes the car back to the nominal tire. The button that asked for it goes with what it was asked about.
pub fn ask_nominal(bench: Bench) {
    bench.commit(ASKED, |car| car.tire.arrival = Arrival::Nominal);
    pass_focus_to(TITLE);
}

/// What the step is called.
pub const ASKED: &str = "Tire asked for";

/// The sentence and the way back.
#[component]
pub fn AskedTire(bench: Bench) -> impl IntoView {
    let words = asked_words(bench);
    view! {
        <Show when=move || words.with(Option::is_some)>
            <p class="asked-note">
                <span>{move || words.get()}</span>
                <button type="button" class="quiet" on:click=press(move || ask_nominal(bench))>"Back to nominal"</button>
            </p>
        </Show>
    }
}
