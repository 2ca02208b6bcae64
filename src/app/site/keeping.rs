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
use crate::state::kept::{self, Trouble};
use crate::state::settings::Settings;
use crate::state::work::Work;
use crate::state::{opening, tabs};

/// How long after the last change the work is kept.
const MOMENT: Duration = Duration::from_millis(300);

/// A desk to begin with, and what the reader must know of the one that was kept.
pub struct Brought {
    /// The desk.
    pub desk: Desk,
    /// What is wrong with the kept one, and whether it was put out of the way. While it was not, nothing is written
    /// over it.
    pub trouble: Option<(Trouble, bool)>,
}

/// The desk as it was left, or a first one. `None` when not even an invented car opens.
pub fn bring_back() -> Option<Brought> {
    let (left, trouble) = match storage::read(Slot::Desk) {
        Some(text) => left(&text),
        None => (None, None),
    };
    Some(Brought {
        desk: left.or_else(first)?,
        trouble,
    })
}

/// The desk as it was left. One that stopped the page the last time is put out of the way, not tried again; so is one
/// that cannot be read, whole or in part.
fn left(text: &str) -> (Option<Desk>, Option<(Trouble, bool)>) {
    let (desk, trouble) = if storage::read(Slot::Opening).is_some() {
        storage::forget(Slot::Opening);
        (None, Trouble::Stopped)
    } else {
        storage::write(Slot::Opening, "1");
        match desk::read(text) {
            Ok(desk) if desk::is_whole(&desk, text) => return (Some(desk), None),
            Ok(desk) => (Some(desk), Trouble::InPart),
            Err(unread) => (None, unread.into()),
        }
    };
    (desk, Some((trouble, put_out_of_the_way(text))))
}

/// Moves a kept desk to where the reader can save it; says whether there was room for it.
fn put_out_of_the_way(text: &str) -> bool {
    let all = kept::joined(storage::read(Slot::Aside), text);
    // Where there is not room for both, there is once the one is gone.
    storage::forget(Slot::Desk);
    let is_aside = storage::write(Slot::Aside, &all);
    if !is_aside {
        storage::write(Slot::Desk, text);
    }
    is_aside
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

/// What this tab knows of what is kept.
#[derive(Clone, Copy)]
pub struct Keeper {
    bench: Bench,
    /// The kept text as this tab last read or wrote it.
    seen: StoredValue<Option<String>>,
    /// Whether the kept text must stay as it is.
    is_held: bool,
    /// This tab's name: when it was opened.
    tab: StoredValue<String>,
}

impl Keeper {
    /// Keeps the work as it is; says whether the browser took it.
    pub fn keep_now(self) -> bool {
        let there = storage::read(Slot::Desk);
        let may_write = self.may_write_over(there.as_deref());
        self.take_in(there);
        let bench = self.bench;
        let settings = bench.settings.get_untracked();
        let text = bench.history.with_untracked(|history| {
            bench
                .aside
                .with_untracked(|aside| desk::write(history, aside, &settings))
        });
        storage::forget(Slot::Opening);
        let text = self.tab.with_value(|tab| tabs::signed(&text, tab));
        let is_kept = may_write && storage::write(Slot::Desk, &text);
        if is_kept {
            self.seen.set_value(Some(text));
        }
        crash::remember(is_kept);
        is_kept
    }

    /// Whether what is kept may go: not what this tab cannot read, before it is out of the way. Another tab may run a
    /// newer version of the page.
    fn may_write_over(self, there: Option<&str>) -> bool {
        let news = there.filter(|there| self.is_news(Some(there)));
        match news.map(|news| (news, desk::read(news))) {
            _ if self.is_held => false,
            Some((news, Err(unread))) => {
                let is_aside = put_out_of_the_way(news);
                let told = Trouble::from(unread).told(is_aside);
                self.bench.notice.set(Some(told));
                is_aside
            }
            Some((_, Ok(_))) | None => true,
        }
    }

    /// Whether the kept text is another than this tab last read or wrote.
    fn is_news(self, there: Option<&str>) -> bool {
        self.seen.with_value(|seen| seen.as_deref() != there)
    }

    /// Takes in what another tab kept since; says whether it brought a car.
    fn take_in(self, text: Option<String>) -> bool {
        let is_readable = |text: &str| desk::read(text).is_ok();
        // Most often it is what this tab wrote: that need not be read.
        if self.is_held
            || !self.is_news(text.as_deref())
            || !text.as_deref().is_none_or(is_readable)
        {
            return false;
        }
        let bench = self.bench;
        let all = text.as_deref().and_then(|text| {
            bench.history.with_untracked(|history| {
                bench.aside.with_untracked(|aside| {
                    self.tab
                        .with_value(|tab| tabs::taken_in(tab, history, aside, text))
                })
            })
        });
        self.seen.set_value(text);
        let is_new = all.is_some();
        if let Some(all) = all {
            bench.aside.set(all);
            bench.notice.set(Some(kept::OTHER_TAB.to_owned()));
        }
        is_new
    }
}

/// Keeps the work a moment after every change, and what is not kept yet when the page is left.
pub fn keep(bench: Bench, trouble: Option<(Trouble, bool)>) -> Keeper {
    if let Some((trouble, is_aside)) = trouble {
        bench.notice.set(Some(trouble.told(is_aside)));
    } else if storage::read(Slot::Aside).is_some() {
        bench.notice.set(Some(kept::STILL_ASIDE.to_owned()));
    }
    let is_held = trouble.is_some_and(|(_, is_aside)| !is_aside);
    let keeper = Keeper {
        bench,
        seen: StoredValue::new(storage::read(Slot::Desk)),
        is_held,
        tab: StoredValue::new(name_of_tab()),
    };
    let waiting = StoredValue::new_local(None::<TimeoutHandle>);
    // What is wrong with the kept text was told with what to do.
    let failed = StoredValue::new(is_held);
    let write = move || {
        waiting.set_value(None);
        let kept = keeper.keep_now();
        if !kept && !failed.get_value() {
            bench.notice.set(Some(kept::NOT_KEPT.to_owned()));
        }
        failed.set_value(!kept);
    };
    let soon = move || {
        if let Some(Some(earlier)) = waiting.try_update_value(Option::take) {
            earlier.clear();
        }
        waiting.set_value(set_timeout_with_handle(write, MOMENT).ok());
    };
    // What came from another tab is kept there: writing it back at once would be a change there again.
    let is_from_there = StoredValue::new(false);
    storage::on_change(Slot::Desk, move |text| {
        if keeper.take_in(text) {
            is_from_there.set_value(true);
        }
    });
    Effect::new(move |_| {
        bench.history.track();
        bench.aside.track();
        bench.settings.track();
        if !is_from_there.get_value() {
            soon();
        }
        is_from_there.set_value(false);
    });
    let leaving = window_event_listener(ev::pagehide, move |_| {
        if waiting.with_value(Option::is_some) || failed.get_value() {
            write();
        }
    });
    on_cleanup(move || leaving.remove());
    keeper
}

/// When this tab was opened, as people say it; it outlives a reload.
fn name_of_tab() -> String {
    storage::read(Slot::Tab).unwrap_or_else(|| {
        let now = js_sys::Date::new_0();
        let [hour, minute, second] = [now.get_hours(), now.get_minutes(), now.get_seconds()];
        let name = format!("{hour}:{minute:02}:{second:02}");
        storage::write(Slot::Tab, &name);
        name
    })
}
