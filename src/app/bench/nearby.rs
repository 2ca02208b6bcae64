//! What stands near the tires and holds the axle: parts, places not to cut, the locator.

use geometry::body::{NoCutZone, Obstacle};
use geometry::car::Car;
use geometry::field::Field;
use geometry::locator::{LOCATOR_FIELDS, LocatorField};
use geometry::side::Side;
use leptos::prelude::*;

use super::listen::{entry, press};
use super::numbers::NumberRow;
use super::store::Bench;
use super::typed_box::TypedBox;
use crate::browser::reveal::{pass_focus_to, reveal_soon};
use crate::state::holding::{KINDS, exchanged, kind};
use crate::state::naming::named;
use crate::state::nearby::{Nearby, count_words};
use crate::state::settings::chosen;

/// The panel.
#[component]
pub fn NearbyPanel(bench: Bench) -> impl IntoView {
    view! {
        <details class="panel">
            <summary>
                "Parts nearby and locator "
                <span class="count">{move || bench.work.with(|work| count_words(&work.car))}</span>
            </summary>
            <LocatorGroup bench=bench />
            <section>
                <h3>"Parts bolted near the tires"</h3>
                <p class="lead">
                    "A shock, a spring, a tailpipe, a filler neck: each is stood in for by a rounded bar between two points. Measure at ride height, ahead and up from the axle's center and out from the car's center plane; behind and below are negative."
                </p>
                {listed::<Obstacle>(bench)}
            </section>
            <section>
                <h3>"Where not to cut"</h3>
                <p class="lead">
                    "A belt anchorage, a shock or spring mount, what holds the quarter panel: a patch of the wheelhouse between two angles from straight up (behind is negative) and two distances along the sheet from the seam (inboard of it is positive, outboard negative)."
                </p>
                {listed::<NoCutZone>(bench)}
            </section>
        </details>
    }
}

#[component]
fn LocatorGroup(bench: Bench) -> impl IntoView {
    let now = Memo::new(move |_| bench.work.with(|work| kind(&work.car.locator)));
    let choose = move |word: String| {
        if let Some(kind) = chosen(&KINDS, &word) {
            bench.commit("Locator", |car| car.locator = exchanged(&car.locator, kind));
        }
    };
    view! {
        <fieldset class="group locator">
            <legend>"What holds the axle sideways"</legend>
            <p class="number">
                <label for="locator-kind">"Locator"</label>
                <select id="locator-kind" on:change=entry(choose)>
                    {KINDS.map(|(word, name, one)| view! { <option value=word prop:selected=move || now.get() == one>{name}</option> })}
                </select>
            </p>
            {LOCATOR_FIELDS.iter().enumerate().map(|(i, field)| view! { <LocatorNumber bench=bench i=i field=field /> }).collect_view()}
        </fieldset>
    }
}

/// A number of the locator, where its kind has it.
#[component]
fn LocatorNumber(bench: Bench, i: usize, field: &'static LocatorField) -> impl IntoView {
    let bound = field.bound;
    let id = format!("locator-{i}");
    let value = Memo::new(move |_| bench.work.with(|work| (field.get)(&work.car.locator)));
    let is_there = move || value.with(Option::is_some);
    let commit = move |value| bench.commit(bound.label, |car| (field.set)(&mut car.locator, value));
    view! {
        <Show when=is_there>
            <NumberRow id=id.clone() value=value bound=bound notation=bench.notation commit=commit />
        </Show>
    }
}

/// A list of the car: each thing with its numbers, and a way to one more or one fewer.
fn listed<T: Nearby>(bench: Bench) -> impl IntoView {
    let count = Memo::new(move |_| bench.work.with(|work| T::list(&work.car).len()));
    let is_full = Memo::new(move |_| count.get() >= carfile::MANY);
    let add = move || {
        let last = count.get_untracked();
        bench.commit(&format!("Add a {}", T::ONE), |car| {
            let begun = T::begun(car);
            T::list_mut(car).push(begun);
        });
        reveal_soon(format!("{}-{last}-name", T::SLUG));
    };
    view! {
        <div class="parts">
            <For each=move || 0..count.get() key=|place| *place let:place>{one::<T>(bench, place)}</For>
        </div>
        <p class="to-do">
            <button type="button" class="quiet" id=T::ADDER on:click=press(add) disabled=move || is_full.get()>
                {format!("Add a {}", T::ONE)}
            </button>
        </p>
    }
}

/// One thing of a list.
fn one<T: Nearby>(bench: Bench, place: usize) -> impl IntoView {
    // What is taken away is read once more before its boxes go.
    let one = Memo::new(move |_| {
        bench
            .work
            .with(|work| T::list(&work.car).get(place).cloned())
    });
    let id = move |part: &str| format!("{}-{place}-{part}", T::SLUG);
    let name = Signal::derive(move || {
        one.get()
            .map(|mut one| one.name().clone())
            .unwrap_or_default()
    });
    let side = move || one.get().map_or(Side::Left, |mut one| *one.side());
    let change = move |what: &str, change: &dyn Fn(&mut T)| {
        let step = format!("{}, {what}", name.get_untracked());
        bench.commit(&step, |car: &mut Car| {
            if let Some(one) = T::list_mut(car).get_mut(place) {
                change(one);
            }
        });
    };
    let accept = move |text: String| {
        let text = named(&text, T::ONE)?;
        change("name", &|one| one.name().clone_from(&text));
        Ok(())
    };
    let turn = move |word: String| {
        if let Some(side) = Side::BOTH.into_iter().find(|side| side.word() == word) {
            change("side", &|one| *one.side() = side);
        }
    };
    let remove = move || {
        bench.commit(&format!("Remove {}", name.get_untracked()), |car| {
            if place < T::list(car).len() {
                T::remove(car, place);
            }
        });
        pass_focus_to(T::ADDER);
    };
    let number = move |i: usize, field: &'static Field<T>| {
        let bound = field.bound;
        let id = id(&i.to_string());
        let value = Signal::derive(move || one.with(|one| one.as_ref().map(field.get)));
        let commit = move |value| change(bound.label, &|one| (field.set)(one, value));
        view! {
            <NumberRow id=id value=value bound=bound notation=bench.notation commit=commit />
        }
    };
    view! {
        <fieldset class="group">
            <legend>{name}</legend>
            <p class="number">
                <label for=id("name")>"Name"</label>
                <TypedBox id=id("name") shown=name accept=accept class="name" />
            </p>
            <p class="number">
                <label for=id("side")>"Side"</label>
                <select id=id("side") on:change=entry(turn)>
                    {Side::BOTH.map(|one| view! { <option value=one.word() prop:selected=move || side() == one>{one.word()}</option> })}
                </select>
            </p>
            {T::FIELDS.iter().enumerate().map(|(i, field)| number(i, field)).collect_view()}
            <p class="to-do">
                <button type="button" class="quiet" on:click=press(remove)>{move || format!("Remove {}", name.get())}</button>
            </p>
        </fieldset>
    }
}
