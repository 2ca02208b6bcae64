//! What the reader should know before reading the picture: faults of the car, notices of the page.

use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::field::Fault;
use leptos::prelude::*;

use super::asked_tire::ask_nominal;
use super::listen::press;
use super::store::Bench;
use crate::browser::reveal::pass_focus_to;
use crate::site::TITLE;
use crate::state::tire;

/// Every fault of the present car. The picture below keeps showing the last car that had none.
#[component]
pub fn FaultBanner(bench: Bench) -> impl IntoView {
    let faults = Memo::new(move |_| {
        bench
            .trial
            .with(|trial| trial.as_ref().err().cloned().unwrap_or_default())
    });
    let of_tire = Memo::new(move |_| bench.work.with(|work| tire::only_nominal_goes(&work.car)));
    let lead = move || {
        if of_tire.get() {
            "There is no such tire on this rim."
        } else {
            "These numbers do not go together."
        }
    };
    view! {
        <div role="alert">
            <Show when=move || faults.with(|faults| !faults.is_empty())>
                <div class="banner">
                    <p><b>{lead}</b>" The picture and the gap list still show the car as it last did."</p>
                    <ul>
                        {move || faults.get().iter().map(|fault| view! { <li>{sentence(fault)}</li> }).collect_view()}
                    </ul>
                    <Show when=move || of_tire.get()>
                        <button type="button" class="quiet" on:click=press(move || ask_nominal(bench))>"Back to the nominal tire"</button>
                    </Show>
                    <button type="button" class="quiet" on:click=press(move || leave(&|| bench.undo()))>"Undo the last step"</button>
                </div>
            </Show>
        </div>
    }
}

/// Does what takes the pressed button off the page: the reader goes on at the page's heading.
fn leave(act: &dyn Fn()) {
    act();
    pass_focus_to(TITLE);
}

/// A fault with the field's own name in place of its key.
fn sentence(fault: &Fault) -> String {
    let bounds = CAR_FIELDS
        .iter()
        .map(|field| field.bound)
        .chain(OPTIONAL_FIELDS.iter().map(|field| field.bound));
    let label = bounds
        .into_iter()
        .find(|bound| bound.key == fault.at)
        .map(|bound| bound.label);
    match label {
        Some(label) => format!("{label}: {}; {}", fault.found, fault.accepted),
        None => fault.to_string(),
    }
}

/// A notice, until it is dismissed.
#[component]
pub fn Notice(bench: Bench) -> impl IntoView {
    view! {
        <div role="status">
            <Show when=move || bench.notice.with(Option::is_some)>
                <div class="banner notice">
                    <p>{move || bench.notice.get()}</p>
                    <button type="button" class="quiet" on:click=press(move || leave(&|| bench.notice.set(None)))>"Understood"</button>
                </div>
            </Show>
        </div>
    }
}
