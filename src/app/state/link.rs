//! A car that comes with the page's address: what becomes of it.

use geometry::car::Car;
use geometry::units::Notation;

use super::opening;
use super::work::Work;

/// What becomes of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Arrival {
    /// It is the car that is open: nothing.
    Known,
    /// It is opened.
    Opens(Work),
    /// It cannot be opened: what is wrong, a sentence each.
    Refused(Vec<String>),
}

/// What becomes of the car in a token while `open` is.
pub fn arrive(token: &str, open: &Car) -> Arrival {
    match carfile::from_token(token) {
        Ok(car) if is_same(open, &car) => Arrival::Known,
        Ok(car) => Arrival::Opens(opening::linked(car)),
        Err(fault) => Arrival::Refused(fault.sentences()),
    }
}

/// Whether two cars are one: saved as a file, a car loses the last digits of its lengths.
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

    fn invented(index: usize) -> Work {
        opening::invented(index).expect("an invented car")
    }

    #[test]
    fn a_car_of_somebody_elses_is_opened_and_belongs_to_the_reader() {
        let other = moved(&invented(1));
        let Arrival::Opens(work) = arrive(&token(&other), &invented(0).car) else {
            panic!("it is news");
        };
        assert_eq!((&work.car, work.source), (&other.car, Source::Link));
        assert!(work.is_own());
    }

    #[test]
    fn an_invented_car_is_opened_as_what_it_is() {
        let other = invented(1);
        assert_eq!(
            arrive(&token(&other), &invented(0).car),
            Arrival::Opens(other)
        );
    }

    #[test]
    fn the_car_that_is_open_is_no_news_also_when_it_was_kept_meanwhile() {
        let mine = moved(&invented(0));
        assert_eq!(arrive(&token(&mine), &mine.car), Arrival::Known);
        let kept = carfile::write(&mine.car, Notation::Millimeters);
        let back = carfile::read(&kept).expect("what was written");
        assert_ne!(&back, mine.car.as_ref(), "a car file loses last digits");
        assert_eq!(arrive(&token(&mine), &back), Arrival::Known);
    }

    #[test]
    fn a_damaged_token_is_refused_in_words() {
        for token in ["", "2newer", "1damaged"] {
            let Arrival::Refused(faults) = arrive(token, &invented(0).car) else {
                panic!("{token} holds no car");
            };
            assert_eq!(faults.len(), 1);
        }
    }
}
