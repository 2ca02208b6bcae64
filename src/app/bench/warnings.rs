//! Warnings with their numbers: one quiet line by the verdict, and the list that it opens.

use geometry::warnings::{PRACTICE, Warning, warnings};
use leptos::prelude::*;

use super::store::Bench;
use crate::state::doubts::warnings_words;
use crate::state::trying::sentence;

/// The warnings about what is to be seen.
#[component]
pub fn WarningList(bench: Bench) -> impl IntoView {
    let list = Memo::new(move |_| match (bench.model.get(), bench.check.get()) {
        (Some(model), Some(check)) => warnings(&model, &check),
        _ => Vec::new(),
    });
    let entry = move |warning: Warning| {
        view! {
            <li>
                <p>{warning.words(bench.notation.get())}</p>
                <p class="caution">{warning.topic.caution()}</p>
                <p class="source">{told_source(warning.source)}</p>
            </li>
        }
    };
    view! {
        <details class="warnings">
            <summary>{move || list.with(|list| warnings_words(list))}</summary>
            <div class="warned" tabindex="0" role="region" aria-label="Warnings">
                <ul>{move || list.get().into_iter().map(entry).collect_view()}</ul>
                <p class="lead">
                    "Checked are the rim, the track and the bump travel against the maker's where you typed them under "
                    "All numbers, what covers the tread, the tire's wobble at the rail, and whether left and right agree. "
                    "It is geometry, not approval: your local rules decide."
                </p>
            </div>
        </details>
    }
}

/// Where a warning's number comes from.
fn told_source(source: &str) -> String {
    if source == PRACTICE {
        sentence(PRACTICE)
    } else {
        format!("Source: {source}.")
    }
}
