//! The page of the sheets: which one, what can be done with it, and the sheet itself.

use std::sync::Arc;

use drawing::sheets::{Kind, SheetOptions};
use leptos::prelude::*;

use super::found::FoundPanel;
use super::papers::{Papers, TablesAgain};
use super::tools::Tools;
use crate::bench::store::{Bench, Same};
use crate::browser::later::later;
use crate::browser::print;
use crate::site::TITLE;
use crate::state::address::{Address, Place};
use crate::state::sheets::{Outcome, making};

/// What the page of the sheets shows, between what is told and the foot of the page.
#[component]
pub fn SheetsPage(bench: Bench, address: RwSignal<Address>, kind: Memo<Kind>) -> impl IntoView {
    let is_sound = Memo::new(move |_| bench.trial.with(Result::is_ok));
    let input = Memo::new(move |_| {
        if !is_sound.get() {
            return None;
        }
        let options = SheetOptions {
            paper: bench.settings.with(|settings| settings.paper),
            notation: bench.notation.get(),
            date: print::today(),
        };
        Some((Same(bench.model.get()?), kind.get(), options))
    });
    let outcome = later(
        input,
        Signal::stored(true),
        |(model, kind, options): &(Same, Kind, SheetOptions)| {
            making(&model.0, *kind, options.clone())
        },
    );
    let told = move || {
        if is_sound.get() {
            outcome.with(|outcome| told(outcome.as_ref()))
        } else {
            Some("There is no sheet of numbers that do not go together. Mend them on the Bench, or undo the last step.".to_owned())
        }
    };
    view! {
        <div class="sheets-head">
            <h1 id=TITLE tabindex="-1">{move || kind.get().title()}</h1>
            <p>{move || kind.get().purpose()}</p>
            <Kinds address=address kind=kind />
            <Tools bench=bench kind=kind outcome=outcome />
            <p role="status" class="sheet-told">{told}</p>
        </div>
        <Show when=move || kind.get() == Kind::MockUp>
            <FoundPanel bench=bench />
        </Show>
        <Papers kind=kind outcome=outcome bench=bench />
        <TablesAgain outcome=outcome />
    }
}

/// What is said in place of a sheet; nothing where there is one.
fn told(outcome: Option<&Arc<Outcome>>) -> Option<String> {
    match outcome.map(AsRef::as_ref) {
        None => Some("The sheet is being worked out.".to_owned()),
        Some(Ok(_)) => None,
        Some(Err(why)) => Some(format!("There is no such sheet of this car: {why}")),
    }
}

/// A link to every sheet.
#[component]
fn Kinds(address: RwSignal<Address>, kind: Memo<Kind>) -> impl IntoView {
    let link = move |one: Kind| {
        let to = move || address.with(|address| address.on(Place::Sheets(one)).to_string());
        view! {
            <a href=to aria-current=move || (kind.get() == one).then_some("page")>{one.title()}</a>
        }
    };
    view! { <nav class="kinds" aria-label="Sheets">{Kind::ALL.into_iter().map(link).collect_view()}</nav> }
}
