//! What comes of wheel and axle: where the tire stands, and what to order.

use geometry::units::format_length;
use leptos::prelude::*;

use super::store::Bench;
use crate::state::figures::directed;

/// Tire center plane, offset, axle width and its change a side.
#[component]
pub fn Outcome(bench: Bench) -> impl IntoView {
    let length = move |of: fn(&geometry::car::Car) -> f64| {
        bench
            .work
            .with(|work| format_length(of(&work.car), bench.notation.get()))
    };
    let change = move || {
        bench.work.with(|work| {
            directed(
                work.car.axle.change_per_side(),
                ("longer", "shorter"),
                bench.notation.get(),
            )
        })
    };
    view! {
        <dl class="outcome" aria-label="What comes of it">
            <div>
                <dt>"Tire center plane, from the car's center"</dt>
                <dd>{move || length(|car| car.axle.center_plane(car.wheel.offset()))}</dd>
            </div>
            <div>
                <dt>"Wheel offset"</dt>
                <dd>{move || length(|car| car.wheel.offset())}</dd>
            </div>
            <div>
                <dt>"Axle, flange to flange"</dt>
                <dd>{move || length(|car| car.axle.width)}</dd>
            </div>
            <div>
                <dt>"Housing and shaft, each side"</dt>
                <dd>{change}</dd>
            </div>
        </dl>
    }
}
