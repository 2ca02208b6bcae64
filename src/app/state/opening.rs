//! The invented cars that come with the page.

use super::work::{Source, Work};

/// The invented car at `index` of the list, as it is opened.
pub fn invented(index: usize) -> Option<Work> {
    let car = carfile::read(carfile::SCENARIOS.get(index)?.text).ok()?;
    Some(Work::open(car, Source::Invented(index)))
}
