//! What to doubt about the gap list, in words: how far each gap may be off, and what to measure again.

use geometry::body::SurfaceId;
use geometry::car::Car;
use geometry::side::Sides;
use geometry::tolerance::{Band, Measurement, Spread};
use geometry::units::{Notation, format_length};
use geometry::warnings::Warning;

/// How far one surface's gaps may be off.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// Which surface.
    pub id: SurfaceId,
    /// What it is called.
    pub name: String,
    /// Of the gap at ride height.
    pub ride: Off,
    /// Of the least gap through travel.
    pub travel: Off,
    /// What matters most to the gap that decides.
    pub most: String,
    /// Where the verdict could be another, what to do about it.
    pub again: Option<Again>,
}

/// How far a gap may be off.
#[derive(Debug, Clone, PartialEq)]
pub struct Off {
    /// `± 1/8 in`: what it most likely stays within.
    pub likely: String,
    /// `1/4 in at worst`.
    pub worst: String,
}

/// What to measure again.
#[derive(Debug, Clone, PartialEq)]
pub struct Again {
    /// Why, in a sentence.
    pub why: String,
    /// The measurement that matters most.
    pub what: String,
    /// The id of its box on the page.
    pub place: String,
}

/// The bands of both sides in words.
pub fn doubts(car: &Car, bands: &Sides<Vec<Band>>, notation: Notation) -> Sides<Vec<Doubt>> {
    Sides::each(|side| {
        let list = bands.get(side).iter();
        list.map(|band| doubt(car, band, notation)).collect()
    })
}

fn doubt(car: &Car, band: &Band, notation: Notation) -> Doubt {
    let length = |mm: f64| format_length(mm, notation);
    let off = |spread: &Spread| Off {
        likely: format!("± {}", length(spread.rss)),
        worst: format!("{} at worst", length(spread.worst)),
    };
    let most = band.deciding().shares.first();
    let again = band.could_be.zip(band.measure_again());
    Doubt {
        id: band.id,
        name: band.name.clone(),
        ride: off(&band.ride),
        travel: off(&band.travel),
        most: most.map_or("nothing that was measured".to_owned(), |share| {
            format!(
                "{}: {} of it",
                share.measurement.words(car),
                length(share.effect())
            )
        }),
        again: again.map(|([worst, best], measurement)| Again {
            why: format!(
                "Measure again: within {} it may be anything from {} to {}. What matters most:",
                off(band.deciding()).likely,
                worst.word(),
                best.word()
            ),
            what: measurement.words(car),
            place: place(measurement),
        }),
    }
}

/// The id of the box, or of what stands for one, in which a measurement is entered.
fn place(measurement: Measurement) -> String {
    match measurement {
        Measurement::Reading(side, key) => format!("tape-{}-{key}", side.word()),
        Measurement::Stations(side) => format!("stations-{}", side.word()),
        Measurement::Obstacle(part) => format!("part-{part}-0"),
        Measurement::Axle => "number-axle-measured_width".to_owned(),
        Measurement::SectionWidth => "number-tire-section_width".to_owned(),
        Measurement::Diameter => "number-tire-overall_diameter".to_owned(),
    }
}

/// The warnings in one line: how many, and what they are about.
pub fn warnings_words(list: &[Warning]) -> String {
    let about = list.iter().map(|warning| match warning.side {
        Some(side) => format!("{} ({})", warning.topic.label(), side.word()),
        None => warning.topic.label().to_owned(),
    });
    let about = about.collect::<Vec<_>>().join(", ");
    match list.len() {
        0 => "No warnings".to_owned(),
        1 => format!("One warning: {about}"),
        many => format!("{many} warnings: {about}"),
    }
}

/// How many verdicts the tape's error could overturn, in words.
pub fn count_words(doubts: &Sides<Vec<Doubt>>) -> String {
    let lists = doubts.iter().flat_map(|(_, list)| list);
    match lists.filter(|doubt| doubt.again.is_some()).count() {
        0 => "no verdict hangs on the tape".to_owned(),
        1 => "one verdict hangs on the tape".to_owned(),
        many => format!("{many} verdicts hang on the tape"),
    }
}

#[cfg(test)]
mod tests {
    use geometry::check::check;
    use geometry::model::Model;
    use geometry::side::Side;
    use geometry::tolerance::bands;

    use super::*;
    use crate::state::opening;

    /// The doubts about the fastback, whose left roof is within the tape's error of its target.
    fn of(change: impl FnOnce(&mut Car)) -> Sides<Vec<Doubt>> {
        let work = opening::invented(1).expect("a car").with(change);
        let model = Model::new(&work.car).expect("it has a model");
        let bands = bands(&model, &check(&model, 0.1));
        doubts(&work.car, &bands, Notation::InchFractions)
    }

    #[test]
    fn a_band_that_could_overturn_the_verdict_says_what_to_measure_and_where() {
        let doubts = of(|_| {});
        let again = doubts.left.iter().filter_map(|doubt| doubt.again.as_ref());
        let again: Vec<&Again> = again.collect();
        assert!(!again.is_empty());
        for one in again {
            assert!(
                one.why.starts_with("Measure again: within ± "),
                "{}",
                one.why
            );
            assert!(!one.what.is_empty());
            assert!(one.place.starts_with("tape-left-"), "{}", one.place);
        }
        assert!(count_words(&doubts).ends_with("on the tape"));
    }

    #[test]
    fn without_an_error_nothing_is_doubtful() {
        let doubts = of(|car| {
            car.tape_error.measured = 0.0;
            car.tape_error.guessed = 0.0;
        });
        for (_, list) in doubts.iter() {
            assert!(list.iter().all(|doubt| doubt.again.is_none()));
            assert!(list.iter().all(|doubt| doubt.travel.likely == "± 0 in"));
        }
        assert_eq!(count_words(&doubts), "no verdict hangs on the tape");
    }

    #[test]
    fn warnings_are_told_in_a_line() {
        assert_eq!(warnings_words(&[]), "No warnings");
        let mut car = Car::clone(&opening::invented(0).expect("a car").car);
        car.stock.track_width = Some(car.track_width() - 40.0);
        let model = Model::new(&car).expect("it has a model");
        let list = geometry::warnings::warnings(&model, &check(&model, 0.1));
        assert_eq!(warnings_words(&list), "2 warnings: wide rim, wider track");
    }

    #[test]
    fn every_measurement_has_its_place_on_the_page() {
        let reading = Measurement::Reading(Side::Right, "to_rail");
        assert_eq!(place(reading), "tape-right-to_rail");
        assert_eq!(place(Measurement::Stations(Side::Left)), "stations-left");
        assert_eq!(place(Measurement::Axle), "number-axle-measured_width");
    }
}
