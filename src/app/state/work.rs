//! The car being worked on: what it is now, what it was when it was opened, where it came from.

use std::sync::Arc;

use geometry::car::Car;
use geometry::side::Sides;

use super::stations::Sheet;

/// Where a car came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// One of the invented cars, by its place in the list.
    Invented(usize),
    /// A file of the reader's.
    File,
    /// A link.
    Link,
    /// The reader began it here.
    Begun,
}

/// One car on the bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// The car as it stands now.
    pub car: Arc<Car>,
    /// The car as it was opened.
    pub opened: Arc<Car>,
    /// Where it came from.
    pub source: Source,
    /// Station tables that are being edited and cannot be taken for sheet metal yet.
    pub drafts: Sides<Option<Arc<Sheet>>>,
}

impl Work {
    /// A car as it was opened.
    pub fn open(car: Car, source: Source) -> Self {
        let car = Arc::new(car);
        Self {
            opened: Arc::clone(&car),
            car,
            source,
            drafts: Sides::default(),
        }
    }

    /// The same work with the car changed.
    pub fn with(&self, change: impl FnOnce(&mut Car)) -> Self {
        let mut car = Car::clone(&self.car);
        change(&mut car);
        Self {
            car: Arc::new(car),
            ..self.clone()
        }
    }

    /// Whether it is another state of the same car. Told by name: a car that came back from a file has
    /// the last digits of its lengths rounded.
    pub fn same_car(&self, other: &Self) -> bool {
        self.source == other.source && self.opened.name == other.opened.name
    }

    /// Whether the reader made it: an invented car that nobody touched is nobody's.
    pub fn is_own(&self) -> bool {
        !matches!(self.source, Source::Invented(_))
            || self.car != self.opened
            || self.drafts != Sides::default()
    }
}

/// How many of the reader's own cars are kept aside: more than anyone makes, and at some 4 kB each a tenth of what a
/// browser keeps.
const KEPT: usize = 100;

/// Puts `work` aside in front of the others, in place of an older state of the same car.
/// An invented car that nobody touched needs no keeping.
pub fn put_aside(aside: &mut Vec<Work>, work: &Work) {
    if work.is_own() {
        aside.retain(|kept| !kept.same_car(work));
        aside.insert(0, work.clone());
        aside.truncate(KEPT);
    }
}

/// A file name for something of a car of this name, with the ending that it is to have.
pub fn file_name(car_name: &str, ending: &str) -> String {
    let words = car_name
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty());
    let stem = words
        .map(str::to_ascii_lowercase)
        .collect::<Vec<_>>()
        .join("-");
    format!("{}{ending}", if stem.is_empty() { "car" } else { &stem })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    #[test]
    fn own_cars_are_kept_once_each_and_the_latest_first() {
        let invented = opening::invented(0).expect("the first invented car opens");
        let mine = invented.with(|car| car.axle.spacer += 5.0);
        let other = Work::open(Car::clone(&mine.car), Source::File);
        let mut aside = Vec::new();
        put_aside(&mut aside, &invented);
        assert!(aside.is_empty());
        put_aside(&mut aside, &mine);
        put_aside(&mut aside, &other);
        let later = mine.with(|car| car.axle.spacer += 5.0);
        put_aside(&mut aside, &later);
        assert_eq!(aside, [later, other]);
    }

    #[test]
    fn a_file_is_named_after_its_car() {
        assert_eq!(
            file_name("Short-bed pickup, 2nd try", ".toml"),
            "short-bed-pickup-2nd-try.toml"
        );
        assert_eq!(file_name(" / ", "-cut-2.svg"), "car-cut-2.svg");
    }
}
