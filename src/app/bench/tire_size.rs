//! The tire's printed size, and whether the largest that may arrive is meant.

use geometry::tire::{Arrival, Designation};
use geometry::units::format_length;
use leptos::prelude::*;

use super::listen::tick;
use super::store::Bench;
use super::typed_box::TypedBox;
use crate::state::figures;

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
        });
        Ok(())
    };
    let is_largest = move || {
        bench
            .work
            .with(|work| work.car.tire.arrival == Arrival::Largest)
    };
    let arrive = move |largest: bool| {
        let arrival = if largest {
            Arrival::Largest
        } else {
            Arrival::Nominal
        };
        bench.commit("Size that may arrive", |car| car.tire.arrival = arrival);
    };
    view! {
        <div class="dial">
            <div class="dial-head">
                <label for="tire-size">"Size as printed"</label>
                <TypedBox id="tire-size".to_owned() shown=shown accept=accept class="size" />
            </div>
            <label class="tick">
                <input type="checkbox" prop:checked=is_largest on:change=tick(arrive) />
                "Check the largest that may arrive"
            </label>
            <p class="in-use">{move || format!("The printed size goes on rims of {}.", rims(bench))}</p>
            <p class="caution">"Tires have load, speed and rim-width limits of their own: check them before ordering."</p>
        </div>
    }
}

/// The rims that the printed size goes on.
fn rims(bench: Bench) -> String {
    let (narrowest, widest) = bench.work.with(|work| work.car.tire.rim_range());
    let [narrowest, widest] =
        [narrowest, widest].map(|width| format_length(width, bench.notation.get()));
    format!("{narrowest} to {widest}")
}
