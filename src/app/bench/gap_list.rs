//! The gap list: every surface's gaps, what they are called, and which one stops the tire.

use geometry::body::SurfaceId;
use geometry::check::{ACCURACY, SurfaceCheck, Verdict, at_pose};
use geometry::gap::{Gap, Witness};
use geometry::side::{Side, Sides};
use geometry::travel::Pose;
use geometry::units::{Notation, format_length};
use leptos::html;
use leptos::prelude::*;

use super::bands::{AgainRow, BandTable, Doubts};
use super::store::Bench;
use crate::state::doubts::Off;
use crate::state::words;

/// The gaps in the pose that is held.
type Held = Sides<Vec<(SurfaceId, Gap)>>;

/// A row of the list, in words: what reads it wakes only where a word is another.
#[derive(Debug, Clone, PartialEq)]
struct Row {
    id: SurfaceId,
    verdict: Verdict,
    name: String,
    meaning: &'static str,
    ride: String,
    ride_target: String,
    travel: String,
    travel_target: String,
    here: String,
    stops: bool,
}

/// Both sides' lists.
#[component]
pub fn GapList(bench: Bench) -> impl IntoView {
    let here = Memo::new(move |_| {
        let (model, pose) = (bench.model.get()?, bench.pose.get());
        // At rest the list has them already.
        (pose != Pose::RIDE).then(|| at_pose(&model, pose, ACCURACY))
    });
    let list: NodeRef<html::Section> = NodeRef::new();
    let doubts = Doubts::new(bench, list);
    view! {
        <section node_ref=list class="gaps" class:is-awaited=doubts.awaited aria-labelledby="gaps-title">
            <h2 id="gaps-title">"Gap list"</h2>
            <p class="lead">"Pick a surface to see, in the picture, where it comes nearest."</p>
            <div class="sides">
                {Side::BOTH.map(|side| view! { <SideList bench=bench side=side here=here doubts=doubts /> })}
            </div>
            <Legend />
            <BandTable doubts=doubts />
        </section>
    }
}

/// One side's list.
#[component]
fn SideList(bench: Bench, side: Side, here: Memo<Option<Held>>, doubts: Doubts) -> impl IntoView {
    let rows = Memo::new(move |_| {
        let poses = here.get();
        bench.check.with(|check| {
            let list = check.as_ref().map(|check| check.sides.get(side));
            let stops = list.and_then(|list| list.worst()).map(|worst| worst.id);
            let surfaces = list.map_or(&[][..], |list| &list.surfaces);
            surfaces
                .iter()
                .map(|surface| {
                    let here = match &poses {
                        Some(poses) => {
                            let mut gaps = poses.get(side).iter();
                            gaps.find(|(id, _)| *id == surface.id)
                                .map(|(_, gap)| gap.low)
                        }
                        None => Some(surface.ride.low),
                    };
                    row(
                        surface,
                        here,
                        stops == Some(surface.id),
                        bench.notation.get(),
                    )
                })
                .collect::<Vec<_>>()
        })
    });
    let at_rest = Memo::new(move |_| bench.pose.get() == Pose::RIDE);
    view! {
        <div class="wide" tabindex="0" role="region" aria-label=format!("Gaps, {} side", side.word())>
            <table class=move || if at_rest.get() { "at-rest" } else { "is-held" }>
                <caption>{words::side_title(side)}</caption>
                <thead>
                    <tr>
                        <th scope="col">"Surface"</th>
                        <th scope="col" class="ride">"At ride height"</th>
                        <th scope="col">"Least, through travel"</th>
                        <th scope="col" class="here">"As held now"</th>
                        <th scope="col">"Verdict"</th>
                    </tr>
                </thead>
                <tbody>
                    <For each=move || rows.get() key=|row| (row.id, row.name.clone()) let:row>
                        <SurfaceRow bench=bench side=side row=follow(rows, row) doubts=doubts />
                    </For>
                </tbody>
            </table>
        </div>
    }
}

