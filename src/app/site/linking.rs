//! The car in the page's address: opened when it comes with a link, and followed when it is changed here.

use std::sync::Arc;
use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;

use crate::bench::store::{Bench, Refused};
use crate::browser::address as bar;
use crate::browser::storage::{self, Slot};
use crate::state::address::{Address, Place};
use crate::state::link::{Arrival, arrive};

/// How long a car must stand still before the address follows it: browsers allow only so many changes in a while.
const SETTLED: Duration = Duration::from_millis(600);

/// Opens the car that the address brings, now and whenever the reader goes to another; then keeps the address up with
/// the car.
pub fn follow_car(bench: Bench, address: RwSignal<Address>) {
    let written = StoredValue::new(None::<String>);
    // Says whether the address may be written over.
    let open = move |token: &str| {
        let settled = bench.settled();
        match arrive(token, &settled.car) {
            Arrival::Known => {}
            Arrival::Opens(work) => bench.open_link(work),
            Arrival::Refused(faults) => {
                bench.refused.set(Some(Refused {
                    name: "The car of the link".to_owned(),
                    faults,
                }));
                return false;
            }
        }
        true
    };
    // A car with faults has no link; the address keeps the last that had none.
    let note = move || {
        let token = carfile::to_token(&bench.settled().car).ok();
        if !storage::write(Slot::Car, token.as_deref().unwrap_or_default()) {
            // An older car there would take the place of the one in the address.
            storage::forget(Slot::Car);
        }
        token
    };
    let waiting = StoredValue::new_local(None::<TimeoutHandle>);
    let write = move || {
        waiting.set_value(None);
        let Some(token) = note() else { return };
        written.set_value(Some(token.clone()));
        if address.with_untracked(|address| address.car.as_ref() != Some(&token)) {
            address.update(|address| address.car = Some(token));
        }
        bar::replace(&address.with_untracked(ToString::to_string));
    };
    let not_now = move || {
        if let Some(Some(earlier)) = waiting.try_update_value(Option::take) {
            earlier.clear();
        }
    };
    let soon = move || {
        not_now();
        waiting.set_value(set_timeout_with_handle(write, SETTLED).ok());
    };
    let token = Memo::new(move |_| address.with(|address| address.car.clone()));
    let place = Memo::new(move |_| address.with(|address| address.place));
    Effect::new(move |before: Option<Place>| {
        let (token, place) = (token.get(), place.get());
        let is_written =
            |token: &String| written.with_value(|written| written.as_ref() == Some(token));
        let is_gone = token.is_none() && written.with_value(Option::is_some);
        let news = token.filter(|token| !is_written(token));
        // An older car, or none where there was one.
        let lags = news.is_some() || is_gone;
        let is_read = news.is_none_or(|token| match before {
            // Back in the browser's history is back to a page, not back to an older car.
            Some(_) if bar::is_ours() => true,
            Some(_) => untrack(|| open(&token)),
            None => {
                let of_tab = storage::read(Slot::Car).filter(|_| bar::is_ours());
                let token = of_tab.unwrap_or(token);
                token.is_empty() && bar::is_ours() || untrack(|| open(&token))
            }
        });
        if !is_read {
            // A link that could not be read stays in the address, to be mended.
            not_now();
        } else if before.is_some() && lags {
            soon();
        } else if before.is_some_and(|before| before != place) {
            // At once: whoever leaves the entry again at once may come back to it with another car.
            bar::replace(&address.with_untracked(ToString::to_string));
        }
        place
    });
    // Not the address as well: changed while the browser loads the page again, it loses its mark.
    let leave = move || {
        if waiting.with_value(Option::is_some) {
            not_now();
            note();
        }
    };
    let asked = window_event_listener(ev::beforeunload, move |_| leave());
    // Phones do not ask.
    let leaving = window_event_listener(ev::pagehide, move |_| leave());
    on_cleanup(move || {
        asked.remove();
        leaving.remove();
    });
    let car = Memo::new(move |_| {
        bench
            .history
            .with(|history| Arc::clone(&history.settled().car))
    });
    Effect::new(move |before: Option<()>| {
        // A memo is worked out only for whoever reads it.
        let _ = car.get();
        if before.is_some() {
            soon();
        }
    });
}
