//! The car in the page's address: opened when it comes with a link, and followed when it is changed here.

use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;

use crate::bench::store::{Bench, Refused};
use crate::browser::address as bar;
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
        let ours =
            bar::is_ours() || written.with_value(|written| written.as_deref() == Some(token));
        let arrival = bench
            .history
            .with_untracked(|history| arrive(token, history, ours));
        let is_read = !matches!(arrival, Arrival::Refused(_));
        match arrival {
            Arrival::Known => {}
            // Back in the browser's history is back to a page, not back to an older car.
            Arrival::Opens(_) if ours && written.with_value(Option::is_some) => {}
            Arrival::Opens(work) => bench.open(work),
            Arrival::Refused(faults) => bench.refused.set(Some(Refused {
                name: "The car of the link".to_owned(),
                faults,
            })),
        }
        is_read
    };
    let write = move || {
        let packed = bench
            .history
            .with_untracked(|history| carfile::to_token(&history.settled().car));
        // A car with faults has no link; the address keeps the last that had none.
        let Ok(token) = packed else { return };
        written.set_value(Some(token.clone()));
        if address.with_untracked(|address| address.car.as_ref() != Some(&token)) {
            address.update(|address| address.car = Some(token));
        }
        bar::replace(&address.with_untracked(ToString::to_string));
    };
    let waiting = StoredValue::new_local(None::<TimeoutHandle>);
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
        let news = token.filter(|token| !is_written(token));
        let has_news = news.is_some();
        let is_read = news.is_none_or(|token| untrack(|| open(&token)));
        if !is_read {
            // A link that could not be read stays in the address, to be mended.
            not_now();
        } else if before.is_some_and(|before| has_news || before != place) {
            // Another entry of the browser's history may hold an older car.
            soon();
        }
        place
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
