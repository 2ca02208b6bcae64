//! What is said to the ear: once it has stood still, and once for each change.

use std::time::Duration;

use leptos::leptos_dom::helpers::debounce;
use leptos::prelude::*;

/// How long words must stand before they are read out.
const SETTLED: Duration = Duration::from_millis(500);

/// How long words that the page shows as well are there to be read out; whoever reads on through the page does not
/// meet them twice.
const HEARD: Duration = Duration::from_secs(3);

/// The words as they were when they last stood still.
pub fn settled(words: Signal<String>) -> RwSignal<String> {
    let said = RwSignal::new(words.get_untracked());
    let mut say = debounce(SETTLED, move |words: String| {
        // Words may be back where they were, and a page may be gone.
        if said.try_get_untracked().is_some_and(|said| said != words) {
            let _ = said.try_set(words);
        }
    });
    Effect::new(move |_| say(words.get()));
    said
}

/// Reads changed words out; for the eye they stand elsewhere.
#[component]
pub fn Said(
    /// What is shown.
    #[prop(into)]
    words: Signal<String>,
) -> impl IntoView {
    let settled = settled(words);
    let said = RwSignal::new(String::new());
    let mut fall_silent = debounce(HEARD, move |()| {
        let _ = said.try_set(String::new());
    });
    Effect::new(move |before: Option<String>| {
        let words = settled.get();
        if before.is_some_and(|before| before != words) {
            said.set(words.clone());
            fall_silent(());
        }
        words
    });
    view! { <output class="heard">{said}</output> }
}
