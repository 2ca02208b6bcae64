//! What was found with the mock-up: typed in beside what is predicted, and what it says about the readings.

use std::sync::Arc;

use drawing::sheets::{Position, PositionRow, mock_up_positions};
use geometry::car::{Car, FoundGap};
use geometry::metal::{Fit, MockUp, fit};
use geometry::side::Side;
use leptos::prelude::*;

use crate::bench::listen::press;
use crate::bench::said;
use crate::bench::store::{Bench, Same};
use crate::bench::typed_box::NumberBox;
use crate::browser::later::later;
use crate::browser::reveal::pass_focus_to;
use crate::state::found::{Said, Spot, say};

/// The id of what the panel is unfolded by.
const SUMMARY: &str = "found-summary";

/// The panel.
#[component]
pub fn FoundPanel(bench: Bench) -> impl IntoView {
    let open = RwSignal::new(false);
    let positions = Memo::new(move |_| {
        let model = bench.model.get().filter(|_| open.get())?;
        let mock_up = MockUp::of(&model.car).ok()?;
        Some(mock_up_positions(&model, &mock_up, bench.notation.get()))
    });
    let count = Memo::new(move |_| bench.work.with(|work| work.car.found.len()));
    let told = move || match count.get() {
        0 => "none yet".to_owned(),
        count => format!("{count} typed in"),
    };
    let planned = move || bench.work.with(|work| work.car.is_cut());
    let names = Memo::new(move |_| {
        positions.with(|positions| {
            let names = positions.iter().flatten().map(|position| position.name);
            names.collect::<Vec<_>>()
        })
    });
    view! {
        <details class="panel found" on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary id=SUMMARY>"The gaps that you found "<span class="count">{told}</span></summary>
            <p class="lead">
                "Type what you measured on the mock-up, from the surface to the straightedge; a hit is a minus. Leave empty what you did not reach."
            </p>
            {move || planned().then(|| view! {
                <p class="lead">"What is predicted here is of the car as planned, with the tub in its new place. What you found with the tub where it still is belongs to the same car with the seam not moved."</p>
            })}
            <For each=move || names.get() key=|name| *name let:name>
                <PositionTable bench=bench positions=positions name=name />
            </For>
            <Verdict bench=bench />
        </details>
    }
}

