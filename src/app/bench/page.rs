//! The page of the Bench: everything in its place.

use leptos::prelude::*;

use super::banner::{FaultBanner, Notice};
use super::chart::Chart;
use super::feed::Feed;
use super::gap_list::GapList;
use super::header::Header;
use super::levers::Levers;
use super::menu::listen_for_drops;
use super::numbers::NumbersPanel;
use super::picture::{Picture, ShownMenu};
use super::refused::RefusedFile;
use super::round::RoundTheWheel;
use super::scrubber::Scrubber;
use super::stations::StationPanel;
use super::store::Bench;
use super::tape::TapePanel;
use super::verdict::VerdictLine;
use super::{keeping, keys};
use crate::state::desk::Desk;
use crate::state::settings::{THEMES, stored};
use crate::state::words;

/// The page for a desk.
#[component]
pub fn Page(desk: Option<Desk>) -> impl IntoView {
    match desk {
        Some(desk) => view! { <Whole bench=Bench::new(desk) /> }.into_any(),
        None => view! { <main class="stopped"><h1>"Lip to Rail"</h1><p>"The page was put together without its cars."</p></main> }.into_any(),
    }
}

#[component]
fn Whole(bench: Bench) -> impl IntoView {
    keeping::keep(bench);
    keys::listen(bench);
    listen_for_drops(bench);
    name_the_page(bench);
    view! {
        <Header bench=bench />
        <main class="bench">
            <div class="told">
                <FaultBanner bench=bench />
                <Notice bench=bench />
            </div>
            <div class="view">
                <div class="view-head">
                    <VerdictLine bench=bench />
                    <ShownMenu bench=bench />
                </div>
                <Picture bench=bench />
            </div>
            <Scrubber bench=bench />
            <Levers bench=bench />
            <div class="findings">
                <RoundTheWheel bench=bench />
                <GapList bench=bench />
                <Chart bench=bench />
                <Feed bench=bench />
                <TapePanel bench=bench />
                <StationPanel bench=bench />
                <NumbersPanel bench=bench />
            </div>
        </main>
        <footer class="foot">
            <p>"Lip to Rail computes in this browser and sends nothing anywhere. It is geometry, not approval."</p>
        </footer>
        <RefusedFile bench=bench />
    }
}

/// The title says what a tab holds; the paper follows the reader's choice.
fn name_the_page(bench: Bench) {
    Effect::new(move |_| {
        let name = bench.work.with(|work| work.car.name.clone());
        let verdict = bench.check.with(|check| {
            check
                .as_ref()
                .map_or("", |check| words::brief(check.verdict()))
        });
        document().set_title(&format!("{verdict} · {name} · Lip to Rail"));
    });
    let theme = Memo::new(move |_| bench.settings.get().theme);
    Effect::new(move |_| {
        if let Some(root) = document().document_element() {
            // An attribute of this name is always accepted.
            let _ = root.set_attribute("data-theme", stored(&THEMES, theme.get()));
        }
    });
}
