//! The sheet on the screen, page by page as on paper, and its tables once more for who cannot read it there.

use std::sync::Arc;

use drawing::Scene;
use drawing::sheets::{Cell, Kind, Table};
use leptos::prelude::*;

use super::tools::save;
use crate::bench::listen::press;
use crate::bench::store::Bench;
use crate::state::sheets::{Made, Outcome, inside, page_name};

/// The pages.
#[component]
pub fn Papers(
    bench: Bench,
    kind: Memo<Kind>,
    outcome: Memo<Option<Arc<Outcome>>>,
) -> impl IntoView {
    let pages = move || {
        of_made(outcome, |made| {
            let count = made.pages.len();
            let pages = made.pages.iter().enumerate();
            let pages = pages.map(|(index, page)| one(bench, kind, index + 1, count, page));
            pages.collect_view()
        })
    };
    view! { <div class="papers">{pages}</div> }
}

/// Something of a sheet that is there.
fn of_made<T>(outcome: Memo<Option<Arc<Outcome>>>, tell: impl FnOnce(&Made) -> T) -> Option<T> {
    outcome.with(|outcome| outcome.as_ref()?.as_ref().as_ref().ok().map(tell))
}

fn one(
    bench: Bench,
    kind: Memo<Kind>,
    number: usize,
    count: usize,
    page: &Scene,
) -> impl IntoView + use<> {
    let name = format!("Page {number} of {count}");
    let is_large = RwSignal::new(false);
    let file = page.page_file();
    let number = (count > 1).then_some(number);
    let keep = move || save(bench, kind.get_untracked(), number, "svg", &file);
    let [wide, tall] = [page.view.width, page.view.height].map(|side| format!("{side}mm"));
    view! {
        <figure class=format!("paper-page {}", page_name(page))>
            <figcaption>
                <span>{name.clone()}</span>
                <button type="button" class="quiet enlarge" aria-pressed=move || is_large.get().to_string() on:click=press(move || is_large.update(|large| *large = !*large))>
                    "Larger"<span class="heard">{format!(", {name}")}</span>
                </button>
                <button type="button" class="quiet" on:click=press(keep)>"Save (SVG)"<span class="heard">{format!(", {name}")}</span></button>
            </figcaption>
            <div class="paper-wide" class:is-large=is_large tabindex="0" role="region" aria-label=name.clone()>
                <svg class="scene" style=("--wide", wide) style=("--tall", tall) viewBox=page.view.view_box() inner_html=inside(page)></svg>
            </div>
        </figure>
    }
}

/// The tables of the sheet, in rows that a small screen can show.
#[component]
pub fn TablesAgain(outcome: Memo<Option<Arc<Outcome>>>) -> impl IntoView {
    let tables = move || of_made(outcome, |made| made.tables.iter().map(table).collect_view());
    let has_some =
        Memo::new(move |_| of_made(outcome, |made| !made.tables.is_empty()).unwrap_or_default());
    view! {
        <Show when=move || has_some.get()>
            <details class="data sheet-tables">
                <summary>"Its tables, to read on the screen"</summary>
                {tables}
            </details>
        </Show>
    }
}

fn table(table: &Table) -> impl IntoView + use<> {
    let heads = table.heads.iter().map(|&(head, _)| head);
    // A column that needs no name has no heading to be read out.
    let head = |head: &'static str| {
        if head.is_empty() {
            view! { <td></td> }.into_any()
        } else {
            view! { <th scope="col">{head}</th> }.into_any()
        }
    };
    let row = |cells: &Vec<Cell>| {
        let mut words = cells.iter().map(|cell| match cell {
            Cell::Words(words) => words.clone(),
            Cell::Blank => "\u{2014}".to_owned(),
        });
        let first = words.next();
        view! {
            <tr>
                <th scope="row">{first}</th>
                {words.map(|words| view! { <td>{words}</td> }).collect_view()}
            </tr>
        }
    };
    view! {
        <div class="wide" tabindex="0" role="region" aria-label=table.title.clone()>
            <table>
                <caption>{table.title.clone()}</caption>
                <thead>
                    <tr>{heads.map(head).collect_view()}</tr>
                </thead>
                <tbody>{table.rows.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
}
