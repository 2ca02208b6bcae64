//! Cars as they are opened: the invented ones that come with the page, and those that come by a link.

use geometry::car::Car;

use super::work::{Source, Work};

/// The invented car at `index` of the list, as it is opened.
pub fn invented(index: usize) -> Option<Work> {
    let car = carfile::read(carfile::SCENARIOS.get(index)?.text).ok()?;
    Some(Work::open(car, Source::Invented(index)))
}

/// A car that came by a link. An invented car is one however it comes.
pub fn linked(car: Car) -> Work {
    let mut known = (0..carfile::SCENARIOS.len()).filter_map(invented);
    let same = known.find(|work| *work.car == car);
    same.unwrap_or_else(|| Work::open(car, Source::Link))
}
