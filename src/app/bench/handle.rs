//! A handle on the picture: dragged by the pointer, moved by the arrow keys, the twin of a slider.

use std::sync::Arc;

use drawing::{Handle, Scene};
use geometry::car::Lever;
use geometry::field::Quantity;
use geometry::math;
use geometry::space::{Vec2, vec2};
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use leptos::svg;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, SvgGraphicsElement};

use super::dial;
use super::store::Bench;
use crate::state::apart::{Hold, Lean};
use crate::state::dial::{Dial, Scale};
use crate::state::drag::Drag;
use crate::state::figures;
use crate::state::scrub::Scrub;

/// The handle of a lever.
#[component]
pub fn DragHandle(
    bench: Bench,
    handle: Memo<Handle>,
    /// Where it is taken hold of.
    hold: Memo<Option<Hold>>,
    sheet: NodeRef<svg::Svg>,
) -> impl IntoView {
    let first = handle.get_untracked();
    let dial = move || match handle.get_untracked().lever {
        Lever::SeamMove if untrack(|| bench.seams_apart()) => Dial::Seam(first.side),
        lever => Dial::Lever(lever),
    };
    let bound = Dial::Lever(first.lever).bound();
    let grip = Grip {
        label: format!("{}, {} side", bound.label, first.side.word()),
        class: "across",
        axis: Signal::derive(move || (handle.get().axis, handle.get().rate)),
        value: Signal::derive(move || bench.work.with(|work| dial().get(&work.car))),
        scale: Signal::derive(move || dial::scale(bench, dial())),
        spoken: Signal::derive(move || {
            let value = bench.work.with(|work| dial().get(&work.car));
            figures::spoken(value, bound.quantity, bench.notation.get())
        }),
        preview: Callback::new(move |value| bench.preview(|car| dial().set(car, value))),
        commit: Callback::new(move |value| bench.commit(bound.label, |car| dial().set(car, value))),
    };
    view! { <GripView grip=grip hold=hold sheet=sheet /> }
}

/// The handle on the axle's middle, which holds it at a height.
#[component]
pub fn HeaveHandle(
    bench: Bench,
    /// Where it is taken hold of.
    hold: Memo<Option<Hold>>,
    sheet: NodeRef<svg::Svg>,
) -> impl IntoView {
    let heave = Signal::derive(move || bench.scrub.get().heave);
    let put = move |heave| {
        bench.hold(Scrub {
            heave,
            ..bench.scrub.get_untracked()
        });
    };
    let grip = Grip {
        label: "Both wheels up or down".to_owned(),
        class: "upright",
        axis: Signal::derive(move || (vec2(0.0, -1.0), 1.0 / upright(bench))),
        value: heave,
        scale: Signal::derive(move || {
            let ends = bench.model.with(|model| {
                model.as_ref().map_or((0.0, 0.0), |model| {
                    (-model.car.travel.droop, model.car.travel.bump)
                })
            });
            Scale::between(ends.0, ends.1, bench.notation.get())
        }),
        spoken: Signal::derive(move || {
            figures::spoken(heave.get(), Quantity::Length, bench.notation.get())
        }),
        preview: Callback::new(put),
        commit: Callback::new(put),
    };
    view! { <GripView grip=grip hold=hold sheet=sheet /> }
}

/// Where on the sheet the axle's middle is. A swung section shows less of its rise.
pub fn heave_point(bench: Bench) -> Vec2 {
    vec2(0.0, -bench.scrub.get().heave * upright(bench))
}

/// How much of an upright way the section shows, as a share; near level the handle would run away.
fn upright(bench: Bench) -> f64 {
    math::cos(bench.angle.get()).max(0.25)
}

/// What every handle has.
struct Grip {
    label: String,
    class: &'static str,
    axis: Signal<(Vec2, f64)>,
    value: Signal<f64>,
    scale: Signal<Scale>,
    spoken: Signal<String>,
    preview: Callback<f64>,
    commit: Callback<f64>,
}

/// Which way a lever's place to take hold of reaches: the seam's up and the tire's down, away from each other.
pub fn lean(lever: Lever) -> Lean {
    match lever {
        Lever::SeamMove => Lean::Up,
        Lever::Backspacing => Lean::Down,
        _ => Lean::Even,
    }
}

