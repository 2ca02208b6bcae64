//! The side view: the wheel from outside, the ring of gaps round it, and the line of the rear view's section.

use std::sync::Arc;

use drawing::{Scene, SideOptions, bearing, side_angle, side_handle, side_view};
use geometry::check::Verdict;
use geometry::sheet::{Ring, Sector};
use geometry::side::Side;
use geometry::units::{Notation, degrees, format_length};
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use leptos::svg;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::Element;

use super::handle::{on_sheet, share};
use super::picture::{SceneGroup, group_ids};
use super::store::{Bench, Same};
use crate::browser::behind::behind;
use crate::browser::later::later;
use crate::browser::sight::in_sight;
use crate::browser::size::width_of;
use crate::state::around::{keyed, on_degree, spoken};

/// Width of the view before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 560.0;

/// The view of one side.
#[component]
pub fn SideView(bench: Bench, side: Memo<Side>) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    let seen = in_sight(sheet);
    let input = Memo::new(move |_| Some((Same(bench.model.get()?), side.get())));
    let ring = later(input, seen.into(), |(model, side): &(Same, Side)| {
        let mut work = Ring::begin(&model.0, *side);
        Box::new(move || work.step(1))
    });
    let checked = behind(Memo::new(move |_| {
        Some((Same(bench.model.get()?), bench.check.get()?))
    }));
    let scene = Memo::new(move |last: Option<&Option<Arc<Scene>>>| {
        if !seen.get() {
            return last.cloned().flatten();
        }
        let ((Same(model), check), ring) = (checked.get()?, ring.get());
        let options = options(bench, side.get(), width.get(), ring.as_deref());
        Some(Arc::new(side_view(&model, &check, &options)))
    });
    let of_scene = move |tell: fn(&Scene) -> String| {
        move || scene.with(|scene| scene.as_deref().map_or(String::new(), tell))
    };
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let lit = move || {
        bench.picked.get().map_or(String::new(), |(side, surface)| {
            scene.with(|scene| {
                scene
                    .as_ref()
                    .map_or(String::new(), |scene| scene.outlines_of(side, surface))
            })
        })
    };
    view! {
        <div class="side-view">
            <h3>"From the side"</h3>
            <div class="sheet" style=("aspect-ratio", of_scene(|scene| format!("{} / {}", scene.view.width, scene.view.height)))>
                <svg
                    node_ref=sheet
                    class="scene"
                    role="img"
                    aria-label=of_scene(|scene| scene.title.clone())
                    aria-describedby="side-description"
                    viewBox=of_scene(|scene| scene.view.view_box())
                >
                    <For each=move || ids.get() key=Clone::clone let:id>
                        <SceneGroup id=id scene=scene />
                    </For>
                    <g class="lit" inner_html=lit></g>
                </svg>
                <div class="handles" role="group" aria-label="Drag in the side view">
                    <SectionHandle bench=bench side=side scene=scene sheet=sheet width=width />
                </div>
            </div>
            <p class="heard" id="side-description">{of_scene(|scene| scene.description.clone())}</p>
            <RingTable bench=bench ring=ring />
        </div>
    }
}

fn options(bench: Bench, side: Side, width: f64, ring: Option<&Ring>) -> SideOptions<'_> {
    SideOptions {
        side,
        angle: bench.angle.get(),
        ring,
        width,
        notation: bench.notation.get(),
    }
}

/// The end of the section's line: dragged round the wheel, or moved by the arrow keys.
#[component]
fn SectionHandle(
    bench: Bench,
    side: Memo<Side>,
    scene: Memo<Option<Arc<Scene>>>,
    sheet: NodeRef<svg::Svg>,
    width: ReadSignal<f64>,
) -> impl IntoView {
    let held = RwSignal::new(false);
    let take_hold = move |press: PointerEvent| {
        if press.button() == 0 && press.is_primary() {
            held.set(true);
            let target = press.current_target();
            if let Some(handle) = target.and_then(|target| target.dyn_into::<Element>().ok()) {
                // Without the capture the drag ends at the handle's edge, no worse.
                let _ = handle.set_pointer_capture(press.pointer_id());
            }
        }
    };
    let drag = move |motion: PointerEvent| {
        if let (true, Some(at)) = (held.get_untracked(), on_sheet(sheet, &motion)) {
            bench
                .angle
                .set(on_degree(side_angle(side.get_untracked(), at)));
        }
    };
    let on_key = move |key: KeyboardEvent| {
        let forward = match side.get_untracked() {
            Side::Left => "ArrowLeft",
            Side::Right => "ArrowRight",
        };
        if let Some(angle) = keyed(&key.key(), bench.angle.get_untracked(), forward) {
            key.prevent_default();
            bench.angle.set(angle);
        }
    };
    let at = Memo::new(move |_| {
        let model = bench.model.get()?;
        let at = side_handle(&model, &options(bench, side.get(), width.get(), None));
        Some(share(scene, at))
    });
    view! {
        <div
            class="handle round-about"
            class:is-held=held
            role="slider"
            tabindex="0"
            aria-label="Section of the rear view"
            aria-valuemin="-90"
            aria-valuemax="90"
            aria-valuenow=move || degrees(bench.angle.get()).round().to_string()
            aria-valuetext=move || spoken(bench.angle.get())
            style:left=move || at.get().map_or(String::new(), |at| at.0)
            style:top=move || at.get().map_or(String::new(), |at| at.1)
            on:pointerdown=take_hold
            on:pointermove=drag
            on:pointerup=move |_| held.set(false)
            on:lostpointercapture=move |_| held.set(false)
            on:keydown=on_key
        >
            <i aria-hidden="true"></i>
        </div>
    }
}

/// The ring's data, written out.
#[component]
fn RingTable(bench: Bench, ring: Memo<Option<Arc<Ring>>>) -> impl IntoView {
    let rows = move || {
        let targets = bench.model.get().map(|model| model.car.targets)?;
        let rows = ring
            .get()?
            .sectors
            .iter()
            .map(|sector| {
                let target = targets.through_travel(sector.surface);
                cells(
                    sector,
                    Verdict::of(sector.gap.low, target),
                    bench.notation.get(),
                )
            })
            .collect_view();
        Some(rows)
    };
    view! {
        <details class="data">
            <summary>"The ring as a table"</summary>
            <div class="wide" tabindex="0" role="region" aria-label="Least gap in each sector, as a table">
                <table>
                    <thead>
                        <tr>
                            <th scope="col">"Sector"</th>
                            <th scope="col">"Least gap"</th>
                            <th scope="col">"Surface"</th>
                            <th scope="col">"Verdict"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
        </details>
    }
}

fn cells(sector: &Sector, verdict: Verdict, notation: Notation) -> impl IntoView + use<> {
    let [from, to] = sector.angles.map(bearing);
    view! {
        <tr>
            <th scope="row">{format!("{from} to {to}")}</th>
            <td>{format_length(sector.gap.low, notation)}</td>
            <td>{sector.surface.label()}</td>
            <td>{verdict.word()}</td>
        </tr>
    }
}
