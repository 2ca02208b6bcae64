//! The wheelhouse map: hovered or walked over by the arrow keys, and a way to look at any spot in the rear view.

use std::sync::Arc;

use drawing::{MapOptions, Scene, map_place, map_section, map_spot, spot_words, wheelhouse_map};
use geometry::sheet::SheetMap;
use geometry::side::Side;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use leptos::svg;

use super::handle::{on_sheet, share};
use super::picture::{SceneGroup, group_ids};
use super::said::Said;
use super::store::{Bench, Same};
use crate::browser::later::later;
use crate::browser::sight::in_sight;
use crate::browser::size::width_of;
use crate::state::around::{SECTION, pose_words};
use crate::state::scrub::Scrub;

/// Width of the map before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 560.0;
/// Nodes that are computed in one piece of work.
const NODES: usize = 8;
/// Rows that a page of the map is.
const PAGE: usize = 5;

/// The map of one side.
#[component]
pub fn MapView(bench: Bench, side: Memo<Side>) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    let seen = in_sight(sheet);
    let input = Memo::new(move |_| Some((Same(bench.model.get()?), side.get())));
    let map = later(input, seen.into(), |(model, side): &(Same, Side)| {
        let mut work = SheetMap::begin(&model.0, *side);
        Box::new(move || work.step(NODES))
    });
    let still = move || MapOptions {
        angle: None,
        width: width.get(),
        notation: bench.notation.get(),
    };
    let options = Signal::derive(move || MapOptions {
        angle: Some(bench.angle.get()),
        ..still()
    });
    let line = move || {
        map.with(|map| {
            map.as_ref()
                .map_or(String::new(), |map| map_section(&options.get(), map))
        })
    };
    // The last map stays, faint and without its words, until the next one is there.
    let scene = Memo::new(move |last: Option<&Option<Arc<Scene>>>| {
        let fresh = || {
            let (model, map) = (bench.model.get()?, map.get()?);
            Some(Arc::new(wheelhouse_map(&map, &model, &still())))
        };
        if seen.get() { fresh() } else { None }.or_else(|| last.cloned().flatten())
    });
    let is_stale = Memo::new(move |_| map.with(Option::is_none));
    let of_scene = move |tell: fn(&Scene) -> String| {
        move || scene.with(|scene| scene.as_deref().map_or(String::new(), tell))
    };
    let chosen = RwSignal::new(None::<(usize, usize)>);
    // A spot is a column and a row; on another map it is another spot.
    let spot = Memo::new(move |_| {
        let (map, (column, row)) = (map.get()?, chosen.get()?);
        map.node(column, row).map(|_| map.index(column, row))
    });
    let words = move || {
        let (model, map) = bench.model.get().zip(map.get())?;
        let index = spot.get()?;
        let pose = map.nodes.get(index)?.gap.witness.pose;
        let gap = spot_words(&map, &model, index, bench.notation.get());
        Some(format!(
            "{} Nearest with {}.",
            capital(gap),
            pose_words(pose, bench.notation.get())
        ))
    };
    let told = move || words().unwrap_or_else(|| ASK.to_owned());
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let finding = move || {
        if is_stale.get() {
            WORKING.to_owned()
        } else {
            scene.with(|scene| {
                scene
                    .as_deref()
                    .map_or(String::new(), |scene| scene.title.clone())
            })
        }
    };
    let shape = of_scene(|scene| format!("{} / {}", scene.view.width, scene.view.height));
    view! {
        <div class="map-view">
            <h3>"Unrolled"</h3>
            <div class="sheet" class:is-stale=is_stale style=("aspect-ratio", move || Some(shape()).filter(|shape| !shape.is_empty()).unwrap_or_else(|| "4 / 3".to_owned()))>
                <svg node_ref=sheet class="scene" role="img" aria-label=finding viewBox=move || shown_part(&of_scene(|scene| scene.view.view_box())())>
                    <For each=move || ids.get() key=Clone::clone let:id>
                        <SceneGroup id=id scene=scene />
                    </For>
                    <g aria-hidden="true" inner_html=line></g>
                </svg>
                <Show when=move || is_stale.get()>
                    <p class="working" aria-hidden="true">{WORKING}</p>
                </Show>
                <SpotPlane bench=bench map=map chosen=chosen spot=spot options=options scene=scene sheet=sheet />
            </div>
            <p class="spot-words" id="spot-words">{told}</p>
            <Said words=Signal::derive(told) />
        </div>
    }
}

