//! What lies over a room chart: it tells what a wheel and tire would do, certified, and puts them on the car.

use std::sync::Arc;

use drawing::{Scene, room_place, room_spot, room_tub};
use geometry::room::RoomChart;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use leptos::svg;

use super::handle::{on_sheet, share};
use super::store::Bench;
use crate::browser::later::later;
use crate::state::room::{Asked, Place, finding, keyed, on_marks, place_words, present, with};

/// What is said while no place is chosen.
const ASK: &str = "No place is chosen.";
/// What is said while a place is certified.
const AWAITED: &str = "Being certified.";

/// The plane of one chart.
#[component]
pub fn RoomPlane(
    bench: Bench,
    chart: Memo<Option<Arc<RoomChart>>>,
    moved: bool,
    chosen: RwSignal<Option<(bool, Place)>>,
    place: Memo<Option<Place>>,
    words: &'static str,
    scene: Memo<Option<Arc<Scene>>>,
    sheet: NodeRef<svg::Svg>,
) -> impl IntoView {
    let choose = move |place: Option<Place>| {
        let place = place.map(|place| (moved, place));
        if place != chosen.get_untracked() {
            chosen.set(place);
        }
    };
    let point = move |motion: PointerEvent| {
        let found = chart.get_untracked().zip(scene.get_untracked());
        choose(found.and_then(|(chart, scene)| {
            let at = room_place(&chart, &scene, on_sheet(sheet, &motion)?)?;
            Some(on_marks(at, &chart.options, bench.notation.get_untracked()))
        }));
    };
    let put_on = move || {
        if let (Some(place), true) = (place.get_untracked(), chart.with_untracked(Option::is_some))
        {
            bench.commit("Wheel and tire from the room chart", |car| {
                *car = with(car, place);
            });
        }
    };
    let on_key = move |key: KeyboardEvent| {
        let Some(chart) = chart.get_untracked() else {
            return;
        };
        let from = place.get_untracked().unwrap_or(chart.present);
        match key.key().as_str() {
            "Enter" | " " => put_on(),
            "Escape" => choose(None),
            name => match keyed(name, from, &chart.options, bench.notation.get_untracked()) {
                Some(place) => choose(Some(place)),
                None => return,
            },
        }
        key.prevent_default();
    };
    // Who walks by keys keeps the place while the pointer rests elsewhere.
    let focused = RwSignal::new(false);
    let leave = move |_| {
        if !focused.get_untracked() {
            choose(None);
        }
    };
    let start = move |_| {
        focused.set(true);
        if place.get_untracked().is_none() {
            choose(
                bench
                    .model
                    .with_untracked(|model| Some(present(&model.as_ref()?.car))),
            );
        }
    };
    let at = move || {
        let spot = room_spot(chart.get()?.as_ref(), scene.get()?.as_ref(), place.get()?)?;
        Some(share(scene, spot))
    };
    let name = if moved {
        "Wheels and tires with the tub moved. Arrow keys walk over the chart, Enter puts one on the car."
    } else {
        "Wheels and tires with the stock tub. Arrow keys walk over the chart, Enter puts one on the car."
    };
    view! {
        <div
            class="spots"
            role="application"
            aria-roledescription="chart"
            tabindex="0"
            aria-label=name
            aria-describedby=words
            on:pointerdown=point
            on:pointermove=point
            on:pointerleave=leave
            on:click=move |_| put_on()
            on:focus=start
            on:blur=move |_| focused.set(false)
            on:keydown=on_key
        >
            <Show when=move || at().is_some()>
                <i
                    aria-hidden="true"
                    style:left=move || at().map_or(String::new(), |at| at.0)
                    style:top=move || at().map_or(String::new(), |at| at.1)
                ></i>
            </Show>
        </div>
    }
}

/// The place in words at once, and what comes of it once it has stood still and is certified.
pub fn place_told(
    bench: Bench,
    asked: Memo<Option<Asked>>,
    chart: Memo<Option<Arc<RoomChart>>>,
    moved: bool,
    place: Memo<Option<Place>>,
) -> impl Fn() -> String + Send + Sync + Clone + 'static {
    let input = Memo::new(move |_| Some((asked.get()?, place.get()?, bench.notation.get())));
    let found = later(
        input,
        Signal::stored(true),
        move |(asked, place, notation)| {
            let (asked, place, notation) = (asked.clone(), *place, *notation);
            let seam = if moved { asked.options.seam } else { 0.0 };
            Box::new(move || Some(finding(&asked, place, seam, notation)))
        },
    );
    move || {
        let (Some(place), Some(chart), Some(model)) = (place.get(), chart.get(), bench.model.get())
        else {
            return ASK.to_owned();
        };
        let notation = bench.notation.get();
        format!(
            "{}, {}: {}",
            place_words(&model.car, place, notation),
            room_tub(&chart, moved, notation),
            found.with(|found| found.as_deref().map_or(AWAITED.to_owned(), Clone::clone))
        )
    }
}
