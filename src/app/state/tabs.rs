//! Two tabs of the page at once: what another tab kept is taken in, so that neither writes over the other's cars.

use std::sync::Arc;

use geometry::car::Car;

use super::desk;
use super::history::History;
use super::settings::Settings;
use super::work::{Work, put_aside};

/// The line behind a desk that says which tab kept it.
const TAB: &str = "tab ";

/// A desk's text with the name of the tab that keeps it.
pub fn signed(text: &str, tab: &str) -> String {
    format!("{text}{TAB}{tab}\n")
}

/// The cars put aside in the tab called `me` once those of another tab's `text` are among them; `None` where that brings
/// nothing new. Of a car that this tab has another state of, the other tab's state stands beside it, under the name of that tab.
pub fn taken_in(
    me: &str,
    history: &History<Work>,
    aside: &[Work],
    text: &str,
) -> Option<Vec<Work>> {
    let theirs = desk::read(text).ok()?;
    let signature = text.lines().last().and_then(|line| line.strip_prefix(TAB));
    let mark = |tab: &str| format!("{MARK}{tab})");
    let (mine, mark) = (mark(me), mark(signature.unwrap_or("before")));
    let past = history.past().iter().map(|step| &step.state);
    let here = past.chain([history.settled()]).chain(aside);
    let known: Vec<String> = here.map(as_kept).collect();
    let is_known = |work: &Work| known.contains(&as_kept(work));
    let mut all = aside.to_vec();
    let mut is_new = false;
    for work in theirs.own.iter().rev().chain([theirs.history.settled()]) {
        // What went round through the other tab is no news.
        if !work.is_own() || is_known(work) || work.opened.name.ends_with(&mine) {
            continue;
        }
        let is_here = |work: &Work| {
            let mut states = all.iter().chain([history.settled()]);
            states.any(|state| state.same_car(work))
        };
        let work = match (is_here(work), work.opened.name.contains(MARK)) {
            (false, _) => work.clone(),
            (true, false) => renamed(work, &mark),
            // Each tab tells its own cars at first hand.
            (true, true) => continue,
        };
        if !is_known(&work) {
            put_aside(&mut all, &work);
            is_new = true;
        }
    }
    is_new.then_some(all)
}

/// What the name of a tab begins with, behind the name of a car.
const MARK: &str = " (tab of ";

fn renamed(work: &Work, mark: &str) -> Work {
    let rename = |car: &Arc<Car>| {
        let mut car = Car::clone(car);
        car.name.push_str(mark);
        Arc::new(car)
    };
    Work {
        car: rename(&work.car),
        opened: rename(&work.opened),
        ..work.clone()
    }
}

/// All of a work, as it is kept.
fn as_kept(work: &Work) -> String {
    desk::write(&History::new(work.clone()), &[], &Settings::default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    fn coupe(spacer: f64) -> Work {
        let invented = opening::invented(0).expect("the first invented car opens");
        invented.with(|car| car.axle.spacer = spacer)
    }

    fn kept(history: &History<Work>, aside: &[Work], tab: &str) -> String {
        signed(&desk::write(history, aside, &Settings::default()), tab)
    }

    #[test]
    fn another_state_of_the_same_car_stands_beside_this_one_and_follows_its_tab() {
        let mine = History::new(coupe(5.0));
        let theirs = kept(&History::new(coupe(7.0)), &[], "10:42:07");
        let aside = taken_in("0", &mine, &[], &theirs).expect("a new state");
        let [one] = &aside[..] else {
            panic!("{aside:?}")
        };
        assert!(one.car.name.ends_with(" (tab of 10:42:07)"));
        assert!((one.car.axle.spacer - 7.0).abs() < 1e-6);
        assert_eq!(taken_in("0", &mine, &aside, &theirs), None);
        let later = kept(&History::new(coupe(8.0)), &[], "10:42:07");
        let aside = taken_in("0", &mine, &aside, &later).expect("a newer state");
        assert_eq!(aside.len(), 1);
        assert!((aside[0].car.axle.spacer - 8.0).abs() < 1e-6);
        let third = kept(&History::new(coupe(9.0)), &[], "10:43:00");
        assert_eq!(
            taken_in("0", &mine, &aside, &third).map(|all| all.len()),
            Some(2)
        );
    }

    #[test]
    fn the_two_tabs_come_to_rest_and_nothing_of_either_is_lost() {
        let (one, other) = (History::new(coupe(5.0)), History::new(coupe(7.0)));
        let in_other = taken_in("2", &other, &[], &kept(&one, &[], "1")).expect("the one's");
        let in_one = taken_in("1", &one, &[], &kept(&other, &in_other, "2")).expect("the other's");
        assert_eq!(
            taken_in("2", &other, &in_other, &kept(&one, &in_one, "1")),
            None
        );
        assert_eq!(
            taken_in("1", &one, &in_one, &kept(&other, &in_other, "2")),
            None
        );
        assert_eq!((in_one.len(), in_other.len()), (1, 1));
    }

    #[test]
    fn what_this_tab_went_through_comes_back_from_no_other() {
        let mut mine = History::new(coupe(5.0));
        let before = kept(&mine, &[], "1");
        mine.commit("Spacer", coupe(6.0), 0.0);
        assert_eq!(taken_in("0", &mine, &[], &before), None);
        let untouched = opening::invented(1).expect("an invented car");
        assert_eq!(
            taken_in("0", &mine, &[], &kept(&History::new(untouched), &[], "2")),
            None
        );
        assert_eq!(taken_in("0", &mine, &[], "something else"), None);
        let aside = taken_in("0", &mine, &[], &kept(&mine, &[coupe(9.0)], "2"));
        assert_eq!(aside.map(|all| all.len()), Some(1));
    }
}
