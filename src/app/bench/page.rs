//! The page of the Bench: everything in its place.

use leptos::prelude::*;

use super::answers::Answers;
use super::asked_tire::AskedTire;
use super::chart::Chart;
use super::feed::Feed;
use super::gap_list::GapList;
use super::levers::Levers;
use super::nearby::NearbyPanel;
use super::numbers::NumbersPanel;
use super::picture::{Picture, ShownMenu};
use super::room::RoomView;
use super::round::RoundTheWheel;
use super::scrubber::Scrubber;
use super::stations::StationPanel;
use super::store::Bench;
use super::tape::TapePanel;
use super::verdict::VerdictLine;
use super::warnings::WarningList;
use crate::site::TITLE;

/// What the Bench shows, between what is told and the foot of the page.
#[component]
pub fn BenchPage(bench: Bench) -> impl IntoView {
    let name = move || bench.work.with(|work| work.car.name.clone());
    view! {
        <h1 class="heard" id=TITLE tabindex="-1">{move || format!("Bench: {}", name())}</h1>
        <div class="at-work">
            <div class="view">
                <div class="view-head">
                    <VerdictLine bench=bench />
                    <ShownMenu bench=bench />
                    <AskedTire bench=bench />
                    <WarningList bench=bench />
                </div>
                <Picture bench=bench />
            </div>
            <Scrubber bench=bench />
            <Levers bench=bench />
            <div class="findings">
                <RoundTheWheel bench=bench />
                <GapList bench=bench />
                <Answers bench=bench />
                <Chart bench=bench />
                <Feed bench=bench />
                <RoomView bench=bench />
            </div>
        </div>
        <div class="findings entries">
            <TapePanel bench=bench />
            <StationPanel bench=bench />
            <NearbyPanel bench=bench />
            <NumbersPanel bench=bench />
        </div>
    }
}
