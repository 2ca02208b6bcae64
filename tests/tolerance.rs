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
use geometry::tolerance::{Band, Measurement, bands};

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

/// Holds the shares of one measurement to what the certified gaps do when it is moved by a step either way; gives how
/// many gaps it could be held for.
///
/// The gap is a least, so from one place on it can only grow slower than the place itself: the slope up to here is never
/// less than the frozen one, the slope from here never more, but for the frozen place's own curvature and the
/// certified width over the step. Where the two slopes agree, nothing jumps and the share must be that slope.
fn hold(name: &str, car: &Car, measurement: Measurement, change: impl Fn(&mut Car, f64)) -> usize {
    const WIDTH: f64 = 2.0 * ACCURACY / STEP;
    // A point that moves with a reading may do so on a curve of some decimeters' radius, and the tire is one as well;
    // the nearest place itself slides along with the reading.
    const CURVED: f64 = STEP * 2.0 / 50.0;
    // Deep inside a tire the nearest place lies on a ridge between two ways out, along which it is known only as well
    // as the square root of the accuracy over a radius of decimeters, and the mixture of the two with it.
    const DEEP: f64 = -30.0;
    const ON_RIDGE: f64 = 0.05;
    let (here, bands) = answers(car);
    let moved = |by: f64| {
        let mut car = car.clone();
        change(&mut car, by);
        answers(&car).0
    };
    let (less, more) = (moved(-STEP), moved(STEP));
    let mut held = 0;
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
                let near = if b < DEEP { ON_RIDGE } else { CURVED } + WIDTH;
                let told = format!(
                    "{name} {side:?} {} {which} {measurement:?}: {rate}, found {before} and {after}",
                    band.name
                );
                assert!(before >= rate - near && after <= rate + near, "{told}");
                if (before - after).abs() < CURVED {
                    assert!((rate - f64::midpoint(before, after)).abs() < near, "{told}");
                    held += usize::from(rate.abs() > 0.05);
                }
            }
        }
    }
    held
}

#[test]
fn readings_move_the_gaps_as_their_shares_say() {
    let mut held = 0;
    for (name, car) in cars() {
        for field in TAPE_FIELDS {
            let key = field.field.bound.key;
            held += hold(
                name,
                &car,
                Measurement::Reading(Side::Left, key),
                |car, by| {
                    let tape = &mut car.sides.left.tape;
                    let reading = (field.reading)(tape);
                    (field.set_reading)(
                        tape,
                        Reading {
                            value: reading.value + by,
                            ..reading
                        },
                    );
                },
            );
        }
    }
    assert!(held > 120, "only {held} could be held");
}

#[test]
fn axle_and_tire_move_the_gaps_as_their_shares_say() {
    let mut held = 0;
    for (name, mut car) in cars() {
        car.tire.section_width = Some(MeasuredWidth {
            width: car.section_width(),
            on_rim: car.wheel.rim_width,
        });
        car.tire.overall_diameter = Some(car.overall_diameter());
        car.axle.width += 5.0;
        held += hold(name, &car, Measurement::Axle, |car, by| {
            car.axle.measured_width += by;
        });
        held += hold(name, &car, Measurement::SectionWidth, |car, by| {
            let width = car.tire.section_width.as_mut().expect("it was measured");
            width.width += by;
        });
        held += hold(name, &car, Measurement::Diameter, |car, by| {
            *car.tire.overall_diameter.as_mut().expect("it was measured") += by;
        });
    }
    assert!(held > 80, "only {held} could be held");
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
