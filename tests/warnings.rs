//! Each warning at its edge: a hair within its limit it is silent, a hair beyond it speaks. And the car on its three
//! tires.

use carfile::{SCENARIOS, read};
use geometry::arrivals::three_tires;
use geometry::body::{Reading, StationTable, Surface};
use geometry::car::Car;
use geometry::check::check;
use geometry::model::Model;
use geometry::side::Side;
use geometry::tire::{Arrival, MeasuredWidth};
use geometry::units::{MM_PER_INCH, Notation};
use geometry::warnings::{Topic, Warning, warnings};

/// How closely the gaps are certified, mm.
const ACCURACY: f64 = 0.01;
/// A hair, mm.
const HAIR: f64 = 0.05;

/// The invented coupe on a rim that its tire goes on.
fn coupe() -> Car {
    let mut car = read(SCENARIOS[0].text).expect("it reads");
    car.wheel.rim_width = 9.0 * MM_PER_INCH;
    car
}

fn told(car: &Car) -> Vec<Warning> {
    let model = Model::new(car).unwrap_or_else(|faults| panic!("{faults:?}"));
    warnings(&model, &check(&model, ACCURACY))
}

/// Holds a warning to its edge: it is not there at `change(car, -HAIR)` and is at `change(car, HAIR)`; gives it.
#[track_caller]
fn edge(topic: Topic, change: impl Fn(&mut Car, f64)) -> Warning {
    let at = |by: f64| {
        let mut car = coupe();
        change(&mut car, by);
        told(&car)
            .into_iter()
            .find(|warning| warning.topic == topic)
    };
    assert_eq!(at(-HAIR), None, "{topic:?} speaks too early");
    at(HAIR).unwrap_or_else(|| panic!("{topic:?} is silent"))
}

#[test]
fn a_sound_car_gives_no_cause() {
    assert_eq!(told(&coupe()), []);
}

#[test]
fn a_rim_out_of_the_tires_range_is_told() {
    // 275/60R15 is measured on 8 in (UN Regulation No. 30 with ETRTO's K1, from memory): 7 to 9.5 in.
    let wide = edge(Topic::WideRim, |car, by| {
        car.wheel.rim_width = 9.5 * MM_PER_INCH + by;
    });
    assert!((wide.limit - 241.3).abs() < 1e-9);
    let narrow = edge(Topic::NarrowRim, |car, by| {
        car.wheel.rim_width = 7.0 * MM_PER_INCH - by;
    });
    assert!((narrow.limit - 177.8).abs() < 1e-9);
    assert_eq!(
        narrow.words(Notation::InchFractions),
        "The rim, 7 in, is narrower than the lists have for this tire: they begin at 7 in."
    );
}

#[test]
fn a_track_wider_than_the_makers_is_told() {
    // C3: NSW VSI 9 has 25 mm, South Australia's r. 25 has 26 mm.
    let track = edge(Topic::Track, |car, by| {
        car.stock.track_width = Some(car.track_width() - 25.0 - by);
    });
    assert!(track.source.contains("VSI 9") && (track.found - 25.0 - HAIR).abs() < 1e-9);
    let narrower = |car: &mut Car| car.stock.track_width = Some(car.track_width() + 40.0);
    let mut car = coupe();
    narrower(&mut car);
    assert_eq!(told(&car), []);
}

#[test]
fn bump_travel_cut_by_more_than_a_third_is_told() {
    // C3: NSW VSI 9: not more than a third of static-to-bump travel.
    let bump = edge(Topic::Bump, |car, by| {
        car.stock.bump = Some(90.0);
        car.travel.bump = 60.0 - by;
    });
    assert!((bump.limit - 30.0).abs() < 1e-9);
}

