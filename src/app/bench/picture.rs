//! The rear view, and the handles that are dragged on it.

use std::sync::Arc;

use drawing::{Handle, RearOptions, Scene, rear_view};
use geometry::car::Lever;
use geometry::check::{ACCURACY, at_pose};
use geometry::model::EnvelopeSection;
use geometry::side::Sides;
use geometry::space::{Vec2, vec2};
use geometry::travel::Pose;
use leptos::prelude::*;
use leptos::svg;

use super::handle::{DragHandle, HeaveHandle, heave_point, lean};
use super::radio::RadioMenu;
use super::store::{Bench, Same};
use crate::browser::later::later;
use crate::browser::size::width_of;
use crate::state::apart::{Hold, Lean, apart};
use crate::state::settings::SHOWN;

/// Width of the picture before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 960.0;

/// Below this width only the worst gaps are dimensioned, CSS pixels.
const NARROW: f64 = 600.0;

/// All the room the tires take through travel, with the gap asked for round it.
type Room = Sides<EnvelopeSection>;

/// Rays of a swung section's room that are felt out in one piece of work.
const RAYS: u32 = 4;

/// The picture.
#[component]
pub fn Picture(bench: Bench) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    let room = room(bench);
    let scene = Memo::new(move |_| draw(bench, room, width.get()));
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let title = move || {
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(String::new(), |scene| scene.title.clone())
        })
    };
    let description = move || {
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(String::new(), |scene| scene.description.clone())
        })
    };
    let view_box = move || {
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(String::new(), |scene| scene.view.view_box())
        })
    };
    let shape = move || {
        scene.with(|scene| {
            scene.as_ref().map_or(String::new(), |scene| {
                format!("{} / {}", scene.view.width, scene.view.height)
            })
        })
    };
    let lit = move || {
        bench.picked.get().map_or(String::new(), |(side, surface)| {
            scene.with(|scene| {
                scene
                    .as_ref()
                    .map_or(String::new(), |scene| scene.outlines_of(side, surface))
            })
        })
    };
    // In full bump the diameter's handle would lie on the seam's; the diameter keeps its slider.
    let is_apart = |handle: &&Handle| handle.lever != Lever::OverallDiameter;
    let handles = Memo::new(move |_| {
        scene.with(|scene| {
            let handles = scene.iter().flat_map(|scene| &scene.handles);
            handles.filter(is_apart).copied().collect::<Vec<_>>()
        })
    });
    let holds = holds(bench, scene, handles, width);
    let hold_of = move |handle: Handle| {
        Memo::new(move |_| {
            let place =
                handles.with(|handles| handles.iter().position(|one| is_same(one, &handle)))?;
            holds.with(|holds| holds.get(place).copied())
        })
    };
    let hold_of_axle = Memo::new(move |_| holds.with(|holds| holds.last().copied()));
    view! {
        <div class="picture">
            <div class="sheet" style=("aspect-ratio", shape)>
                <svg
                    node_ref=sheet
                    class="scene"
                    role="img"
                    aria-label=title
                    aria-describedby="rear-description"
                    viewBox=view_box
                >
                    <For each=move || ids.get() key=Clone::clone let:id>
                        <SceneGroup id=id scene=scene />
                    </For>
                    <g class="lit" inner_html=lit></g>
                </svg>
                <div class="handles" role="group" aria-label="Drag in the picture">
                    <For each=move || handles.get() key=|handle| (handle.lever, handle.side) let:handle>
                        <DragHandle bench=bench handle=follow(handles, handle) hold=hold_of(handle) sheet=sheet />
                    </For>
                    <HeaveHandle bench=bench hold=hold_of_axle sheet=sheet />
                </div>
            </div>
            <p class="heard" id="rear-description">{description}</p>
        </div>
    }
}

/// Whether two drawings' handles are one.
fn is_same(one: &Handle, other: &Handle) -> bool {
    (one.lever, one.side) == (other.lever, other.side)
}

