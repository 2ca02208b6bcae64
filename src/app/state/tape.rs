//! Tape readings as they are entered: which are still guesses, and how far each may be off.

use geometry::body::tape::{TAPE_FIELDS, TapeField};
use geometry::car::Car;
use geometry::side::Side;
use geometry::units::{Notation, format_length};

/// How many readings of the car are guesses.
pub fn guesses(car: &Car) -> usize {
    let on = |side| {
        TAPE_FIELDS
            .iter()
            .filter(|field| (field.reading)(&car.sides.get(side).tape).guess)
            .count()
    };
    Side::BOTH.into_iter().map(on).sum()
}

/// The count in words.
pub fn count_words(guesses: usize) -> String {
    match guesses {
        0 => "all measured".to_owned(),
        1 => "one is still a guess".to_owned(),
        many => format!("{many} are still guesses"),
    }
}

/// What a builder writes beside a number that nobody measured: before it and after it. The tape sheet asks for a G.
const BEFORE: [&str; 6] = ["about", "approx.", "approx", "ca.", "ca", "~"];
const AFTER: [&str; 3] = ["guess", "g", "?"];

/// Whether what was typed is marked as a guess, and the number without its mark.
pub fn unmarked(text: &str) -> (bool, &str) {
    let text = text.trim();
    let lower = text.to_ascii_lowercase();
    if let Some(mark) = BEFORE.iter().find(|mark| lower.starts_with(*mark)) {
        return (true, text[mark.len()..].trim_start());
    }
    if let Some(mark) = AFTER.iter().find(|mark| lower.ends_with(*mark)) {
        return (true, text[..text.len() - mark.len()].trim_end());
    }
    (false, text)
}

/// How far a reading may be off, mm, and whether that is an error of its own.
pub fn error(car: &Car, side: Side, field: &TapeField) -> (f64, bool) {
    let reading = (field.reading)(&car.sides.get(side).tape);
    (car.tape_error.of(reading), reading.error.is_some())
}

/// How far readings may be off where they do not say, in a sentence.
pub fn error_words(car: &Car, notation: Notation) -> String {
    let length = |mm: f64| format_length(mm, notation);
    let errors = &car.tape_error;
    format!(
        "A reading may be off by {}, a guess by {}, where it has no error of its own.",
        length(errors.measured),
        length(errors.guessed.max(errors.measured))
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    #[test]
    fn a_guess_is_marked_as_on_the_sheet_or_as_people_write() {
        for text in [
            "3 3/4 G",
            "3 3/4g",
            "about 3 3/4",
            "~3 3/4",
            " 3 3/4 ? ",
            "Approx. 3 3/4",
        ] {
            assert_eq!(unmarked(text), (true, "3 3/4"), "{text}");
        }
        for text in ["3 3/4", "3 3/4 in", "95 mm", "", "wide"] {
            assert_eq!(unmarked(text), (false, text), "{text}");
        }
        assert_eq!(unmarked("g"), (true, ""));
    }

    #[test]
    fn a_reading_may_have_an_error_of_its_own() {
        let mut car = Car::clone(&opening::invented(0).expect("a car").car);
        let field = &TAPE_FIELDS[0];
        assert_eq!(error(&car, Side::Left, field), (3.175, false));
        let tape = &mut car.sides.left.tape;
        tape.to_rail = tape.to_rail.within(Some(1.0));
        assert_eq!(error(&car, Side::Left, field), (1.0, true));
        assert_eq!(error(&car, Side::Right, field), (3.175, false));
    }

    #[test]
    fn a_guess_is_never_surer_than_a_reading() {
        let mut car = Car::clone(&opening::invented(0).expect("a car").car);
        car.tape_error.guessed = 1.0;
        let words = error_words(&car, Notation::InchFractions);
        assert!(
            words.contains("off by 1/8 in, a guess by 1/8 in"),
            "{words}"
        );
    }

    #[test]
    fn guesses_are_counted_in_words() {
        assert_eq!(
            [0, 1, 5].map(count_words),
            [
                "all measured",
                "one is still a guess",
                "5 are still guesses"
            ]
        );
    }
}
