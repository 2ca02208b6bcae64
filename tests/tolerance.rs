//! The bands against the certified gap itself, on the invented cars: a reading that is off moves the gap by what its
//! share says, wherever the nearest place does not jump.

use carfile::{SCENARIOS, read};
use geometry::body::tape::TAPE_FIELDS;
use geometry::body::{Reading, Surface, SurfaceId};
use geometry::car::{Car, TapeError};
use geometry::check::{Check, SurfaceCheck, Verdict, check};
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::tire::MeasuredWidth;
use geometry::tolerance::{Band, Measurement, Share, bands};

/// How closely the gaps are certified, mm.
const ACCURACY: f64 = 1e-4;
/// How far a reading is moved, mm.
const STEP: f64 = 0.25;

fn cars() -> Vec<(&'static str, Car)> {
    let read =
        |scenario: &carfile::Scenario| (scenario.name, read(scenario.text).expect("it reads"));
    SCENARIOS.iter().map(read).collect()
}

fn answers(car: &Car) -> (Check, Sides<Vec<Band>>) {
    let model = Model::new(car).expect("it has a model");
    let check = check(&model, ACCURACY);
    let bands = bands(&model, &check);
    (check, bands)
}

fn surface(check: &Check, side: Side, id: SurfaceId) -> &SurfaceCheck {
    let surfaces = &check.sides.get(side).surfaces;
    surfaces
        .iter()
        .find(|surface| surface.id == id)
        .expect("the same surfaces")
}

/// How many gaps a measurement is said to move, and for how many of them that could be held to the certified gap.
#[derive(Debug, Clone, Copy, Default)]
struct Held {
    said: usize,
    held: usize,
}

/// Holds the shares of one measurement to what the certified gaps do when it is moved by a step either way.
///
/// The share lies between the slope up to here and the slope from here: where the nearest place or pose jumps, the gap,
/// which is a least, grows slower from the jump on; on the ridge between two ways out of a tire it may bend either way.
/// Where the two slopes agree, nothing jumps, and the share must be that slope.
fn hold(
    name: &str,
    car: &Car,
    measurement: Measurement,
    change: impl Fn(&mut Car, f64),
    of: &mut Held,
) {
    // What the certified width does to a slope.
    const WIDTH: f64 = 2.0 * ACCURACY / STEP;
    // Tires, corners of sheet and the curves on which readings move its points have radii of some centimeters and
    // more; the nearest place slides along with the reading. A slope so turns by no more than two steps over a radius.
    const CURVED: f64 = STEP * 2.0 / 50.0;
    const NEAR: f64 = CURVED + WIDTH;
    let (here, bands) = answers(car);
    let moved = |by: f64| {
        let mut car = car.clone();
        change(&mut car, by);
        answers(&car).0
    };
    let (less, more) = (moved(-STEP), moved(STEP));
    for (side, list) in bands.iter() {
        for band in list {
            let at = |check| surface(check, side, band.id);
            let gaps = |f: fn(&SurfaceCheck) -> f64| [f(at(&less)), f(at(&here)), f(at(&more))];
            for (which, spread, [a, b, c]) in [
                ("ride", &band.ride, gaps(|surface| surface.ride.high)),
                ("travel", &band.travel, gaps(|surface| surface.travel.high)),
            ] {
                let share = spread
                    .shares
                    .iter()
                    .find(|share| share.measurement == measurement);
                let rate = share.map_or(0.0, |share| share.rate);
                let (before, after) = ((b - a) / STEP, (c - b) / STEP);
                let told = format!(
                    "{name} {side:?} {} {which} {measurement:?}: {rate}, found {before} and {after}",
                    band.name
                );
                let between = before.min(after) - NEAR..=before.max(after) + NEAR;
                assert!(between.contains(&rate), "{told}");
                // A rate that is no more than the closeness it is held to shows nothing.
                let counts = usize::from(rate.abs() > NEAR);
                of.said += counts;
                if (before - after).abs() < CURVED {
                    assert!((rate - f64::midpoint(before, after)).abs() < NEAR, "{told}");
                    of.held += counts;
                }
            }
        }
    }
}

/// A measurement that is said to move gaps was held for one of them at least.
#[track_caller]
fn was_held(measurement: &str, of: Held) {
    assert!(of.said == 0 || of.held > 0, "{measurement}: {of:?}");
}

#[test]
fn readings_move_the_gaps_as_their_shares_say() {
    for field in TAPE_FIELDS {
        let key = field.field.bound.key;
        let mut of = Held::default();
        for (name, car) in cars() {
            let change = |car: &mut Car, by: f64| {
                let tape = &mut car.sides.left.tape;
                let reading = (field.reading)(tape);
                let value = reading.value + by;
                tape.retake(field, Reading { value, ..reading });
            };
            hold(
                name,
                &car,
                Measurement::Reading(Side::Left, key),
                change,
                &mut of,
            );
        }
        was_held(key, of);
    }
}

#[test]
fn axle_and_tire_move_the_gaps_as_their_shares_say() {
    let [mut axle, mut width, mut diameter] = [Held::default(); 3];
    for (name, mut car) in cars() {
        car.tire.section_width = Some(MeasuredWidth {
            width: car.section_width(),
            on_rim: car.wheel.rim_width,
        });
        car.tire.overall_diameter = Some(car.overall_diameter());
        car.axle.width += 5.0;
        let longer = |car: &mut Car, by: f64| car.axle.measured_width += by;
        hold(name, &car, Measurement::Axle, longer, &mut axle);
        let wider = |car: &mut Car, by: f64| {
            let width = car.tire.section_width.as_mut().expect("it was measured");
            width.width += by;
        };
        hold(name, &car, Measurement::SectionWidth, wider, &mut width);
        let taller = |car: &mut Car, by: f64| {
            *car.tire.overall_diameter.as_mut().expect("it was measured") += by;
        };
        hold(name, &car, Measurement::Diameter, taller, &mut diameter);
    }
    for (name, of) in [("axle", axle), ("width", width), ("diameter", diameter)] {
        assert!(of.said > 0, "{name} moves no gap");
        was_held(name, of);
    }
}

