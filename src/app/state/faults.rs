//! What is wrong with the present car, in the words of the page, and where on the page it is mended.

use geometry::body::tape::TAPE_FIELDS;
use geometry::car::Car;
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::field::Fault;
use geometry::side::Side;

/// A fault for the reader.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What is wrong, and what would be accepted.
    pub words: String,
    /// The id of the box in which it is mended, where there is one.
    pub place: Option<String>,
}

/// A fault with the name of what it is about in place of its key.
pub fn told(fault: &Fault, car: &Car) -> Told {
    let (about, place) = about(&fault.at, car);
    Told {
        words: format!("{about}: {}; {}.", fault.found, fault.accepted),
        place,
    }
}

/// What a key is about, and the box in which it is entered.
fn about(key: &str, car: &Car) -> (String, Option<String>) {
    let bounds = CAR_FIELDS.iter().map(|field| field.bound);
    let bounds = bounds.chain(OPTIONAL_FIELDS.iter().map(|field| field.bound));
    if let Some(bound) = bounds.into_iter().find(|bound| bound.key == key) {
        let place = format!("number-{}", key.replace('.', "-"));
        return (bound.label.to_owned(), Some(place));
    }
    if let Some((side, key)) = of_side(key) {
        let mut readings = TAPE_FIELDS.iter().map(|field| field.field.bound);
        let reading = key.strip_prefix("tape.").and_then(|key| {
            let key = key.split('.').next()?;
            readings.find(|bound| bound.key == key)
        });
        return match reading {
            Some(bound) => (
                format!("{}, {}", bound.label, side.word()),
                Some(format!("tape-{}-{}", side.word(), bound.key)),
            ),
            None => (
                format!("Wheelhouse stations, {}", side.word()),
                Some(format!("stations-{}", side.word())),
            ),
        };
    }
    if let Some(i) = place_in(key, "obstacle") {
        let name = car.obstacles.get(i).map(|part| part.name.clone());
        return (name.unwrap_or_default(), Some(format!("part-{i}-name")));
    }
    if let Some(i) = place_in(key, "no_cut") {
        let name = car.no_cut.get(i).map(|zone| zone.name.clone());
        return (name.unwrap_or_default(), Some(format!("zone-{i}-name")));
    }
    if key.starts_with("locator") {
        return ("Locator".to_owned(), Some("locator-kind".to_owned()));
    }
    (key.to_owned(), None)
}

fn of_side(key: &str) -> Option<(Side, &str)> {
    let (word, rest) = key.split_once('.')?;
    let side = Side::BOTH.into_iter().find(|side| side.word() == word)?;
    Some((side, rest))
}

/// The place of a thing in a list: 2 of `obstacle[2].from`.
fn place_in(key: &str, list: &str) -> Option<usize> {
    let rest = key.strip_prefix(list)?.strip_prefix('[')?;
    rest.split_once(']')?.0.parse().ok()
}

#[cfg(test)]
mod tests {
    use geometry::model::Model;

    use super::*;
    use crate::state::nearby::Nearby;
    use crate::state::opening;

    /// What the only fault of the first invented car is told as, once it was changed.
    fn only(change: impl FnOnce(&mut Car)) -> Told {
        let work = opening::invented(0).expect("the first invented car opens");
        let car = work.with(change).car;
        let faults = Model::new(&car).expect_err("it is made wrong");
        told(&faults[0], &car)
    }

    #[test]
    fn a_fault_names_what_it_is_about_as_the_page_does_and_where_that_is() {
        let reading = only(|car| car.sides.left.tape.to_seam.value = 300.0);
        assert!(
            reading
                .words
                .starts_with("Flange face in to seam, left: 11 13/16 in (300.0 mm) puts"),
            "{reading:?}"
        );
        assert_eq!(reading.place.as_deref(), Some("tape-left-to_seam"));
        let part = only(|car| {
            let mut part = geometry::body::Obstacle::begun(car);
            part.radius = 4000.0;
            car.obstacles.push(part);
        });
        assert!(part.words.starts_with("Shock: Radius is "), "{part:?}");
        assert_eq!(part.place.as_deref(), Some("part-0-name"));
        let wheel = only(|car| car.wheel.backspacing = car.wheel.overall_width() + 1.0);
        assert_eq!(wheel.place.as_deref(), Some("number-wheel-backspacing"));
    }
}
