//! Round the wheel: where the rear view is cut, the side view, and the wheelhouse unrolled.

use drawing::{Shown, bearing};
use geometry::units::{degrees, radians};
use leptos::prelude::*;

use super::listen::{entry, press};
use super::map::MapView;
use super::side::SideView;
use super::store::Bench;
use super::typed_box::NumberBox;
use crate::state::around::{SECTION, of_spot, on_degree, spoken};

/// Section, side view and map of the side that is looked at.
#[component]
pub fn RoundTheWheel(bench: Bench) -> impl IntoView {
    let side = bench.side();
    view! {
        <section class="round" aria-labelledby="round-title">
            <h2 id="round-title">{move || format!("Round the wheel, {} side", side.get().word())}</h2>
            <SectionBar bench=bench />
            <div class="abreast">
                <SideView bench=bench side=side />
                <MapView bench=bench side=side />
            </div>
        </section>
    }
}

/// Where the rear view is cut: a slider, a box for degrees, and the way to the worst angle.
#[component]
fn SectionBar(bench: Bench) -> impl IntoView {
    let turn = move |angle: f64| bench.angle.set(angle);
    let slid = move |text: String| {
        if let Ok(whole) = text.parse() {
            turn(on_degree(radians(whole)));
        }
    };
    let worst = move || {
        bench.check.with(|check| {
            let check = check.as_deref()?;
            let (side, surface) = match bench.settings.get().shown {
                Shown::One(side) => (side, check.sides.get(side).worst()?),
                Shown::Both => check.worst()?,
            };
            Some((side, surface.id, surface.travel.witness))
        })
    };
    let worst_words = move || {
        worst().map_or("Worst angle".to_owned(), |(_, _, witness)| {
            format!("Worst: {}", bearing(of_spot(witness.at_body)))
        })
    };
    let go_to_worst = move || {
        if let Some((side, surface, witness)) = worst() {
            bench.show_witness(side, surface, &witness);
        }
    };
    let is_upright = move || bench.angle.get() == 0.0;
    view! {
        <div class="section-bar" role="group" aria-label="Section of the rear view">
            <label for="section-box">{SECTION.label}</label>
            <NumberBox
                id="section-box".to_owned()
                value=Signal::derive(move || Some(bench.angle.get()))
                bound=SECTION
                notation=bench.notation
                commit=turn
            />
            <input
                type="range"
                id="section"
                aria-label=SECTION.label
                min="-90"
                max="90"
                step="1"
                prop:value=move || degrees(bench.angle.get()).round().to_string()
                aria-valuetext=move || spoken(bench.angle.get())
                on:input=entry(slid)
            />
            <span class="reading" aria-hidden="true">{move || bearing(bench.angle.get())}</span>
            <button type="button" on:click=press(go_to_worst)>{worst_words}</button>
            <button
                type="button"
                class="quiet"
                aria-disabled=move || is_upright().to_string()
                on:click=press(move || turn(0.0))
            >
                "Straight up"
            </button>
        </div>
    }
}
