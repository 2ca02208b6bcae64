//! The tape readings, side by side, with which of them are still guesses.

use geometry::body::Reading;
use geometry::body::tape::{TAPE_FIELDS, TapeField};
use geometry::car::Car;
use geometry::side::Side;
use leptos::prelude::*;

use super::dial::Help;
use super::store::Bench;
use super::typed_box::NumberBox;
use crate::state::tape;

/// The readings of both sides.
#[component]
pub fn TapePanel(bench: Bench) -> impl IntoView {
    let guesses = move || bench.work.with(|work| tape::guesses(&work.car));
    view! {
        <details class="panel">
            <summary>
                "Tape readings"
                <span class="count">{move || tape::count_words(guesses())}</span>
            </summary>
            <p class="lead">
                "Wheel off, car level at ride height. A guess stands in where nobody has measured yet: type what the tape reads over it."
            </p>
            <div class="wide" tabindex="0" role="region" aria-label="Tape readings">
                <table class="numbers">
                    <thead>
                        <tr>
                            <th scope="col">"Reading"</th>
                            <th scope="col">"Left"</th>
                            <th scope="col">"Right"</th>
                        </tr>
                    </thead>
                    <tbody>
                        {TAPE_FIELDS.iter().map(|field| view! { <TapeRow bench=bench field=field /> }).collect_view()}
                    </tbody>
                </table>
            </div>
        </details>
    }
}

#[component]
fn TapeRow(bench: Bench, field: &'static TapeField) -> impl IntoView {
    let bound = field.field.bound;
    view! {
        <tr>
            <th scope="row">
                <span class="named">{bound.label}<Help label=bound.label text=bound.help /></span>
            </th>
            {Side::BOTH.map(|side| view! { <td><ReadingBox bench=bench field=field side=side /></td> })}
        </tr>
    }
}

#[component]
fn ReadingBox(bench: Bench, field: &'static TapeField, side: Side) -> impl IntoView {
    let bound = field.field.bound;
    let reading = Memo::new(move |_| {
        bench
            .work
            .with(|work| (field.reading)(&work.car.sides.get(side).tape))
    });
    let id = format!("tape-{}-{}", side.word(), bound.key);
    let what = format!("{}, {}", bound.label, side.word());
    let label = what.clone();
    let commit = move |value| {
        let set = |car: &mut Car| tape::set(car, side, field, Reading::measured(value));
        bench.commit(&what, set);
    };
    let class = move || {
        if reading.get().guess {
            "reading is-guess"
        } else {
            "reading"
        }
    };
    view! {
        <span class=class>
            <label class="heard" for=id.clone()>{label}</label>
            <NumberBox id=id value=Signal::derive(move || Some(reading.get().value)) bound=bound notation=bench.notation commit=commit />
            <Show when=move || reading.get().guess><small>"guess"</small></Show>
        </span>
    }
}
