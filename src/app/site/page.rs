//! The whole site: what is round every page, and the page that the address asks for.

use drawing::sheets::Kind;
use leptos::prelude::*;

use super::embedded::{self, Embedded};
use super::header::Header;
use super::linking::follow_car;
use super::menu::listen_for_drops;
use super::navigation::{begin_at_heading, follow};
use super::newer::NewerVersion;
use super::refused::RefusedFile;
use super::{keeping, keys};
use crate::bench::banner::{FaultBanner, Notice};
use crate::bench::page::BenchPage;
use crate::bench::store::Bench;
use crate::browser::swipe::put_sliders_back;
use crate::sheets::SheetsPage;
use crate::state::address::Place;
use crate::state::kept::Trouble;
use crate::state::settings::{THEMES, Theme, stored};
use crate::state::words;
use crate::taking::TakeAwayPage;
use crate::walk_round::WalkRound;
use crate::write_up::WriteUp;

/// The site, or the one figure of it that the address asks for.
#[component]
pub fn Page() -> impl IntoView {
    put_sliders_back();
    if let Some((alone, address)) = embedded::asked() {
        return view! { <Embedded alone=alone address=address /> }.into_any();
    }
    match keeping::bring_back() {
        Some(brought) => view! { <Whole bench=Bench::new(brought.desk) trouble=brought.trouble /> }.into_any(),
        None => view! { <main class="stopped"><h1>"Lip to Rail"</h1><p>"The page was put together without its cars."</p></main> }.into_any(),
    }
}

#[component]
fn Whole(bench: Bench, trouble: Option<(Trouble, bool)>) -> impl IntoView {
    let keeper = keeping::keep(bench, trouble);
    keys::listen(bench);
    listen_for_drops(bench);
    let address = follow(bench);
    follow_car(bench, address);
    let place = Memo::new(move |_| address.with(|address| address.place));
    begin_at_heading(place);
    name_the_page(bench, place);
    let page = Memo::new(move |_| place.get().word());
    let kind = Memo::new(move |last: Option<&Kind>| match place.get() {
        Place::Sheets(kind) => kind,
        Place::Bench | Place::TakeAway | Place::WalkRound | Place::WriteUp => {
            last.copied().unwrap_or(Kind::Tape)
        }
    });
    // A page that is not looked at is not there: it costs nothing.
    let open = move || {
        page.track();
        match place.get_untracked() {
            Place::Bench => view! { <BenchPage bench=bench /> }.into_any(),
            Place::TakeAway => view! { <TakeAwayPage bench=bench address=address /> }.into_any(),
            Place::WalkRound => view! { <WalkRound bench=bench /> }.into_any(),
            Place::WriteUp => view! { <WriteUp bench=bench address=address /> }.into_any(),
            Place::Sheets(_) => {
                view! { <SheetsPage bench=bench address=address kind=kind /> }.into_any()
            }
        }
    };
    view! {
        <Header bench=bench address=address />
        <main class=page>
            <div class="told">
                <FaultBanner bench=bench on_bench=Signal::derive(move || place.get() == Place::Bench) />
                <Notice bench=bench />
                <NewerVersion bench=bench keep_now=move |()| keeper.keep_now() />
            </div>
            {open}
        </main>
        <footer class="foot">
            <p>"Lip to Rail computes in this browser and sends nothing anywhere. It is geometry, not approval."</p>
            <p>{format!("Version {}. Free to use, to link to and to host, under MIT or Apache-2.0.", env!("CARGO_PKG_VERSION"))}</p>
        </footer>
        <RefusedFile bench=bench />
    }
}

/// The title says what a tab holds; the paper follows the reader's choice.
fn name_the_page(bench: Bench, place: Memo<Place>) {
    Effect::new(move |_| {
        let name = bench.work.with(|work| work.car.name.clone());
        let head = match place.get() {
            Place::Bench => bench.check.with(|check| {
                check
                    .as_ref()
                    .map_or("", |check| words::brief(check.verdict()))
            }),
            Place::Sheets(kind) => kind.title(),
            Place::TakeAway => "Take away",
            Place::WalkRound => "Walk-round",
            Place::WriteUp => {
                document().set_title("More tire than the car was built for · Lip to Rail");
                return;
            }
        };
        document().set_title(&format!("{head} · {name} · Lip to Rail"));
    });
    let theme = Memo::new(move |_| bench.settings.get().theme);
    Effect::new(move |_| wear(theme.get()));
}

/// Puts the page on light or dark paper.
pub(super) fn wear(theme: Theme) {
    if let Some(root) = document().document_element() {
        // An attribute of this name is always accepted.
        let _ = root.set_attribute("data-theme", stored(&THEMES, theme));
    }
}
