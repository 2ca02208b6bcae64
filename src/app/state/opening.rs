//! Cars as they are opened: the invented ones that come with the page, those that come by a link, and those that are
//! begun here.

use geometry::body::Reading;
use geometry::body::tape::TAPE_FIELDS;
use geometry::car::{Car, Shop};
use geometry::side::Side;

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

/// A car of the reader's own to begin with. The numbers of `from` stand in until they are typed over: its tape readings
/// as guesses; nothing that is told of its sheet metal, its parts, its tire as measured or the work planned on it.
/// Named like none of `others`.
pub fn begun(from: &Car, others: &[Work]) -> Work {
    let mut car = from.clone();
    let is_taken = |name: &String| others.iter().any(|work| work.opened.name == *name);
    let mut name = "My car".to_owned();
    let mut count = 1;
    while is_taken(&name) {
        count += 1;
        name = format!("My car {count}");
    }
    car.name = name;
    car.purpose.clear();
    car.shop = Shop::default();
    car.obstacles.clear();
    car.no_cut.clear();
    car.tire.section_width = None;
    car.tire.overall_diameter = None;
    for side in Side::BOTH {
        let spec = car.sides.get_mut(side);
        spec.stations = None;
        (spec.seam_move, spec.roof_raise) = (0.0, 0.0);
        for field in TAPE_FIELDS {
            let guess = Reading::guessed((field.reading)(&spec.tape).value);
            (field.set_reading)(&mut spec.tape, guess);
        }
    }
    Work::open(car, Source::Begun)
}

/// What the reader of a car that was begun is told.
pub fn begun_words(from: &str) -> String {
    format!(
        "A car of your own is on the Bench. Its numbers are still those of {from}: set wheel, axle and tire, and type what your tape reads under “Tape readings”, where each is a guess until then. “Sheets” has one to take to the car. Its name is in the car menu."
    )
}

#[cfg(test)]
mod tests {
    use geometry::model::Model;

    use super::*;
    use crate::state::tape;

    #[test]
    fn a_car_that_is_begun_is_sound_and_all_guesses_whatever_was_on_the_bench() {
        for from in (0..carfile::SCENARIOS.len()).filter_map(invented) {
            let work = begun(&from.car, &[]);
            let model = Model::new(&work.car);
            assert!(model.is_ok(), "{}: {:?}", from.car.name, model.err());
            assert_eq!(tape::guesses(&work.car), 2 * TAPE_FIELDS.len());
            assert!(work.is_own() && !work.car.name.contains("invented"));
            let text = carfile::write(&work.car, geometry::units::Notation::InchFractions);
            let read = carfile::read(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
            assert_eq!(tape::guesses(&read), 2 * TAPE_FIELDS.len());
        }
    }

    #[test]
    fn one_begun_after_another_has_another_name() {
        let from = invented(0).expect("the first invented car opens");
        let mut mine: Vec<Work> = Vec::new();
        for name in ["My car", "My car 2", "My car 3"] {
            mine.push(begun(&from.car, &mine));
            assert!(mine.last().is_some_and(|work| work.car.name == name));
        }
    }
}