#[test]
fn tread_outside_the_body_is_told() {
    // C1: EU 2021/535 annex V: covered from 30 degrees ahead to 50 degrees behind.
    let tread = edge(Topic::Tread, |car, by| {
        let model = Model::new(car).expect("it has a model");
        let edge = f64::midpoint(car.track_width(), model.tire.tread_width);
        let lip = car.axle.measured_face()
            + car.sides.left.tape.to_lip.value
            + car.sides.left.tape.lip_thickness.value;
        car.axle.width += 2.0 * (lip - edge + by);
    });
    assert_eq!(tread.side, Some(Side::Left));
    assert!((tread.found - HAIR).abs() < 1e-6);
    let rear = edge(Topic::RearEdge, |car, by| {
        // The body ends 60 degrees behind straight up.
        let face = car.axle.measured_face();
        let mut table = StationTable::from_tape(&car.sides.left.tape, face).expect("stations");
        table.stations.retain(|station| station.angle > -1.1);
        let lip = table.stations[0].points[0].y / 2.0;
        car.sides.left.stations = Some(table);
        car.travel.ride_change = 150.0 - lip + by;
    });
    assert!((rear.limit - 150.0).abs() < 1e-9);
}

#[test]
fn a_rail_within_the_run_out_is_told() {
    let gap = |car: &Car| {
        let model = Model::new(car).expect("it has a model");
        let check = check(&model, ACCURACY);
        let surfaces = check.sides.left.surfaces;
        let rail = surfaces
            .into_iter()
            .find(|one| one.id.surface == Surface::FrameRail);
        rail.expect("a rail").travel.low
    };
    // Only the left rail comes near.
    let near = |car: &mut Car| car.sides.left.tape.to_rail = Reading::measured(190.0);
    let mut car = coupe();
    near(&mut car);
    let found = gap(&car);
    assert!((0.0..24.0).contains(&found), "{found}");
    let warning = edge(Topic::RunOut, |car, by| {
        near(car);
        car.wheel.run_out = found + by;
    });
    assert_eq!(warning.side, Some(Side::Left));
    assert!(
        warning
            .words(Notation::Millimeters)
            .contains("of the frame rail")
    );
}

#[test]
fn sides_that_differ_by_more_than_the_tapes_error_are_told() {
    let unequal = edge(Topic::Unequal, |car, by| {
        let roof = car.sides.left.tape.roof_up.value;
        car.sides.right.tape.roof_up = Reading::measured(roof + car.tape_error.measured + by);
    });
    assert_eq!(unequal.reading, Some("Axle center up to roof"));
    let mut car = coupe();
    car.sides.right.tape.roof_fall = Reading::guessed(40.0);
    assert_eq!(told(&car), [], "a guess says nothing about the body");
}

#[test]
fn three_tires_grow_one_after_the_other() {
    let mut car = coupe();
    car.tire.growth = 25.4;
    let answers = three_tires(&car, ACCURACY);
    assert_eq!(answers.each_ref().map(|answer| answer.tire), Arrival::ALL);
    let [nominal, largest, at_speed] = answers;
    // T9's factors: UN Regulation No. 30, 6.1.5 (from memory): 1.04 for a radial.
    assert!((largest.section_width - 1.04 * nominal.section_width).abs() < 1e-9);
    assert!((at_speed.diameter - nominal.diameter - 25.4).abs() < 1e-9);
    let least = |answer: &geometry::arrivals::TireAnswer| {
        let check = answer.check.as_ref().expect("it has a model");
        let gaps = check
            .sides
            .left
            .surfaces
            .iter()
            .map(|surface| surface.travel.low);
        gaps.fold(f64::INFINITY, f64::min)
    };
    assert!(least(&largest) < least(&nominal) && least(&at_speed) < least(&nominal));

    car.tire.section_width = Some(MeasuredWidth {
        width: 300.0,
        on_rim: car.wheel.rim_width,
    });
    let [nominal, largest, _] = three_tires(&car, ACCURACY);
    assert!(
        (nominal.section_width - largest.section_width).abs() < 1e-9,
        "it has arrived already"
    );
}
