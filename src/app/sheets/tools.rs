//! What can be done with a sheet: choose its paper, print it, save its tables and its pattern.

use std::sync::Arc;

use drawing::sheets::{Kind, csv};
use leptos::prelude::*;

use crate::bench::listen::press;
use crate::bench::radio::RadioMenu;
use crate::bench::store::Bench;
use crate::browser::{download, print};
use crate::state::settings::PAPERS;
use crate::state::sheets::{Outcome, has_pattern, pattern, saved_as};

/// Paper, print, tables, pattern.
#[component]
pub fn Tools(bench: Bench, kind: Memo<Kind>, outcome: Memo<Option<Arc<Outcome>>>) -> impl IntoView {
    let is_there =
        move || outcome.with(|outcome| outcome.as_ref().is_some_and(|outcome| outcome.is_ok()));
    let print_it = move || {
        if !print::print() {
            tell(bench, "This browser has no print dialog.");
        }
    };
    let save_tables = move || {
        let text = outcome.with_untracked(|outcome| {
            let made = outcome.as_ref()?.as_ref().as_ref().ok()?;
            Some(csv(&made.tables))
        });
        if let Some(text) = text {
            save(bench, kind.get_untracked(), None, "csv", &text);
        }
    };
    let save_pattern = move || {
        let kind = kind.get_untracked();
        let found = bench
            .model
            .with_untracked(|model| Some(pattern(model.as_ref()?, kind)));
        match found {
            Some(Ok(text)) => save(bench, kind, None, "dxf", &text),
            Some(Err(why)) => tell(bench, &why),
            None => {}
        }
    };
    view! {
        <div class="sheet-tools" role="group" aria-label="Paper and files">
            <PaperMenu bench=bench />
            <button type="button" aria-disabled=move || (!is_there()).to_string() on:click=press(print_it)>"Print"</button>
            <button type="button" class="quiet" aria-disabled=move || (!is_there()).to_string() on:click=press(save_tables)>
                "Save its tables (CSV)"
            </button>
            <Show when=move || has_pattern(kind.get())>
                <button type="button" class="quiet" on:click=press(save_pattern)>"Save its pattern (DXF, mm)"</button>
            </Show>
        </div>
        <p class="lead">"Print at actual size, without scaling to fit; the check ruler on a pattern tells whether that was done."</p>
    }
}

/// Saves a file of the sheet, or says that the browser did not take it.
pub fn save(bench: Bench, kind: Kind, page: Option<usize>, ending: &str, text: &str) {
    let name = bench
        .work
        .with_untracked(|work| saved_as(&work.car.name, kind, page, ending));
    if !download::save(&name, text) {
        tell(bench, "The browser did not take the file.");
    }
}

fn tell(bench: Bench, what: &str) {
    bench.notice.set(Some(what.to_owned()));
}

/// The paper that sheets are laid out for.
#[component]
fn PaperMenu(bench: Bench) -> impl IntoView {
    view! {
        <RadioMenu
            legend="Paper size"
            name="paper"
            choices=&PAPERS
            now=Signal::derive(move || bench.settings.with(|settings| settings.paper))
            choose=move |paper| bench.settings.update(|settings| settings.paper = paper)
        />
    }
}
