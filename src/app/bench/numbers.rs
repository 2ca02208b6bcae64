//! Every other number of the car, straight from its field tables: what has no lever stands here.

use geometry::body::Obstacle;
use geometry::car::Car;
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS, OptionalField};
use geometry::field::Field;
use geometry::locator::{Locator, PivotOn};
use geometry::space::Vec3;
use geometry::units::{Notation, format_length};
use leptos::prelude::*;

use super::dial::Help;
use super::store::Bench;
use super::typed_box::{NumberBox, TypedBox};
use crate::state::figures;

/// The parts of a car, by the table of their keys.
const PARTS: [(&str, &str); 10] = [
    ("tire.", "Tire"),
    ("wheel.", "Wheel"),
    ("axle.", "Axle"),
    ("travel.", "Travel"),
    ("left.", "Left wheelhouse"),
    ("right.", "Right wheelhouse"),
    ("targets.", "Gaps asked for"),
    ("tape_error.", "How far readings may be off"),
    ("stock.", "As the maker built it"),
    ("metal.", "Metal and mock-up"),
];

/// All numbers, the locator and the parts bolted nearby.
#[component]
pub fn NumbersPanel(bench: Bench) -> impl IntoView {
    view! {
        <details class="panel">
            <summary>"All numbers"</summary>
            <CarName bench=bench />
            <div class="parts">
                {PARTS.map(|(table, title)| view! { <Part bench=bench table=table title=title /> })}
            </div>
            <LocatorLine bench=bench />
            <Obstacles bench=bench />
        </details>
    }
}

#[component]
fn CarName(bench: Bench) -> impl IntoView {
    let shown = Signal::derive(move || bench.work.with(|work| work.car.name.clone()));
    let accept = move |text: String| {
        let name = text.trim().to_owned();
        if name.is_empty() {
            return Err("The car needs a name. Type one.".to_owned());
        }
        bench.commit("Name", |car| car.name = name);
        Ok(())
    };
    view! {
        <p class="number">
            <label for="car-name">"Name of the car"</label>
            <TypedBox id="car-name".to_owned() shown=shown accept=accept class="name" />
        </p>
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
        <p class="number">
            <label for=id.clone()>{bound.label}</label>
            <Help label=bound.label text=bound.help />
            <NumberBox id=id value=value bound=bound notation=bench.notation commit=commit />
        </p>
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
        <p class="number">
            <label for=id.clone()>{bound.label}</label>
            <Help label=bound.label text=bound.help />
            <NumberBox id=id value=value bound=bound notation=bench.notation commit=commit clear=clear />
        </p>
    }
}

/// What holds the axle sideways, as the car file says it.
#[component]
fn LocatorLine(bench: Bench) -> impl IntoView {
    let words = move || {
        bench
            .work
            .with(|work| locator_words(&work.car.locator, bench.notation.get()))
    };
    view! { <p class="lead"><b>"Locator: "</b>{words}</p> }
}

fn locator_words(locator: &Locator, notation: Notation) -> String {
    let up = |height: f64| {
        figures::directed(
            height,
            ("above the axle's center", "below the axle's center"),
            notation,
        )
    };
    match locator {
        Locator::TrackBar { axle_end, body_end } => {
            let end = |at: &geometry::space::Vec2| {
                let across = figures::directed(
                    at.x,
                    ("left of the car's center", "right of the car's center"),
                    notation,
                );
                format!("{across}, {}", up(at.y))
            };
            format!(
                "track bar, from the axle ({}) to the body ({}).",
                end(axle_end),
                end(body_end)
            )
        }
        Locator::WattLink { height, pivot_on } => {
            let on = match pivot_on {
                PivotOn::Axle => "axle",
                PivotOn::Body => "body",
            };
            format!("Watt link, its pivot on the {on}, {}.", up(*height))
        }
        Locator::AngledLinks { height } => format!("angled links that meet {}.", up(*height)),
        Locator::LeafSprings { height } => format!("leaf springs, their seats {}.", up(*height)),
    }
}

/// The parts bolted near the tires.
#[component]
fn Obstacles(bench: Bench) -> impl IntoView {
    let parts = move || bench.work.with(|work| work.car.obstacles.clone());
    let row = move |part: Obstacle| {
        let notation = bench.notation.get();
        view! {
            <tr>
                <th scope="row">{part.name}</th>
                <td>{part.side.word()}</td>
                <td>{point(part.from, notation)}</td>
                <td>{point(part.to, notation)}</td>
                <td>{format_length(part.radius, notation)}</td>
            </tr>
        }
    };
    view! {
        <Show when=move || !parts().is_empty() fallback=|| view! { <p class="lead">"No part bolted nearby is listed in the car's file."</p> }>
            <div id="parts-nearby" class="wide" tabindex="0" role="region" aria-label="Parts bolted nearby">
                <table class="numbers">
                    <caption>"Parts bolted nearby (ahead, out from the car's center plane, up)"</caption>
                    <thead>
                        <tr>
                            <th scope="col">"Part"</th>
                            <th scope="col">"Side"</th>
                            <th scope="col">"From"</th>
                            <th scope="col">"To"</th>
                            <th scope="col">"Radius"</th>
                        </tr>
                    </thead>
                    <tbody>{move || parts().into_iter().map(row).collect_view()}</tbody>
                </table>
            </div>
        </Show>
    }
}

fn point(at: Vec3, notation: Notation) -> String {
    [at.x, at.y, at.z]
        .map(|length| format_length(length, notation))
        .join(", ")
}
