//! The levers: what a builder tries, beside the picture.

use geometry::car::{Car, Lever};
use geometry::side::Side;
use leptos::prelude::*;

use super::dial::DialRow;
use super::listen::{press, tick};
use super::outcome::Outcome;
use super::store::Bench;
use super::tire_size::TireSize;
use crate::state::dial::Dial;
use crate::state::figures;

/// All levers, in the order in which they are tried: wheel and axle before metal.
#[component]
pub fn Levers(bench: Bench) -> impl IntoView {
    let lever = move |lever| view! { <DialRow bench=bench dial=Dial::Lever(lever) /> };
    view! {
        <section class="levers" aria-label="Levers">
            <Group title="Wheel and axle">
                {lever(Lever::Backspacing)}
                {lever(Lever::TrackWidth)}
                {lever(Lever::RimWidth)}
                <Outcome bench=bench />
            </Group>
            <Group title="Seam">
                <SeamDials bench=bench />
                <p class="caution">
                    "Cutting a wheelhouse cuts structure: belt anchorages, shock and spring mounts, the quarter's "
                    "support. Fuel tank, lines and wiring are close to the weld; zinc gives off fume. This page is "
                    "geometry, not approval: ask your local rules and, where they want one, a licensed engineer."
                </p>
            </Group>
            <Group title="Tire">
                <TireSize bench=bench />
                <DialRow bench=bench dial=Dial::Lever(Lever::SectionWidth)>
                    <SizeInUse bench=bench what="section width" measured=|car| car.tire.section_width.is_some() forget=|car| car.tire.section_width = None />
                </DialRow>
                <DialRow bench=bench dial=Dial::Lever(Lever::OverallDiameter)>
                    <SizeInUse bench=bench what="diameter" measured=|car| car.tire.overall_diameter.is_some() forget=|car| car.tire.overall_diameter = None />
                </DialRow>
            </Group>
            <Group title="Travel and stance">
                {lever(Lever::Bump)}
                {lever(Lever::Droop)}
                {lever(Lever::Roll)}
                {lever(Lever::RideHeight)}
                <p class="caution">"Measure and try on stands, never on a jack alone."</p>
            </Group>
        </section>
    }
}

/// Levers that belong together.
#[component]
fn Group(title: &'static str, children: Children) -> impl IntoView {
    view! {
        <fieldset class="group">
            <legend>{title}</legend>
            {children()}
        </fieldset>
    }
}

/// The seam's slider: one for both sides, or one a side.
#[component]
fn SeamDials(bench: Bench) -> impl IntoView {
    let apart = Memo::new(move |_| bench.seams_apart());
    let part = move |apart: bool| {
        bench.settings.update(|settings| settings.apart = apart);
        // Where they differ, they are still apart.
        if !apart && bench.seams_apart() {
            let together = |car: &mut Car| Lever::SeamMove.set(car, Lever::SeamMove.get(car));
            bench.commit("Seams moved together", together);
        }
    };
    view! {
        {move || if apart.get() {
            view! {
                <DialRow bench=bench dial=Dial::Seam(Side::Left) />
                <DialRow bench=bench dial=Dial::Seam(Side::Right) />
            }.into_any()
        } else {
            view! { <DialRow bench=bench dial=Dial::Lever(Lever::SeamMove) /> }.into_any()
        }}
        <label class="tick">
            <input
                type="checkbox"
                prop:checked=apart
                on:change=tick(part)
            />
            "Move left and right apart"
        </label>
    }
}

/// Whether the printed size is in use or a measured one, and the way back.
#[component]
fn SizeInUse(
    bench: Bench,
    what: &'static str,
    measured: fn(&Car) -> bool,
    forget: fn(&mut Car),
) -> impl IntoView {
    let is_measured = Memo::new(move |_| bench.work.with(|work| measured(&work.car)));
    let printed = Memo::new(move |_| {
        let (car, lever) = (
            bench.work.get().with(forget).car,
            if what == "diameter" {
                Lever::OverallDiameter
            } else {
                Lever::SectionWidth
            },
        );
        figures::shown(
            lever.get(&car),
            lever.bound().quantity,
            bench.notation.get(),
        )
    });
    view! {
        <p class="in-use">
            {move || if is_measured.get() {
                view! {
                    <span>"Your value is in use, not the printed size."</span>
                    <button type="button" class="quiet" on:click=press(move || bench.commit(&format!("Printed {what}"), forget))>
                        {move || format!("Back to the printed {}", printed.get())}
                    </button>
                }.into_any()
            } else {
                view! { <span>"The printed size is in use. Type what you measured, or slide."</span> }.into_any()
            }}
        </p>
    }
}
