//! What the reader should know before reading the picture: faults of the car, notices of the page.

use leptos::prelude::*;

use super::asked_tire::ask_nominal;
use super::listen::press;
use super::store::Bench;
use crate::browser::reveal::{pass_focus_to, reveal};
use crate::browser::wrong;
use crate::site::TITLE;
use crate::state::faults::{Told, told};
use crate::state::tire;

/// Every fault of the present car. The picture below keeps showing the last car that had none.
#[component]
pub fn FaultBanner(
    bench: Bench,
    /// Whether the boxes that mend them are on the page.
    #[prop(into)]
    on_bench: Signal<bool>,
) -> impl IntoView {
    let faults = Memo::new(move |_| {
        let Some(faults) = bench.trial.with(|trial| trial.as_ref().err().cloned()) else {
            return Vec::new();
        };
        bench
            .work
            .with(|work| faults.iter().map(|fault| told(fault, &work.car)).collect())
    });
    Effect::new(move |before: Option<Vec<String>>| {
        on_bench.track();
        let places = faults.get().into_iter().filter_map(|fault| fault.place);
        let places: Vec<String> = places.collect();
        let now = places.clone();
        // What was only now put on the page is there by the next frame.
        request_animation_frame(move || wrong::mark(&before.unwrap_or_default(), &now));
        places
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
                    <p><b>{lead}</b>" The pictures and the gap list still show the car as it last did."</p>
                    <ul>
                        {move || faults.get().into_iter().map(|fault| line(fault, on_bench)).collect_view()}
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

/// One fault, with a way to where it is mended.
fn line(fault: Told, on_bench: Signal<bool>) -> impl IntoView {
    let way = fault.place.map(|place| {
        view! {
            <button type="button" class="quiet" hidden=move || !on_bench.get() on:click=press(move || reveal(&place))>"Show me"</button>
        }
    });
    view! { <li>{fault.words}" "{way}</li> }
}

/// Does what takes the pressed button off the page: the reader goes on at the page's heading.
fn leave(act: &dyn Fn()) {
    act();
    pass_focus_to(TITLE);
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
