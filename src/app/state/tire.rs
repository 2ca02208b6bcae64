//! Which of the three tires everything is asked for, in words.

use geometry::arrivals::on_tire;
use geometry::car::Car;
use geometry::model::Model;
use geometry::tire::Arrival;
use geometry::units::{Notation, format_length};

/// The three tires to choose from: what each is called on the page.
pub const TIRES: [(&str, Arrival); 3] = [
    ("Nominal", Arrival::Nominal),
    ("Largest that may arrive", Arrival::Largest),
    ("Grown at speed", Arrival::AtSpeed),
];

/// Which tire the picture and the gap list are of, where it is not the nominal one.
pub fn asked(car: &Car, notation: Notation) -> Option<String> {
    let [width, diameter] =
        [car.section_width(), car.overall_diameter()].map(|size| format_length(size, notation));
    let which = match car.tire.arrival {
        Arrival::Nominal => return None,
        Arrival::Largest => "the largest tire that may arrive",
        Arrival::AtSpeed => "the tire grown at speed",
    };
    Some(format!(
        "All of this is for {which}: {width} wide and {diameter} tall."
    ))
}

/// What the chosen tire needs the reader to know.
pub fn note(car: &Car) -> Option<&'static str> {
    let tire = &car.tire;
    match tire.arrival {
        Arrival::Largest if tire.width_is_measured() || tire.diameter_is_measured() => {
            Some("What was measured has arrived already and stays as it is.")
        }
        Arrival::Largest => Some(
            "The most that the standard lets a tire of this size be (UN Regulation No. 30, 6.1.4 and 6.1.5; from memory).",
        ),
        Arrival::AtSpeed if tire.growth <= 0.0 => {
            Some("Type how much it grows: until then it is the nominal tire.")
        }
        Arrival::AtSpeed => Some("As printed or measured, its diameter grown by this much."),
        Arrival::Nominal => None,
    }
}

/// Whether it is only the chosen tire that does not go on the car, where the nominal one does.
pub fn only_nominal_goes(car: &Car) -> bool {
    car.tire.arrival != Arrival::Nominal
        && Model::new(car).is_err()
        && Model::new(&on_tire(car, Arrival::Nominal)).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    #[test]
    fn a_tire_that_is_not_nominal_is_told_with_its_size() {
        let coupe = opening::invented(0).expect("a car").car;
        let words = |arrival| asked(&on_tire(&coupe, arrival), Notation::Millimeters);
        assert_eq!(words(Arrival::Nominal), None);
        // T9's factors on a 10 in rim: 300 x 1.04 wide, 381 + 2 x 165 x 1.04 in diameter.
        assert_eq!(
            words(Arrival::Largest).as_deref(),
            Some(
                "All of this is for the largest tire that may arrive: 312.0 mm wide and 724.2 mm tall."
            )
        );
        let mut slick = Car::clone(&coupe);
        slick.tire.growth = 25.4;
        let grown = asked(&on_tire(&slick, Arrival::AtSpeed), Notation::Millimeters);
        assert!(grown.is_some_and(|words| words.contains("736.4 mm tall")));
    }

    #[test]
    fn a_growth_that_was_not_typed_is_asked_for() {
        let coupe = opening::invented(0).expect("a car").car;
        let note = note(&on_tire(&coupe, Arrival::AtSpeed));
        assert!(note.is_some_and(|note| note.starts_with("Type how much")));
    }

    #[test]
    fn the_low_cars_largest_tire_does_not_go_on_its_rim_and_its_nominal_one_does() {
        let low = carfile::SCENARIOS
            .iter()
            .position(|one| one.name == "low-car");
        let low = opening::invented(low.expect("the low car"))
            .expect("it opens")
            .car;
        assert!(only_nominal_goes(&on_tire(&low, Arrival::Largest)));
        assert!(!only_nominal_goes(&low));
    }
}