/// The boxes of one position.
#[component]
fn PositionTable(
    bench: Bench,
    positions: Memo<Option<Vec<Position>>>,
    name: &'static str,
) -> impl IntoView {
    let of_position = move || {
        positions.with(|positions| {
            let position = positions.iter().flatten().find(|one| one.name == name);
            position.cloned()
        })
    };
    let rows = move || {
        let position = of_position()?;
        let row = |row: &PositionRow| {
            let cell = |side: Side| match row.predicted.get(side) {
                Some(predicted) => {
                    let spot = Spot {
                        side,
                        id: row.id,
                        pose: position.pose,
                    };
                    view! { <FoundCell bench=bench spot=spot row=row.name.clone() position=name predicted=predicted.clone() /> }.into_any()
                }
                None => view! { <td>"\u{2014}"</td> }.into_any(),
            };
            view! { <tr><th scope="row">{row.name.clone()}</th>{cell(Side::Left)}{cell(Side::Right)}</tr> }
        };
        Some(position.rows.iter().map(row).collect_view())
    };
    view! {
        <div class="wide" tabindex="0" role="region" aria-label=format!("Gaps, {name}")>
            <table class="numbers">
                <caption>{format!("Gaps, {name}")}</caption>
                <thead>
                    <tr>
                        <th scope="col">"Surface"</th>
                        <th scope="col">"Left"<small>"predicted, found"</small></th>
                        <th scope="col">"Right"<small>"predicted, found"</small></th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

/// A predicted gap, and the box for the one that was found.
#[component]
fn FoundCell(
    bench: Bench,
    spot: Spot,
    row: String,
    position: &'static str,
    predicted: String,
) -> impl IntoView {
    let side = spot.side.word();
    let id = format!("found-{side}-{row}-{position}")
        .replace(|letter: char| !letter.is_alphanumeric(), "-");
    let value = Signal::derive(move || bench.work.with(|work| spot.gap(&work.car.found)));
    let put = move |gap: Option<f64>| {
        bench.commit("Gap found", |car| car.found = spot.with(&car.found, gap));
    };
    view! {
        <td>
            <span class="predicted">{predicted}</span>
            <label class="heard" for=id.clone()>{format!("Found, {side} {row}, {position}")}</label>
            <NumberBox
                id=id
                value=value
                bound=FoundGap::GAP
                notation=bench.notation
                commit=move |gap| put(Some(gap))
                clear=Callback::new(move |()| put(None))
            />
        </td>
    }
}

/// What the found gaps say, worked out once the typing has settled.
#[component]
fn Verdict(bench: Bench) -> impl IntoView {
    let is_none = Memo::new(move |_| bench.work.with(|work| work.car.found.is_empty()));
    let input = Memo::new(move |_| bench.model.get().filter(|_| !is_none.get()).map(Same));
    let fitted = later(input, Signal::stored(true), |model: &Same| {
        let model = Arc::clone(&model.0);
        Box::new(move || Some(fit(&model.car, &model.car.found).ok()))
    });
    let said = Memo::new(move |_| {
        let fitted: Option<Arc<Option<Fit>>> = fitted.get();
        let fitted = fitted?;
        let model = bench.model.get()?;
        Some(say(&model, fitted.as_ref().as_ref()?, bench.notation.get()))
    });
    let finding = move || {
        if is_none.get() {
            "What you type is compared with what is predicted, and the reading that explains a difference best is named.".to_owned()
        } else {
            said.get()
                .map_or("It is being worked out.".to_owned(), |said| said.finding)
        }
    };
    let part = move |of: fn(&Said) -> bool| move || said.with(|said| said.as_ref().is_some_and(of));
    let take = move |of: fn(Said) -> Option<Car>| {
        press(move || {
            if let Some(corrected) = said.get_untracked().and_then(of) {
                bench.commit("Correction from the mock-up", |car| *car = corrected);
                pass_focus_to(SUMMARY);
            }
        })
    };
    let forget = move || {
        bench.commit("Forget the gaps found", |car| car.found.clear());
        pass_focus_to(SUMMARY);
    };
    let rows = move || {
        let rows = said.get().map_or(Vec::new(), |said| said.rows);
        let row = |[place, rest @ ..]: [String; 4]| {
            view! { <tr><th scope="row">{place}</th>{rest.map(|cell| view! { <td>{cell}</td> })}</tr> }
        };
        rows.into_iter().map(row).collect_view()
    };
    let together = move || {
        let all = said.get().map_or(Vec::new(), |said| said.together);
        all.into_iter()
            .map(|one| view! { <li>{one}</li> })
            .collect_view()
    };
    view! {
        <p class="finding">{finding}</p>
        <said::Said words=Signal::derive(finding) />
        <Show when=part(|said| said.corrected.is_some())>
            <button type="button" on:click=take(|said| said.corrected)>"Take this correction over"</button>
        </Show>
        <Show when=part(|said| !said.rows.is_empty())>
            <details class="data">
                <summary>"Found beside predicted"</summary>
                <div class="wide" tabindex="0" role="region" aria-label="Found beside predicted">
                    <table>
                        <thead>
                            <tr>
                                <th scope="col">"Where"</th><th scope="col">"Predicted"</th>
                                <th scope="col">"Found"</th><th scope="col">"Predicted, corrected"</th>
                            </tr>
                        </thead>
                        <tbody>{rows}</tbody>
                    </table>
                </div>
            </details>
        </Show>
        <Show when=part(|said| said.corrected_together.is_some())>
            <details class="data">
                <summary>"If all readings may give a little"</summary>
                <ul>{together}</ul>
                <button type="button" class="quiet" on:click=take(|said| said.corrected_together)>"Take all of these over"</button>
            </details>
        </Show>
        <Show when=move || !is_none.get()>
            <button type="button" class="quiet" on:click=press(forget)>"Forget all gaps found"</button>
        </Show>
        <p class="lead">
            "The estimate weighs each reading by its tape error. It corrects tape readings and the axle, never stations or parts. Undo takes a correction back."
        </p>
    }
}