/// The share that a measurement has in the left lip's gap at ride height.
fn lip_share(car: &Car, measurement: Measurement) -> Option<Share> {
    let bands = answers(car).1;
    let mut bands = bands.left.into_iter();
    let lip = bands.find(|band| band.id == Surface::QuarterLip.into())?;
    let mut shares = lip.ride.shares.into_iter();
    shares.find(|share| share.measurement == measurement)
}

#[test]
fn a_guess_leans_on_its_reading_and_is_never_surer_than_one() {
    let wall = Measurement::Reading(Side::Left, "wall_behind");
    let opening = Measurement::Reading(Side::Left, "opening_behind");
    // On the sedan the opening behind is guessed from the wall behind.
    let (_, sedan) = cars().pop().expect("the sedan");
    assert!(sedan.sides.left.tape.opening_behind.guess);
    let (of_wall, of_opening) = (lip_share(&sedan, wall), lip_share(&sedan, opening));
    let (of_wall, of_opening) = (of_wall.expect("a share"), of_opening.expect("a share"));
    assert!((of_wall.rate - of_opening.rate).abs() < 1e-6 && of_wall.rate.abs() > 0.01);
    assert!(of_opening.error > of_wall.error);

    // Once it is measured it stands on its own.
    let mut measured = sedan.clone();
    let reading = measured.sides.left.tape.opening_behind;
    measured.sides.left.tape.opening_behind = Reading::measured(reading.value);
    assert_eq!(lip_share(&measured, wall), None);

    // Whoever thinks a guess surer than a tape is not believed; a reading's own error is.
    let mut sure = sedan.clone();
    sure.tape_error.guessed = 0.5;
    sure.sides.left.tape.wall_behind.error = Some(1.0);
    sure.sides.left.tape.opening_behind.error = Some(0.5);
    let error = |measurement| lip_share(&sure, measurement).map(|share| share.error);
    assert_eq!(error(opening), Some(sure.tape_error.measured));
    assert_eq!(error(wall), Some(1.0));
}

#[test]
fn a_verdict_within_the_band_asks_for_the_reading_that_matters_most() {
    let (_, mut car) = cars().remove(0);
    car.targets.ride = 0.0;
    let (check, bands) = answers(&car);
    let wall = |bands: &Sides<Vec<Band>>| {
        let walls = bands.left.iter();
        let mut walls = walls.filter(|band| band.id == Surface::TubWall.into());
        walls.next().expect("a tub wall").clone()
    };
    let band = wall(&bands);
    let gap = surface(&check, Side::Left, band.id).travel.low;
    assert!(!band.ride_decides && gap < -band.travel.rss);
    assert_eq!(
        (band.could_be, band.measure_again()),
        (None, None),
        "it hits in any case"
    );
    assert!(band.travel.worst > band.travel.rss && band.travel.rss > 0.0);
    let effects = band
        .travel
        .shares
        .iter()
        .map(geometry::tolerance::Share::effect);
    let squares: f64 = effects.map(|effect| effect * effect).sum();
    assert!((squares.sqrt() - band.travel.rss).abs() < 1e-9);

    // Far enough inboard it only just clears; a band's width further it clears for sure.
    let moved = |reserve: f64| {
        let mut car = car.clone();
        car.targets.travel = gap_with_seam(&car) - reserve;
        car.sides.left.seam_move = 80.0;
        wall(&answers(&car).1)
    };
    let unsure = moved(0.5 * moved(0.0).travel.rss);
    assert_eq!(unsure.could_be, Some([Verdict::Tight, Verdict::Clears]));
    let again = unsure.measure_again().expect("a reading");
    assert!(
        matches!(
            again,
            Measurement::Reading(Side::Left, "to_tub_high" | "to_tub_low")
        ),
        "{again:?}"
    );
    assert!(again.words(&car).contains("to tub wall"));
    assert_eq!(moved(1.5 * unsure.travel.rss).could_be, None);

    let mut exact = car.clone();
    exact.tape_error = TapeError {
        measured: 0.0,
        guessed: 0.0,
        ..TapeError::default()
    };
    assert!(wall(&answers(&exact).1).travel.worst.abs() < 1e-12);
}

/// The least gap of the left tub wall with the seam well inboard, mm.
fn gap_with_seam(car: &Car) -> f64 {
    let mut car = car.clone();
    car.sides.left.seam_move = 80.0;
    let check = check(&Model::new(&car).expect("it has a model"), ACCURACY);
    surface(&check, Side::Left, Surface::TubWall.into())
        .travel
        .low
}

#[test]
fn an_axle_that_stays_moves_with_the_body_that_was_measured_from_it() {
    let (_, car) = cars().remove(0);
    let side_rate = |car: &Car| {
        let bands = answers(car).1;
        let band = bands
            .left
            .iter()
            .find(|band| band.id == Surface::TubWall.into());
        let shares = &band.expect("a tub wall").ride.shares;
        let share = shares
            .iter()
            .find(|share| share.measurement == Measurement::Axle);
        share.map_or(0.0, |share| share.rate)
    };
    assert!(side_rate(&car).abs() < 1e-3);
    let mut narrowed = car.clone();
    narrowed.axle.width -= 20.0;
    assert!(
        (side_rate(&narrowed) + 0.5).abs() < 0.05,
        "a face half as far out a side"
    );
}