/// The shown part of the sheet; of nothing, before there is a map.
fn shown_part(view_box: &str) -> String {
    if view_box.is_empty() {
        "0 0 4 3".to_owned()
    } else {
        view_box.to_owned()
    }
}

/// What is said while the map is computed.
const WORKING: &str = "The map is being worked out.";

/// What is said while no spot is chosen.
const ASK: &str =
    "Point at a spot of the sheet, or walk over it with the arrow keys, to read its gap.";

/// What lies over the map: it tells a spot's gap and pose, and takes the rear view there.
#[component]
fn SpotPlane(
    bench: Bench,
    map: Memo<Option<Arc<SheetMap>>>,
    chosen: RwSignal<Option<(usize, usize)>>,
    spot: Memo<Option<usize>>,
    options: Signal<MapOptions>,
    scene: Memo<Option<Arc<Scene>>>,
    sheet: NodeRef<svg::Svg>,
) -> impl IntoView {
    let point = move |motion: PointerEvent| {
        let found = map.with_untracked(|map| {
            let map = map.as_deref()?;
            let index = map_spot(&options.get_untracked(), map, on_sheet(sheet, &motion)?)?;
            Some(map.place(index))
        });
        if found != chosen.get_untracked() {
            chosen.set(found);
        }
    };
    let go = move || {
        let Some((map, index)) = map.get_untracked().zip(spot.get_untracked()) else {
            return;
        };
        let (column, row) = map.place(index);
        if let (Some(node), Some(&angle), Some(found)) = (
            map.nodes.get(index),
            map.angles.get(column),
            map.rows.get(row),
        ) {
            bench.hold(Scrub::at(node.gap.witness.pose));
            bench.angle.set(SECTION.clamp(angle));
            bench.picked.set(Some((map.side, found.surface.into())));
        }
    };
    let on_key = move |key: KeyboardEvent| {
        let Some(map) = map.get_untracked() else {
            return;
        };
        match key.key().as_str() {
            "Enter" | " " => go(),
            "Escape" => chosen.set(None),
            name => match moved(name, &map, chosen.get_untracked()) {
                Some(place) => chosen.set(Some(place)),
                None => return,
            },
        }
        key.prevent_default();
    };
    // Who walks by keys keeps the spot while the pointer rests elsewhere.
    let focused = RwSignal::new(false);
    let leave = move |_| {
        if !focused.get_untracked() {
            chosen.set(None);
        }
    };
    let start = move |_| {
        focused.set(true);
        if chosen.get_untracked().is_none() {
            let least = map.with_untracked(|map| Some(map.as_ref()?.place(map.as_ref()?.least()?)));
            chosen.set(least);
        }
    };
    let at = move || {
        let (map, index) = (map.get()?, spot.get()?);
        Some(share(scene, map_place(&options.get(), &map, index)?))
    };
    view! {
        <div
            class="spots"
            role="application"
            aria-roledescription="map"
            tabindex="0"
            aria-label="Spots of the wheelhouse. Arrow keys walk over the sheet, Enter shows the spot in the rear view."
            aria-describedby="spot-words"
            on:pointerdown=point
            on:pointermove=point
            on:pointerleave=leave
            on:click=move |_| go()
            on:focus=start
            on:blur=move |_| focused.set(false)
            on:keydown=on_key
        >
            <Show when=move || spot.get().is_some()>
                <i
                    aria-hidden="true"
                    style:left=move || at().map_or(String::new(), |at| at.0)
                    style:top=move || at().map_or(String::new(), |at| at.1)
                ></i>
            </Show>
        </div>
    }
}

/// The column and row that a key leads to.
fn moved(key: &str, map: &SheetMap, from: Option<(usize, usize)>) -> Option<(usize, usize)> {
    let (columns, rows) = (map.angles.len(), map.rows.len());
    let (column, row) = from.unwrap_or((columns / 2, rows / 2));
    let (column, row) = match key {
        "ArrowLeft" => (column.saturating_sub(1), row),
        "ArrowRight" => (column + 1, row),
        "ArrowUp" => (column, row + 1),
        "ArrowDown" => (column, row.saturating_sub(1)),
        "PageUp" => (column, row + PAGE),
        "PageDown" => (column, row.saturating_sub(PAGE)),
        "Home" => (0, row),
        "End" => (columns, row),
        _ => return None,
    };
    Some((
        column.min(columns.saturating_sub(1)),
        row.min(rows.saturating_sub(1)),
    ))
}

fn capital(mut sentence: String) -> String {
    if let Some(first) = sentence.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    sentence
}