/// Where the handles are taken hold of, in their order and last of all the axle's, none over another.
fn holds(
    bench: Bench,
    scene: Memo<Option<Arc<Scene>>>,
    handles: Memo<Vec<Handle>>,
    width: ReadSignal<f64>,
) -> Memo<Vec<Hold>> {
    Memo::new(move |_| {
        let Some(view) = scene.with(|scene| scene.as_ref().map(|scene| scene.view)) else {
            return Vec::new();
        };
        let scale = width.get() / view.width;
        let pixels = |at: Vec2| (at - vec2(view.x, view.y)) * scale;
        let mut points: Vec<_> = handles.with(|handles| {
            let point = |handle: &Handle| (pixels(handle.at), lean(handle.lever));
            handles.iter().map(point).collect()
        });
        points.push((pixels(heave_point(bench)), Lean::Even));
        apart(&points, vec2(view.width, view.height) * scale)
    })
}

/// The handle of the same lever and side in the newest drawing.
fn follow(handles: Memo<Vec<Handle>>, first: Handle) -> Memo<Handle> {
    Memo::new(move |last: Option<&Handle>| {
        handles.with(|handles| {
            let same = handles.iter().find(|handle| is_same(handle, &first));
            same.or(last).copied().unwrap_or(first)
        })
    })
}

/// All the room: at once straight up; in a swung section, which takes longer, once the section stands still.
fn room(bench: Bench) -> Memo<Option<Arc<Room>>> {
    let upright = Memo::new(move |_| {
        let model = bench.model.get()?;
        (bench.angle.get() == 0.0).then(|| {
            let target = model.car.targets.travel;
            Arc::new(Sides::each(|side| {
                model.envelope_section(side, target, 0.0)
            }))
        })
    });
    let swung = Memo::new(move |_| {
        let angle = bench.angle.get();
        Some((Same(bench.model.get()?), angle)).filter(|_| angle != 0.0)
    });
    let felt = later(swung, Signal::stored(true), |(model, angle)| {
        let target = model.0.car.targets.travel;
        let mut work = model.0.begin_envelopes(target, *angle);
        Box::new(move || work.step(RAYS))
    });
    Memo::new(move |_| upright.get().or_else(|| felt.get()))
}

fn draw(bench: Bench, room: Memo<Option<Arc<Room>>>, width: f64) -> Option<Arc<Scene>> {
    let (model, check) = (bench.model.get()?, bench.check.get()?);
    let pose = bench.pose.get();
    let settings = bench.settings.get();
    let held = (pose != Pose::RIDE).then(|| at_pose(&model, pose, ACCURACY));
    let room = room.get();
    let options = RearOptions {
        pose,
        angle: bench.angle.get(),
        shown: settings.shown,
        width,
        notation: settings.notation,
        gaps: if width < NARROW { 2 } else { 3 },
        envelope: room.as_deref(),
        at_pose: held.as_ref(),
        ..RearOptions::default()
    };
    Some(Arc::new(rear_view(&model, &check, &options)))
}

/// The ids of a drawing's groups, which only its kind decides.
pub fn group_ids(scene: Option<&Arc<Scene>>) -> Vec<String> {
    scene.iter().flat_map(|scene| scene.ids()).collect()
}

/// One group of a drawing. Its inside is replaced only when it changed, so nothing flickers.
#[component]
pub fn SceneGroup(id: String, scene: Memo<Option<Arc<Scene>>>) -> impl IntoView {
    let wanted = id.clone();
    let markup = Memo::new(move |_| {
        scene.with(|scene| {
            scene
                .as_ref()
                .map_or(String::new(), |scene| scene.inside(&wanted))
        })
    });
    view! { <g id=id inner_html=move || markup.get()></g> }
}

/// Which side is shown: one as large as the width allows, or both.
#[component]
pub fn ShownMenu(bench: Bench) -> impl IntoView {
    view! {
        <RadioMenu
            legend="Side of the car to see"
            name="shown"
            choices=&SHOWN
            now=Signal::derive(move || bench.settings.with(|settings| settings.shown))
            choose=move |shown| bench.settings.update(|settings| settings.shown = shown)
        />
    }
}
