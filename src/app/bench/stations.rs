//! The wheelhouse stations of both sides: what the tape readings stand for, or a table of the side's own.

use std::sync::Arc;

use geometry::side::Side;
use leptos::html;
use leptos::prelude::*;

use super::station_events::{SideTable, listen};
use super::station_places::{by_id, show};
use super::store::Bench;
use crate::state::stations::{self, Sheet, THIN_CHOICES};
use crate::state::words;

/// Both sides' stations.
#[component]
pub fn StationPanel(bench: Bench) -> impl IntoView {
    let state = move || bench.work.with(stations::state_words);
    view! {
        <details class="panel">
            <summary>
                "Wheelhouse stations "
                <span class="count">{state}</span>
            </summary>
            <p class="lead">
                "The sheet metal at several angles round the wheel, as points from the quarter lip inward: how far out from the car's center plane, and at what radius from the axle's line. A side's own table beats its tape readings; the frame rail stays as the tape reads it."
            </p>
            {Side::BOTH.map(|side| view! { <SideStations bench=bench side=side /> })}
        </details>
    }
}

/// One side's stations, filled in only while they are looked at.
#[component]
fn SideStations(bench: Bench, side: Side) -> impl IntoView {
    let (open, stray) = (RwSignal::new(false), RwSignal::new(THIN_CHOICES[0].2));
    let shown = Memo::new(move |_| {
        let own = bench.work.with(|work| stations::present(work, side));
        let tape = || {
            let full = bench.work.with(|work| stations::of_tape(work, side))?;
            Some(Arc::new(Sheet::of(&stations::thinned(&full, stray.get()))))
        };
        let editable = own.is_some();
        Some((own.or_else(tape)?, editable))
    });
    let table = SideTable {
        bench,
        side,
        shown,
        stray,
        at: StoredValue::default(),
    };
    Effect::new(move |laid: Option<String>| {
        if open.get() {
            fill(&table, laid.as_ref())
        } else {
            String::new()
        }
    });
    let block: NodeRef<html::Div> = NodeRef::new();
    block.on_load(move |block| listen(&block, &table));
    view! {
        <details class="data side-stations" on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary id=format!("stations-{}", side.word())>{words::side_title(side)}</summary>
            <div node_ref=block inner_html=stations::block(side.word())></div>
        </details>
    }
}

/// Fills in the block; lays the table out anew where its size has changed. Gives how it is laid out.
fn fill(table: &SideTable, laid: Option<&String>) -> String {
    let side = table.side.word();
    let Some((sheet, editable)) = table.shown.get() else {
        table.say("These tape readings leave no room for a wheelhouse.");
        return String::new();
    };
    let layout = stations::table(side, &sheet, editable);
    if laid != Some(&layout)
        && let Some(table) = by_id(&format!("sheet-{side}"))
    {
        table.set_inner_html(&layout);
    }
    let own = table
        .bench
        .work
        .with(|work| work.car.sides.get(table.side).stations.is_some());
    show(
        &stations::places(side, &sheet, editable, own, table.bench.notation.get()),
        side,
    );
    table.name_place(&sheet);
    layout
}
