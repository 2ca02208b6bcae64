//! The chart: each surface's gap through travel, with its finding as its name and its data as a table.

use std::sync::Arc;

use drawing::{Scene, TravelChart, travel_chart, travel_rows};
use geometry::side::Side;
use geometry::sweep::{SweepWork, TravelCurve};
use leptos::prelude::*;
use leptos::svg;

use super::picture::{SceneGroup, group_ids};
use super::store::{Bench, Same};
use super::texts::TextTable;
use crate::browser::later::later;
use crate::browser::sight::in_sight;
use crate::browser::size::width_of;

/// Heights of both wheels at which the curves are computed.
const SAMPLES: u32 = 25;

/// Heights in the table: enough to read, few enough to be read out.
const TABLE_SAMPLES: u32 = 9;

/// Width of the chart before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 560.0;

/// What keeps the chart's place before there is one.
const AWAITED: &str = "0 0 16 10";

/// The chart of one side: the one that is looked at, or else the worse one.
#[component]
pub fn Chart(bench: Bench) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    let seen = in_sight(sheet);
    let side = bench.side();
    let curves = later(
        Memo::new(move |_| Some((Same(bench.model.get()?), side.get()))),
        seen.into(),
        |(model, side): &(Same, Side)| {
            let mut work = SweepWork::begin(&model.0, *side, SAMPLES);
            Box::new(move || work.step())
        },
    );
    let scene = Memo::new(
        move |last: Option<&Option<Arc<Scene>>>| match curves.get() {
            Some(curves) => draw(bench, &curves, width.get()),
            None => last.cloned().flatten(),
        },
    );
    let is_awaited = move || curves.with(Option::is_none);
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let finding = move || {
        if is_awaited() {
            return "Being worked out.".to_owned();
        }
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(String::new(), |scene| scene.title.clone())
        })
    };
    let view_box = move || {
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(AWAITED.to_owned(), |scene| scene.view.view_box())
        })
    };
    view! {
        <section class="chart" class:is-stale=is_awaited aria-labelledby="chart-title">
            <h2 id="chart-title">{move || format!("Gap through travel, {} side", side.get().word())}</h2>
            <svg node_ref=sheet class="scene" role="img" aria-label=finding viewBox=view_box>
                <For each=move || ids.get() key=Clone::clone let:id>
                    <SceneGroup id=id scene=scene />
                </For>
            </svg>
            <p class="finding" aria-hidden="true">{finding}</p>
            <Table bench=bench side=side />
        </section>
    }
}

fn draw(bench: Bench, curves: &[TravelCurve], width: f64) -> Option<Arc<Scene>> {
    let model = bench.model.get()?;
    let chart = TravelChart {
        curves,
        targets: &model.car.targets,
        notation: bench.notation.get(),
        now: Some(bench.scrub.get().heave),
        width,
    };
    Some(Arc::new(travel_chart(&chart)))
}

/// The chart's data, computed only while it is looked at.
#[component]
fn Table(bench: Bench, side: Memo<Side>) -> impl IntoView {
    let open = RwSignal::new(false);
    let curves = later(
        Memo::new(move |_| Some((Same(bench.model.get()?), side.get()))),
        open.into(),
        |(model, side): &(Same, Side)| {
            let mut work = SweepWork::begin(&model.0, *side, TABLE_SAMPLES);
            Box::new(move || work.step())
        },
    );
    let table = Memo::new(move |_| Some(travel_rows(&curves.get()?, bench.notation.get())));
    let heads = move || table.get().map_or(Vec::new(), |table| table.heads);
    let rows = move || table.get().map_or(Vec::new(), |table| table.rows);
    view! {
        <details class="data" on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary>"The same as a table"</summary>
            <TextTable label="Gap through travel, as a table" heads=Signal::derive(heads) rows=Signal::derive(rows) />
        </details>
    }
}
