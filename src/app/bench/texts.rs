//! A table of texts: heads, and rows whose first cell names them.

use leptos::prelude::*;

/// The table, in a frame that scrolls sideways on its own.
#[component]
pub fn TextTable(
    /// What the frame is called.
    label: &'static str,
    /// The heads of the columns.
    #[prop(into)]
    heads: Signal<Vec<String>>,
    /// The rows.
    #[prop(into)]
    rows: Signal<Vec<Vec<String>>>,
) -> impl IntoView {
    let heads = move || {
        let heads = heads.get().into_iter();
        heads
            .map(|head| view! { <th scope="col">{head}</th> })
            .collect_view()
    };
    let rows = move || rows.get().into_iter().map(cells).collect_view();
    view! {
        <div class="wide" tabindex="0" role="region" aria-label=label>
            <table>
                <thead>
                    <tr>{heads}</tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

fn cells(row: Vec<String>) -> impl IntoView {
    let mut texts = row.into_iter();
    let first = texts.next();
    view! {
        <tr>
            <th scope="row">{first}</th>
            {texts.map(|text| view! { <td>{text}</td> }).collect_view()}
        </tr>
    }
}
