//! The verdict in one sentence: at once for the eye, and once it settles for the ear.

use leptos::prelude::*;

use super::asked_tire::asked_words;
use super::said::settled;
use super::store::Bench;
use crate::state::words;

/// The verdict on the whole car.
#[component]
pub fn VerdictLine(bench: Bench) -> impl IntoView {
    let sentence = Memo::new(move |_| {
        let found = bench.model.get().zip(bench.check.get());
        found.map_or(String::new(), |(model, check)| {
            words::verdict(&check, &model.car.tire, bench.notation.get())
        })
    });
    let class = move || {
        bench.check.with(|check| {
            check
                .as_ref()
                .map_or("verdict", |check| match check.verdict().word() {
                    "hits" => "verdict hits",
                    "tight" => "verdict tight",
                    _ => "verdict clears",
                })
        })
    };
    let asked = asked_words(bench);
    // Heard it is one: what is said holds for the tire that is asked for.
    let whole = Memo::new(move |_| match asked.get() {
        Some(asked) => format!("{} {asked}", sentence.get()),
        None => sentence.get(),
    });
    // The spoken sentence lags on purpose: it is the visible one after it has stood still.
    let said = settled(whole.into());
    view! {
        <p class=class aria-hidden="true"><i class="swatch"></i><span>{move || sentence.get()}</span></p>
        <output class="heard" aria-label="Verdict">{move || said.get()}</output>
    }
}
