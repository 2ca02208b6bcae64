//! The tire's printed size, and which of the three tires everything is asked for.

use geometry::car::fields::GROWTH;
use geometry::tire::{Arrival, Designation};
use geometry::units::format_length;
use leptos::prelude::*;

use super::asked_tire::ASKED;
use super::store::Bench;
use super::typed_box::{NumberBox, TypedBox};
use crate::state::figures;
use crate::state::tire::{self, TIRES};

/// The size as printed on the sidewall.
#[component]
pub fn TireSize(bench: Bench) -> impl IntoView {
    let shown = Signal::derive(move || {
        bench
            .work
            .with(|work| work.car.tire.designation.text.clone())
    });
    let accept = move |text: String| {
        let designation =
            Designation::parse(&text).map_err(|fault| figures::said(&text, &fault))?;
        bench.commit("Tire size", |car| {
            car.tire.designation = designation;
            // What was measured was measured on another tire.
            car.tire.section_width = None;
            car.tire.overall_diameter = None;
            car.before.forget_tire();
        });
        Ok(())
    };
    view! {
        <div class="dial">
            <div class="dial-head">
                <label for="tire-size">"Size as printed"</label>
                <TypedBox id="tire-size".to_owned() shown=shown accept=accept class="size" />
            </div>
            <p class="in-use">{move || format!("Lists have this size for rims of {}; its maker's own list decides.", rims(bench))}</p>
            <TireSwitch bench=bench />
            <p class="caution">"Tires have load, speed and rim-width limits of their own: check them before ordering."</p>
        </div>
    }
}

/// Which tire everything that is drawn and computed is asked for.
#[component]
fn TireSwitch(bench: Bench) -> impl IntoView {
    let now = Memo::new(move |_| bench.work.with(|work| work.car.tire.arrival));
    let growth = Signal::derive(move || Some(bench.work.with(|work| work.car.tire.growth)));
    let grow = move |value| bench.commit(GROWTH.bound.label, |car| car.tire.growth = value);
    let option = move |(name, arrival): (&'static str, Arrival)| {
        let ask = move |_| bench.commit(ASKED, |car| car.tire.arrival = arrival);
        view! {
            <label class="tick">
                <input type="radio" name="tire-asked" prop:checked=move || now.get() == arrival on:change=ask />
                {name}
            </label>
        }
    };
    view! {
        <fieldset class="asked-tire">
            <legend>"Show and check the tire"</legend>
            {TIRES.into_iter().map(option).collect_view()}
            <Show when=move || now.get() == Arrival::AtSpeed>
                <p class="number">
                    <label for="tire-growth">{GROWTH.bound.label}</label>
                    <NumberBox id="tire-growth".to_owned() value=growth bound=GROWTH.bound notation=bench.notation commit=grow />
                </p>
            </Show>
            <p class="in-use">{move || bench.work.with(|work| tire::note(&work.car))}</p>
        </fieldset>
    }
}

/// The rims that the printed size goes on.
fn rims(bench: Bench) -> String {
    let (narrowest, widest) = bench.work.with(|work| work.car.tire.rim_range());
    let [narrowest, widest] =
        [narrowest, widest].map(|width| format_length(width, bench.notation.get()));
    format!("{narrowest} to {widest}")
}