/// The newest state of a row.
fn follow(rows: Memo<Vec<Row>>, first: Row) -> Memo<Row> {
    Memo::new(move |last: Option<&Row>| {
        rows.with(|rows| rows.iter().find(|row| row.id == first.id).cloned())
            .or_else(|| last.cloned())
            .unwrap_or_else(|| first.clone())
    })
}

#[component]
fn SurfaceRow(bench: Bench, side: Side, row: Memo<Row>, doubts: Doubts) -> impl IntoView {
    let doubt = Memo::new(move |_| {
        let (id, list) = (row.with(|row| row.id), doubts.list.get()?);
        list.get(side).iter().find(|doubt| doubt.id == id).cloned()
    });
    let again = Memo::new(move |_| doubt.get()?.again);
    let is_picked = move || bench.picked.get() == Some((side, row.with(|row| row.id)));
    let label = move || row.with(|row| format!("{}, {}", row.name, side.word()));
    let verdict = move || row.with(|row| row.verdict.word());
    let show = move |_| {
        let id = row.with_untracked(|row| row.id);
        if let Some(witness) = witness(bench, side, id) {
            bench.show_witness(side, id, &witness);
        }
    };
    view! {
        <tr class=verdict class:stops=move || row.with(|row| row.stops) class:is-picked=is_picked>
            <th scope="row">
                <button
                    type="button"
                    class="surface"
                    title=move || row.with(|row| row.meaning)
                    aria-label=label
                    aria-pressed=move || is_picked().to_string()
                    on:click=show
                >
                    {move || row.with(|row| row.name.clone())}
                </button>
                <Show when=move || row.with(|row| row.stops && row.verdict != Verdict::Clears)>
                    <em>"what stops the tire"</em>
                </Show>
            </th>
            <td class="ride">
                {move || row.with(|row| row.ride.clone())}
                <BandMark off=Signal::derive(move || Some(doubt.get()?.ride)) />
                <small>{move || row.with(|row| row.ride_target.clone())}</small>
            </td>
            <td>
                {move || row.with(|row| row.travel.clone())}
                <BandMark off=Signal::derive(move || Some(doubt.get()?.travel)) />
                <small>{move || row.with(|row| row.travel_target.clone())}</small>
            </td>
            <td class="here">{move || row.with(|row| row.here.clone())}</td>
            <td class="word"><i class="swatch" aria-hidden="true"></i>{verdict}</td>
        </tr>
        <AgainRow again=again />
    }
}

/// How far the gap before it may be off.
#[component]
fn BandMark(off: Signal<Option<Off>>) -> impl IntoView {
    view! {
        <span class="band" title=move || off.get().map(|off| off.worst)>{move || off.get().map(|off| off.likely)}</span>
    }
}

fn row(surface: &SurfaceCheck, here: Option<f64>, stops: bool, notation: Notation) -> Row {
    let length = |gap: f64| format_length(gap, notation);
    let target = |gap: f64| format!("target {}", length(gap));
    Row {
        id: surface.id,
        verdict: surface.verdict,
        name: surface.name.clone(),
        meaning: surface.id.surface.meaning(),
        ride: length(surface.ride.low),
        ride_target: target(surface.ride_target),
        travel: length(surface.travel.low),
        travel_target: target(surface.travel_target),
        here: here.map_or(String::new(), length),
        stops,
    }
}

/// Where a surface comes nearest through travel.
fn witness(bench: Bench, side: Side, id: SurfaceId) -> Option<Witness> {
    bench.check.with_untracked(|check| {
        let mut surfaces = check.as_ref()?.sides.get(side).surfaces.iter();
        Some(surfaces.find(|surface| surface.id == id)?.travel.witness)
    })
}

/// What the three words mean.
#[component]
fn Legend() -> impl IntoView {
    view! {
        <p class="legend">
            <span class="hits"><i class="swatch" aria-hidden="true"></i>"hits: tire and metal overlap (a gap below zero)"</span>
            <span class="tight"><i class="swatch" aria-hidden="true"></i>"tight: less than asked for"</span>
            <span class="clears"><i class="swatch" aria-hidden="true"></i>"clears: all that was asked for"</span>
        </p>
    }
}
