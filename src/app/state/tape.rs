//! Tape readings as they are entered: a reading that was taken moves the guesses that lean on it.

use geometry::body::Reading;
use geometry::body::tape::{TAPE_FIELDS, TapeField};
use geometry::car::Car;
use geometry::side::Side;

/// Enters a reading; guesses that were made from readings are made anew. A guess of somebody's own stays.
pub fn set(car: &mut Car, side: Side, field: &TapeField, reading: Reading) {
    let tape = &mut car.sides.get_mut(side).tape;
    let leaning: Vec<_> = TAPE_FIELDS
        .iter()
        .filter_map(|guessed| Some((guessed, guessed.guess?)))
        .filter(|(guessed, guess)| (guessed.reading)(tape) == Reading::guessed(guess(tape)))
        .collect();
    (field.set_reading)(tape, reading);
    for (guessed, guess) in leaning {
        if (guessed.reading)(tape).guess {
            let value = guess(tape);
            (guessed.set_reading)(tape, Reading::guessed(value));
        }
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    #[test]
    fn a_reading_moves_the_guesses_that_lean_on_it() {
        let mut car = Car::clone(&opening::invented(0).expect("a car").car);
        let named = |key| {
            TAPE_FIELDS
                .iter()
                .find(|field| field.field.bound.key == key)
                .expect("a field")
        };
        let opening_ahead = named("opening_ahead");
        let guess = opening_ahead.guess.expect("it can be guessed");
        let leaning = Reading::guessed(guess(&car.sides.left.tape));
        set(&mut car, Side::Left, opening_ahead, leaning);
        set(
            &mut car,
            Side::Left,
            named("wall_ahead"),
            Reading::measured(400.0),
        );
        assert_ne!(car.sides.left.tape.opening_ahead, leaning);
        assert_eq!(
            car.sides.left.tape.opening_ahead,
            Reading::guessed(guess(&car.sides.left.tape))
        );
        let before = guesses(&car);
        set(
            &mut car,
            Side::Left,
            opening_ahead,
            Reading::measured(380.0),
        );
        assert_eq!(
            (guesses(&car), car.sides.left.tape.opening_ahead.value),
            (before - 1, 380.0)
        );
    }

    #[test]
    fn a_guess_of_ones_own_stays() {
        let mut car = Car::clone(&opening::invented(0).expect("a car").car);
        car.sides.left.tape.opening_ahead = Reading::guessed(321.0);
        set(
            &mut car,
            Side::Left,
            &TAPE_FIELDS[0],
            Reading::measured(300.0),
        );
        assert_eq!(car.sides.left.tape.opening_ahead, Reading::guessed(321.0));
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