#[component]
fn GripView(grip: Grip, hold: Memo<Option<Hold>>, sheet: NodeRef<svg::Svg>) -> impl IntoView {
    let Grip {
        label,
        class,
        axis,
        value,
        scale,
        spoken,
        preview,
        commit,
    } = grip;
    let held = RwSignal::new(None::<Drag>);
    let take_hold = move |press: PointerEvent| {
        if press.button() != 0 || !press.is_primary() {
            return;
        }
        let Some(grabbed) = on_sheet(sheet, &press) else {
            return;
        };
        let (axis, rate) = axis.get_untracked();
        let (from, scale) = (value.get_untracked(), scale.get_untracked());
        held.set(Some(Drag {
            from,
            grabbed,
            axis,
            rate,
            scale,
        }));
        if let Some(handle) = press
            .current_target()
            .and_then(|target| target.dyn_into::<Element>().ok())
        {
            // Without the capture the drag ends at the handle's edge, no worse.
            let _ = handle.set_pointer_capture(press.pointer_id());
        }
    };
    let drag = move |motion: PointerEvent| {
        if let (Some(drag), Some(pointer)) = (held.get_untracked(), on_sheet(sheet, &motion)) {
            preview.run(drag.value(pointer));
        }
    };
    let let_go = move |end: PointerEvent| {
        if let (Some(drag), Some(pointer)) = (held.get_untracked(), on_sheet(sheet, &end)) {
            held.set(None);
            commit.run(drag.value(pointer));
        }
    };
    // The browser took the finger for a scroll.
    let give_up = move |_: PointerEvent| {
        if let Some(drag) = held.get_untracked() {
            held.set(None);
            commit.run(drag.from);
        }
    };
    let on_key = move |key: KeyboardEvent| {
        if let Some(value) = keyed(
            &key.key(),
            scale.get_untracked(),
            value.get_untracked(),
            axis.get_untracked().0,
        ) {
            key.prevent_default();
            commit.run(value);
        }
    };
    let pixels = move |of: fn(&Hold) -> f64| {
        move || {
            hold.with(|hold| {
                hold.as_ref()
                    .map_or(String::new(), |hold| format!("{:.1}px", of(hold)))
            })
        }
    };
    let leads = move || hold.with(|hold| hold.as_ref().is_some_and(|hold| !hold.is_at_point()));
    let end = move |of: fn(&Hold) -> f64| {
        move || hold.with(|hold| hold.as_ref().map(|hold| format!("{:.1}", of(hold))))
    };
    view! {
        <div
            class=format!("handle {class}")
            class:is-held=move || held.with(Option::is_some)
            role="slider"
            tabindex="0"
            aria-label=label.clone()
            title=label
            aria-orientation=if class == "upright" { "vertical" } else { "horizontal" }
            aria-valuemin=move || scale.get().least.to_string()
            aria-valuemax=move || scale.get().most.to_string()
            aria-valuenow=move || scale.get().position(value.get()).to_string()
            aria-valuetext=move || spoken.get()
            style:left=pixels(|hold| hold.middle.x)
            style:top=pixels(|hold| hold.middle.y)
            style=("--sign-x", pixels(|hold| hold.sign.x))
            style=("--sign-y", pixels(|hold| hold.sign.y))
            on:pointerdown=take_hold
            on:pointermove=drag
            on:pointerup=let_go
            on:pointercancel=give_up
            on:lostpointercapture=let_go
            on:keydown=on_key
        >
            <Show when=leads>
                <svg class="leader" aria-hidden="true">
                    <line x1=end(|hold| hold.sign.x) y1=end(|hold| hold.sign.y) x2=end(|hold| hold.point.x) y2=end(|hold| hold.point.y) />
                    <circle cx=end(|hold| hold.point.x) cy=end(|hold| hold.point.y) r="2.5" />
                </svg>
            </Show>
            <i aria-hidden="true"></i>
        </div>
    }
}

/// The value that a key asks for. Arrows move the handle the way they point.
fn keyed(key: &str, scale: Scale, value: f64, axis: Vec2) -> Option<f64> {
    let marks = match key {
        "ArrowRight" => axis.x.signum() * f64::from(u8::from(axis.x != 0.0)),
        "ArrowLeft" => -axis.x.signum() * f64::from(u8::from(axis.x != 0.0)),
        "ArrowUp" => 1.0,
        "ArrowDown" => -1.0,
        "PageUp" => 10.0,
        "PageDown" => -10.0,
        "Home" => scale.least - scale.position(value),
        "End" => scale.most - scale.position(value),
        _ => return None,
    };
    Some(scale.value((scale.position(value) + marks).clamp(scale.least, scale.most)))
}

/// Where the pointer is, in the sheet's millimeters.
pub fn on_sheet(sheet: NodeRef<svg::Svg>, pointer: &PointerEvent) -> Option<Vec2> {
    let sheet: SvgGraphicsElement = sheet.get_untracked()?.dyn_into().ok()?;
    let to_sheet = sheet.get_screen_ctm()?.inverse().ok()?;
    let (x, y) = (f64::from(pointer.client_x()), f64::from(pointer.client_y()));
    let [a, b, c, d, e, f] = [
        to_sheet.a(),
        to_sheet.b(),
        to_sheet.c(),
        to_sheet.d(),
        to_sheet.e(),
        to_sheet.f(),
    ]
    .map(f64::from);
    Some(vec2(a * x + c * y + e, b * x + d * y + f))
}

/// Where a point of the sheet is on the picture, in percent from its upper left corner.
pub fn share(scene: Memo<Option<Arc<Scene>>>, at: Vec2) -> (String, String) {
    scene.with(|scene| {
        let Some(view) = scene.as_ref().map(|scene| scene.view) else {
            return (String::new(), String::new());
        };
        let x = 100.0 * (at.x - view.x) / view.width;
        let y = 100.0 * (at.y - view.y) / view.height;
        (format!("{x:.2}%"), format!("{y:.2}%"))
    })
}
