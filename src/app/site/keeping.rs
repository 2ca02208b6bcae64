//! Keeping the work: brought back when the page opens, kept a moment after every change.

use std::time::Duration;

use drawing::Shown;
use geometry::check::{ACCURACY, check};
use geometry::model::Model;
use geometry::side::Side;
use leptos::ev;
use leptos::prelude::*;

use crate::bench::store::Bench;
use crate::browser::storage::{self, Slot};
use crate::browser::{crash, motion};
use crate::state::desk::{self, Desk};
use crate::state::history::History;
use crate::state::opening;
use crate::state::settings::Settings;
use crate::state::work::Work;

/// How long after the last change the work is kept.
const MOMENT: Duration = Duration::from_millis(300);

/// The desk as it was left, or a first one. `None` when not even an invented car opens.
pub fn bring_back() -> Option<Desk> {
    left().or_else(first)
}

/// The desk as it was left. One that stopped the page the last time is put out of the way, not tried again.
fn left() -> Option<Desk> {
    let text = storage::read(Slot::Desk)?;
    if storage::read(Slot::Opening).is_some() {
        storage::write(Slot::Stopped, &text);
        storage::forget(Slot::Opening);
        storage::forget(Slot::Desk);
        return None;
    }
    storage::write(Slot::Opening, "1");
    desk::read(&text)
}

/// What a first visit finds: an invented car; where both sides would be small, the worse one.
fn first() -> Option<Desk> {
    let work = opening::invented(0)?;
    let mut settings = Settings::default();
    if motion::is_narrow() {
        settings.shown = Shown::One(worse_side(&work));
    }
    Some(Desk {
        history: History::new(work),
        own: Vec::new(),
        settings,
    })
}

fn worse_side(work: &Work) -> Side {
    let check = Model::new(&work.car).map(|model| check(&model, ACCURACY));
    check
        .ok()
        .and_then(|check| check.worst().map(|(side, _)| side))
        .unwrap_or(Side::Left)
}

/// Keeps the work as it is; says whether the browser took it.
pub fn keep_now(bench: Bench) -> bool {
    let settings = bench.settings.get_untracked();
    let text = bench.history.with_untracked(|history| {
        bench
            .aside
            .with_untracked(|aside| desk::write(history, aside, &settings))
    });
    storage::forget(Slot::Opening);
    crash::remember(&text);
    storage::write(Slot::Desk, &text)
}

/// Keeps the work a moment after every change, and at once when the page is left.
pub fn keep(bench: Bench) {
    if storage::read(Slot::Stopped).is_some() {
        bench.notice.set(Some(
            "The car from your last visit stopped the page and was put aside. “Save what was put aside” is in the car menu.".to_owned(),
        ));
    }
    let waiting = StoredValue::new_local(None::<TimeoutHandle>);
    let failed = StoredValue::new(false);
    let write = move || {
        let kept = keep_now(bench);
        if !kept && !failed.get_value() {
            bench.notice.set(Some(
                "This browser does not let the page keep your work between visits. Save a file before you leave.".to_owned(),
            ));
        }
        failed.set_value(!kept);
    };
    let soon = move || {
        if let Some(Some(earlier)) = waiting.try_update_value(Option::take) {
            earlier.clear();
        }
        waiting.set_value(set_timeout_with_handle(write, MOMENT).ok());
    };
    Effect::new(move |_| {
        bench.history.track();
        bench.aside.track();
        bench.settings.track();
        soon();
    });
    let leaving = window_event_listener(ev::pagehide, move |_| write());
    on_cleanup(move || leaving.remove());
}
