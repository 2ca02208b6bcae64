//! Every other number of the car, straight from its field tables: what has no lever stands here.

use geometry::car::Car;
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS, OptionalField};
use geometry::field::{Bound, Field};
use geometry::units::Notation;
use leptos::prelude::*;

use super::dial::Help;
use super::store::Bench;
use super::typed_box::NumberBox;

/// The parts of a car, by the table of their keys.
const PARTS: [(&str, &str); 11] = [
    ("tire.", "Tire"),
    ("wheel.", "Wheel"),
    ("axle.", "Axle"),
    ("travel.", "Travel"),
    ("left.", "Left wheelhouse"),
    ("right.", "Right wheelhouse"),
    ("targets.", "Gaps asked for"),
    ("tape_error.", "How far readings may be off"),
    ("stock.", "As the maker built it"),
    ("before.", "Before the plan"),
    ("metal.", "Metal and mock-up"),
];

/// All numbers, part by part.
#[component]
pub fn NumbersPanel(bench: Bench) -> impl IntoView {
    view! {
        <details class="panel">
            <summary>"All numbers"</summary>
            <div class="parts">
                {PARTS.map(|(table, title)| view! { <Part bench=bench table=table title=title /> })}
            </div>
        </details>
    }
}

#[component]
fn Part(bench: Bench, table: &'static str, title: &'static str) -> impl IntoView {
    let fixed = CAR_FIELDS
        .iter()
        .filter(|field| field.bound.key.starts_with(table));
    let optional = OPTIONAL_FIELDS
        .iter()
        .filter(|field| field.bound.key.starts_with(table));
    view! {
        <fieldset class="group">
            <legend>{title}</legend>
            {fixed.map(|field| view! { <FixedNumber bench=bench field=field /> }).collect_view()}
            {optional.map(|field| view! { <OptionalNumber bench=bench field=field /> }).collect_view()}
        </fieldset>
    }
}

/// A number with its name and what it means.
#[component]
pub fn NumberRow(
    /// The box's id.
    id: String,
    /// The number; `None` shows an empty box.
    #[prop(into)]
    value: Signal<Option<f64>>,
    /// What it may be, and how it is called.
    bound: Bound,
    /// How lengths are written.
    notation: Memo<Notation>,
    /// Takes the number.
    #[prop(into)]
    commit: Callback<f64>,
    /// What an emptied box means, where it may be empty.
    #[prop(optional_no_strip, into)]
    clear: Option<Callback<()>>,
) -> impl IntoView {
    view! {
        <p class="number">
            <label for=id.clone()>{bound.label}</label>
            <Help label=bound.label text=bound.help />
            <NumberBox id=id value=value bound=bound notation=notation commit=commit clear=clear />
        </p>
    }
}

/// A number that is always there.
#[component]
pub fn FixedNumber(
    bench: Bench,
    field: &'static Field<Car>,
    /// Where it stands: no two of the page may have the same id.
    #[prop(default = "number")]
    place: &'static str,
) -> impl IntoView {
    let bound = field.bound;
    let id = format!("{place}-{}", bound.key.replace('.', "-"));
    let value = Signal::derive(move || Some(bench.work.with(|work| (field.get)(&work.car))));
    let commit = move |value| bench.commit(bound.label, |car| (field.set)(car, value));
    view! {
        <NumberRow id=id value=value bound=bound notation=bench.notation commit=commit />
    }
}

/// A number that may be absent: an emptied box takes it away.
#[component]
fn OptionalNumber(bench: Bench, field: &'static OptionalField) -> impl IntoView {
    let bound = field.bound;
    let id = format!("number-{}", bound.key.replace('.', "-"));
    let value = Signal::derive(move || bench.work.with(|work| (field.get)(&work.car)));
    let commit = move |value| bench.commit(bound.label, |car| (field.set)(car, Some(value)));
    let clear = Callback::new(move |()| bench.commit(bound.label, |car| (field.set)(car, None)));
    view! {
        <NumberRow id=id value=value bound=bound notation=bench.notation commit=commit clear=clear />
    }
}
