//! A car that comes with the page's address: what becomes of it.

use geometry::car::Car;
use geometry::units::Notation;

use super::history::History;
use super::opening;
use super::work::Work;

/// What becomes of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Arrival {
    /// It is the car that is open, or was a few steps ago: nothing.
    Known,
    /// It is opened.
    Opens(Work),
    /// It cannot be opened: what is wrong, a sentence each.
    Refused(Vec<String>),
}

/// What becomes of the car in a token, with a history open. An address that the page itself wrote may lag behind the
/// history: a car of its past is then no news.
pub fn arrive(token: &str, history: &History<Work>, written_here: bool) -> Arrival {
    let car = match carfile::from_token(token) {
        Ok(car) => car,
        Err(fault) => return Arrival::Refused(fault.sentences()),
    };
    let past = history.past().iter().map(|step| &step.state);
    let mut lagging = past.filter(|_| written_here);
    let is_known =
        is_same(&history.settled().car, &car) || lagging.any(|work| is_same(&work.car, &car));
    if is_known {
        Arrival::Known
    } else {
        Arrival::Opens(opening::linked(car))
    }
}

/// Whether two cars are one: kept over a reload, a car loses the last digits of its lengths.
pub fn is_same(one: &Car, other: &Car) -> bool {
    let kept = |car| carfile::write(car, Notation::Millimeters);
    one == other || kept(one) == kept(other)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::work::Source;

    fn token(work: &Work) -> String {
        carfile::to_token(&work.car).expect("a good car")
    }

    /// A wheel that is moved a little.
    fn moved(work: &Work) -> Work {
        work.with(|car| car.wheel.backspacing += 5.0)
    }

    #[test]
    fn a_car_of_somebody_elses_is_opened_and_belongs_to_the_reader() {
        let history = History::new(opening::invented(0).expect("an invented car"));
        let other = moved(&opening::invented(1).expect("an invented car"));
        let Arrival::Opens(work) = arrive(&token(&other), &history, false) else {
            panic!("it is news");
        };
        assert_eq!((work.car, work.source), (other.car, Source::Link));
    }

    #[test]
    fn an_invented_car_is_opened_as_what_it_is() {
        let history = History::new(opening::invented(0).expect("an invented car"));
        let other = opening::invented(1).expect("an invented car");
        assert_eq!(
            arrive(&token(&other), &history, false),
            Arrival::Opens(other)
        );
    }

    #[test]
    fn the_car_that_is_open_is_no_news_and_of_the_past_only_what_came_from_elsewhere() {
        let first = opening::invented(0).expect("an invented car");
        let mut history = History::new(first.clone());
        history.commit("Backspacing", moved(&first), 0.0);
        assert_eq!(
            arrive(&token(&moved(&first)), &history, false),
            Arrival::Known
        );
        assert_eq!(arrive(&token(&first), &history, true), Arrival::Known);
        assert_eq!(
            arrive(&token(&first), &history, false),
            Arrival::Opens(first)
        );
    }

    #[test]
    fn a_damaged_token_is_refused_in_words() {
        let history = History::new(opening::invented(0).expect("an invented car"));
        for token in ["", "2newer", "1damaged"] {
            let Arrival::Refused(faults) = arrive(token, &history, true) else {
                panic!("{token} holds no car");
            };
            assert_eq!(faults.len(), 1);
        }
    }
}
