//! How far each gap may be off: worked out between frames, in the gap list and as a table.

use std::sync::Arc;

use geometry::check::Check;
use geometry::side::{Side, Sides};
use geometry::tolerance::{Band, BandsWork};
use leptos::html;
use leptos::prelude::*;

use super::listen::press;
use super::store::{Bench, Same};
use crate::browser::later::later;
use crate::browser::reveal::reveal;
use crate::browser::sight::in_sight;
use crate::state::doubts::{Again, Doubt, count_words, doubts};

/// The doubts in words, and whether they are of an earlier state, which must not be shown.
#[derive(Clone, Copy)]
pub struct Doubts {
    /// The newest that were worked out.
    pub list: Memo<Option<Arc<Sides<Vec<Doubt>>>>>,
    /// Whether newer ones are being worked out.
    pub awaited: Memo<bool>,
}

impl Doubts {
    /// Works them out while `list` is in sight.
    pub fn new(bench: Bench, list: NodeRef<html::Section>) -> Self {
        let input = Memo::new(move |_| Some((Same(bench.model.get()?), bench.check.get()?)));
        let bands: Memo<Option<Arc<Sides<Vec<Band>>>>> = later(
            input,
            in_sight(list).into(),
            |(model, check): &(Same, Arc<Check>)| {
                let mut work = BandsWork::begin(&model.0, check);
                Box::new(move || work.step())
            },
        );
        let list = Memo::new(move |last: Option<&Option<Arc<Sides<Vec<Doubt>>>>>| {
            let notation = bench.notation.get();
            match (bands.get(), bench.model.get()) {
                (Some(bands), Some(model)) => Some(Arc::new(doubts(&model.car, &bands, notation))),
                _ => last.cloned().flatten(),
            }
        });
        let awaited = Memo::new(move |_| bands.with(Option::is_none));
        Self { list, awaited }
    }
}

/// What to measure again, as a row under its surface.
#[component]
pub fn AgainRow(#[prop(into)] again: Signal<Option<Again>>) -> impl IntoView {
    let what = move || again.get().map(|again| again.what);
    let go = move || {
        if let Some(again) = again.get_untracked() {
            reveal(&again.place);
        }
    };
    view! {
        <Show when=move || again.with(Option::is_some)>
            <tr class="again">
                <td colspan="5">
                    {move || again.get().map(|again| again.why)}
                    " "
                    <button type="button" class="quiet" on:click=press(go)>{what}</button>
                </td>
            </tr>
        </Show>
    }
}

/// Every band, with its worst case and the measurement that matters most.
#[component]
pub fn BandTable(doubts: Doubts) -> impl IntoView {
    let words = move || match (doubts.awaited.get(), doubts.list.get()) {
        (false, Some(list)) => count_words(&list),
        _ => "being worked out".to_owned(),
    };
    let rows = move |side: Side| {
        let list = doubts.list.get().filter(|_| !doubts.awaited.get());
        let list = list.map_or(Vec::new(), |list| list.get(side).clone());
        list.into_iter()
            .map(|doubt| view! { <BandRow side=side doubt=doubt /> })
            .collect_view()
    };
    view! {
        <details class="data band-table">
            <summary>
                "How far off each gap may be "
                <span class="count">{words}</span>
            </summary>
            <p class="lead">
                "Every reading may be a little off, and each moves each gap by its own share. Most gaps stay within the "
                "± that is shown (root-sum-square of all errors); none leaves the worst case, with every error at its worst at once."
            </p>
            <div class="wide" tabindex="0" role="region" aria-label="How far off each gap may be">
                <table>
                    <thead>
                        <tr>
                            <th scope="col">"Surface"</th>
                            <th scope="col">"At ride height"</th>
                            <th scope="col">"Least, through travel"</th>
                            <th scope="col">"What matters most"</th>
                        </tr>
                    </thead>
                    <tbody>{move || Side::BOTH.map(rows).collect_view()}</tbody>
                </table>
            </div>
        </details>
    }
}

#[component]
fn BandRow(side: Side, doubt: Doubt) -> impl IntoView {
    view! {
        <tr>
            <th scope="row">{format!("{}, {}", doubt.name, side.word())}</th>
            <td>{doubt.ride.likely}<small>{doubt.ride.worst}</small></td>
            <td>{doubt.travel.likely}<small>{doubt.travel.worst}</small></td>
            <td>{doubt.most}</td>
        </tr>
    }
}
