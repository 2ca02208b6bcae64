//! One lever: its label, its number box, its slider.

use geometry::units::Notation;
use leptos::prelude::*;

use super::store::Bench;
use super::typed_box::NumberBox;
use crate::state::dial::{Dial, Scale};
use crate::state::figures;

/// A lever's row.
#[component]
pub fn DialRow(
    bench: Bench,
    dial: Dial,
    /// What is said or offered below the slider.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let bound = dial.bound();
    let notation = bench.notation;
    let value = Memo::new(move |_| bench.work.with(|work| dial.get(&work.car)));
    let scale = Memo::new(move |_| scale(bench, dial));
    let opened = Memo::new(move |_| bench.work.with(|work| dial.get(&work.opened)));
    let id = format!("dial-{}", dial.slug());
    let box_id = format!("{id}-box");
    let commit = move |value: f64| bench.commit(bound.label, |car| dial.set(car, value));
    // At the mark that is nearest to where it was it changes nothing, though the value may lie beside that mark.
    let slid = move |text: String| {
        let (scale, position) = (scale.get_untracked(), text.parse::<f64>().ok()?);
        let settled = dial.get(&bench.settled().car);
        let is_there = (position - scale.position(settled)).abs() <= 0.5;
        Some(if is_there {
            settled
        } else {
            scale.value(position)
        })
    };

    view! {
        <div class="dial">
            <div class="dial-head">
                <label for=box_id.clone()>{bound.label}</label>
                <Help label=bound.label text=bound.help />
                <NumberBox id=box_id value=Signal::derive(move || Some(value.get())) bound=bound notation=notation commit=commit />
            </div>
            <div class="slide">
                <input
                    type="range"
                    id=id
                    aria-label=bound.label
                    min=move || scale.get().least.to_string()
                    max=move || scale.get().most.to_string()
                    step="1"
                    prop:value=move || scale.get().position(value.get()).to_string()
                    style=("--opened", move || scale.get().share(opened.get()).to_string())
                    aria-valuetext=move || figures::spoken(value.get(), bound.quantity, notation.get())
                    on:input=move |input| {
                        if let Some(value) = slid(event_target_value(&input)) {
                            bench.preview(|car| dial.set(car, value));
                        }
                    }
                    on:change=move |change| {
                        if let Some(value) = slid(event_target_value(&change)) {
                            commit(value);
                        }
                    }
                />
                <Ends dial=dial scale=scale notation=notation />
            </div>
            {children.map(|children| children())}
        </div>
    }
}

/// The values at the slider's two ends.
#[component]
fn Ends(dial: Dial, scale: Memo<Scale>, notation: Memo<Notation>) -> impl IntoView {
    let quantity = dial.bound().quantity;
    let at =
        move |position: f64| figures::shown(scale.get().value(position), quantity, notation.get());
    view! {
        <span class="least" aria-hidden="true">{move || at(scale.get().least)}</span>
        <span class="most" aria-hidden="true">{move || at(scale.get().most)}</span>
    }
}

/// What a word means, for whoever asks.
#[component]
pub fn Help(label: &'static str, text: &'static str) -> impl IntoView {
    view! {
        <details class="help">
            <summary aria-label=format!("What is meant by {}", label.to_ascii_lowercase())>"?"</summary>
            <p>{text}</p>
        </details>
    }
}

/// The marks of a dial on the bench. The seam ends where the tub meets the rail.
pub fn scale(bench: Bench, dial: Dial) -> Scale {
    let notation = bench.notation.get();
    let (opened, present) = bench
        .work
        .with(|work| (dial.get(&work.opened), dial.get(&work.car)));
    let limit = dial.limit(|| bench.model.with(|model| Some(model.as_deref()?.seam_limit)));
    dial.scale(opened, present, limit, notation)
}
