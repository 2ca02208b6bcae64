//! The room chart: section width against backspacing, with the stock tub and with the moved one, side by side.

use std::sync::Arc;

use drawing::{RoomOptions, Scene, room_chart, room_finding, room_rows};
use geometry::room::RoomChart;
use geometry::units::format_length;
use leptos::prelude::*;
use leptos::svg;

use super::picture::{SceneGroup, group_ids};
use super::room_plane::{RoomPlane, place_told};
use super::said::Said;
use super::store::Bench;
use super::texts::TextTable;
use crate::browser::later::later;
use crate::browser::sight::in_sight;
use crate::browser::size::width_of;
use crate::state::room::{Asked, Place, marked};

/// Width of a chart before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 480.0;
/// What keeps a chart's place before there is one.
const AWAITED: &str = "0 0 16 10";
/// What is said while it is computed.
const WORKING: &str = "The chart is being worked out.";

/// The room for the tire.
#[component]
pub fn RoomView(bench: Bench) -> impl IntoView {
    let section: NodeRef<leptos::html::Section> = NodeRef::new();
    let seen = in_sight(section);
    let asked = Memo::new(move |last: Option<&Option<Asked>>| {
        Some(Asked::of(bench.model.get()?, last.and_then(Option::as_ref)))
    });
    let found = later(asked, seen.into(), |asked: &Asked| {
        let mut work = RoomChart::begin(&asked.model, asked.options);
        Box::new(move || work.step())
    });
    let chart = Memo::new(move |_| {
        let (found, model) = (found.get()?, bench.model.get()?);
        Some(Arc::new(marked(&found, &model.car)))
    });
    let finding = move || {
        chart.with(|chart| {
            chart.as_ref().map_or(WORKING.to_owned(), |chart| {
                room_finding(chart, bench.notation.get())
            })
        })
    };
    // A place is of one of the two charts: whether its tub is the moved one.
    let chosen = RwSignal::new(None::<(bool, Place)>);
    let sheet = move |moved: bool| view! { <RoomSheet bench=bench asked=asked chart=chart moved=moved chosen=chosen /> };
    view! {
        <section class="room" node_ref=section aria-labelledby="room-title">
            <h2 id="room-title">"Room for the tire"</h2>
            <p class="lead">
                "Point at a wheel and tire, or walk there with the arrow keys, to read it. A click or Enter puts it on the car; "
                "the seam stays as it is."
            </p>
            <div class="abreast">
                {sheet(false)}
                {sheet(true)}
            </div>
            <p class="finding" aria-hidden="true">{finding}</p>
            <Legend />
            <Table bench=bench chart=chart />
        </section>
    }
}

/// The chart with the tub in one of its two places.
#[component]
fn RoomSheet(
    bench: Bench,
    asked: Memo<Option<Asked>>,
    chart: Memo<Option<Arc<RoomChart>>>,
    moved: bool,
    chosen: RwSignal<Option<(bool, Place)>>,
) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    // The last chart stays, faint and without its words, until the next one is there.
    let scene = Memo::new(move |last: Option<&Option<Arc<Scene>>>| match chart.get() {
        Some(chart) => {
            let options = RoomOptions {
                moved,
                notation: bench.notation.get(),
                width: width.get(),
            };
            Some(Arc::new(room_chart(&chart, &options)))
        }
        None => last.cloned().flatten(),
    });
    let is_stale = Memo::new(move |_| chart.with(Option::is_none));
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let told = move |of: fn(&Scene) -> String, before: &'static str| {
        move || scene.with(|scene| scene.as_deref().map_or(before.to_owned(), of))
    };
    let title = told(|scene| scene.title.clone(), WORKING);
    let name = move || {
        if is_stale.get() {
            WORKING.to_owned()
        } else {
            title()
        }
    };
    let view_box = told(|scene| scene.view.view_box(), AWAITED);
    let head = move || {
        let with = chart.with(|chart| {
            let chart = chart.as_deref().filter(|_| moved)?;
            Some(format!(
                "Tub moved {}",
                format_length(chart.options.seam, bench.notation.get())
            ))
        });
        with.unwrap_or_else(|| if moved { "Tub moved" } else { "Stock tub" }.to_owned())
    };
    let place = Memo::new(move |_| {
        let (of, place) = chosen.get()?;
        (of == moved).then_some(place)
    });
    let told_of_place = Signal::derive(place_told(bench, asked, chart, moved, place));
    let shape = told(
        |scene| format!("{} / {}", scene.view.width, scene.view.height),
        "16 / 10",
    );
    let [described, words] = if moved {
        ["room-moved-description", "room-moved-words"]
    } else {
        ["room-stock-description", "room-stock-words"]
    };
    view! {
        <div class="room-view">
            <h3>{head}</h3>
            <div class="sheet" class:is-stale=is_stale style=("aspect-ratio", shape)>
                <svg node_ref=sheet class="scene" role="img" aria-label=name aria-describedby=described viewBox=view_box>
                    <For each=move || ids.get() key=Clone::clone let:id>
                        <SceneGroup id=id scene=scene />
                    </For>
                </svg>
                <Show when=move || is_stale.get()>
                    <p class="working" aria-hidden="true">{WORKING}</p>
                </Show>
                <RoomPlane bench=bench chart=chart moved=moved chosen=chosen place=place words=words scene=scene sheet=sheet />
            </div>
            <p class="spot-words" id=words>{told_of_place}</p>
            <Said words=told_of_place />
            <p class="heard" id=described>{told(|scene| scene.description.clone(), "")}</p>
        </div>
    }
}

/// What lines, marks and hatching mean.
#[component]
fn Legend() -> impl IntoView {
    view! {
        <p class="legend">
            <span class="hits"><i class="swatch" aria-hidden="true"></i>"hits: tire and metal overlap"</span>
            <span class="tight"><i class="swatch" aria-hidden="true"></i>"tight: less than asked for"</span>
            <span class="clears"><i class="swatch" aria-hidden="true"></i>"clears: all that was asked for"</span>
        </p>
        <p class="legend">
            "Full line: tire and metal just touch. Dashed line: every target is just met. Dotted lines cross at the wheel on "
            "the car. Short marks on the lower axis: half inches of backspacing, the steps in which wheels are commonly sold "
            "(common practice, no source)."
        </p>
    }
}

/// The chart's rows, written out.
#[component]
fn Table(bench: Bench, chart: Memo<Option<Arc<RoomChart>>>) -> impl IntoView {
    let table = Memo::new(move |_| Some(room_rows(chart.get().as_deref()?, bench.notation.get())));
    let heads = move || table.get().map_or(Vec::new(), |table| table.heads);
    let rows = move || table.get().map_or(Vec::new(), |table| table.rows);
    view! {
        <details class="data">
            <summary>"The room as a table: backspacings"</summary>
            <TextTable label="Backspacings with room, as a table" heads=Signal::derive(heads) rows=Signal::derive(rows) />
        </details>
    }
}
