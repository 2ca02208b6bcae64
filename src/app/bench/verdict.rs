//! The verdict in one sentence: at once for the eye, and once it settles for the ear.

use std::time::Duration;

use leptos::prelude::*;

use super::asked_tire::asked_words;
use super::store::Bench;
use crate::state::words;

/// How long the verdict must stand before it is read out.
const SETTLED: Duration = Duration::from_millis(500);

/// The verdict on the whole car.
#[component]
pub fn VerdictLine(bench: Bench) -> impl IntoView {
    let sentence = Memo::new(move |_| {
        bench.check.with(|check| {
            check.as_ref().map_or(String::new(), |check| {
                words::verdict(check, bench.notation.get())
            })
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
    let said = RwSignal::new(whole.get_untracked());
    let mut say =
        leptos::leptos_dom::helpers::debounce(SETTLED, move |sentence: String| said.set(sentence));
    // The spoken sentence lags on purpose: it is the visible one after it has stood still.
    Effect::new(move |_| say(whole.get()));
    view! {
        <p class=class aria-hidden="true"><i class="swatch"></i><span>{move || sentence.get()}</span></p>
        <output class="heard" aria-label="Verdict">{move || said.get()}</output>
    }
}
