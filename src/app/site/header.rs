//! The strip at the top: which car, its file, steps back, how things are shown.

use geometry::units::Notation;
use leptos::prelude::*;

use super::menu::{CarMenu, FileButtons};
use super::navigation::{Navigation, SkipLink};
use crate::bench::listen::{entry, press};
use crate::bench::store::Bench;
use crate::state::address::Address;
use crate::state::history::History;
use crate::state::settings::{Choice, NOTATIONS, THEMES, Theme, chosen, stored};
use crate::state::work::Work;

/// The strip.
#[component]
pub fn Header(bench: Bench, address: RwSignal<Address>) -> impl IntoView {
    let notation = Signal::derive(move || bench.notation.get());
    let theme = Signal::derive(move || bench.settings.get().theme);
    let set_notation = move |notation: Notation| {
        bench
            .settings
            .update(|settings| settings.notation = notation);
    };
    let set_theme = move |theme: Theme| bench.settings.update(|settings| settings.theme = theme);
    view! {
        <header class="strip">
            <p class="site-name"><SkipLink address=address />"Lip to Rail"</p>
            <Navigation address=address />
            <CarMenu bench=bench />
            <FileButtons bench=bench />
            <div class="pair steps">
                <StepButton bench=bench word="Undo" key="Ctrl+Z" next=History::undoable step=Bench::undo />
                <StepButton bench=bench word="Redo" key="Ctrl+Shift+Z" next=History::redoable step=Bench::redo />
            </div>
            <div class="looks">
                <Menu id="notation" label="Lengths in" choices=&NOTATIONS now=notation choose=set_notation />
                <Menu id="theme" label="Colors" choices=&THEMES now=theme choose=set_theme />
            </div>
        </header>
    }
}

/// One step back or forth; says which.
#[component]
fn StepButton(
    bench: Bench,
    word: &'static str,
    key: &'static str,
    next: fn(&History<Work>) -> Option<&str>,
    step: fn(Bench),
) -> impl IntoView {
    let what = Memo::new(move |_| {
        bench
            .history
            .with(|history| next(history).map(str::to_owned))
    });
    let full = move || {
        what.with(|what| {
            what.as_ref()
                .map_or(word.to_owned(), |what| format!("{word}: {what}"))
        })
    };
    view! {
        <button
            type="button"
            class="quiet"
            // Not `disabled`: a button that was just pressed must not lose the focus under the finger.
            aria-disabled=move || what.with(Option::is_none).to_string()
            aria-label=full
            title=move || format!("{} ({key})", full())
            on:click=press(move || step(bench))
        >
            {word}
        </button>
    }
}

/// A labeled native menu.
#[component]
fn Menu<T>(
    id: &'static str,
    label: &'static str,
    choices: &'static [Choice<T>],
    #[prop(into)] now: Signal<T>,
    choose: impl Fn(T) + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let chosen_by = move |word: String| {
        if let Some(choice) = chosen(choices, &word) {
            choose(choice);
        }
    };
    view! {
        <span class="menu">
            <label for=id>{label}</label>
            <select id=id on:change=entry(chosen_by) prop:value=move || stored(choices, now.get())>
                {choices
                    .iter()
                    .map(|&(word, name, choice)| view! { <option value=word selected=move || now.get() == choice>{name}</option> })
                    .collect_view()}
            </select>
        </span>
    }
}
