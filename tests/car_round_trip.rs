//! A car file that is written reads back to the same car.

mod cars;

use carfile::{SCENARIOS, Scenario, read, write};
use geometry::body::tape::TAPE_FIELDS;
use geometry::body::{Reading, Surface};
use geometry::car::Car;
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::locator::Locator;
use geometry::model::Model;
use geometry::side::Side;
use geometry::units::Notation;
use proptest::prelude::*;

#[test]
fn scenarios_are_read_written_and_read_again() {
    for Scenario { name, text } in SCENARIOS {
        let car = read(text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"));
        assert!(
            car.name.contains("invented") && car.purpose.ends_with('.'),
            "{name}"
        );
        for notation in Notation::ALL {
            assert_reads_back(&car, notation);
        }
    }
}

#[test]
fn a_side_overrides_what_both_have() {
    let text = cars::coupe().replacen(
        "[tape]",
        "[left.tape]\nto_lip = \"7 1/2\"\nlip_depth = 1\n\n[tape]",
        1,
    );
    let car = read(&text).expect("a good file");
    assert_eq!(car.sides.left.tape.to_lip, Reading::measured(190.5));
    assert!(car.sides.right.tape.to_lip.value < 190.0);
    assert_eq!(car.sides.left.tape.lip_depth, Reading::measured(25.4));
    assert_eq!(car.sides.right.tape.lip_depth, Reading::guessed(19.05));
}

/// 700 mm are 27.559055118110 in, which are a hair less than 700 mm: a file may not refuse what it was given.
#[test]
fn a_car_at_the_ends_of_its_bounds_reads_back() {
    let coupe = read(cars::coupe()).expect("the coupe is good");
    let mut at_an_end = Vec::new();
    for field in CAR_FIELDS {
        for end in [field.bound.least, field.bound.most] {
            let mut car = coupe.clone();
            (field.set)(&mut car, end);
            at_an_end.push((field.bound.key, car));
        }
    }
    for field in OPTIONAL_FIELDS {
        for end in [field.bound.least, field.bound.most] {
            let mut car = coupe.clone();
            (field.set)(&mut car, Some(end));
            at_an_end.push((field.bound.key, car));
        }
    }
    let mut least = cars::odd(&[0.5], (String::new(), String::new()), 0);
    least.obstacles[0].radius = 0.5;
    at_an_end.push(("obstacle.radius", least));
    // Most ends do not go with the rest of the coupe; those are refused for what they are.
    let sound = |(_, car): &(_, Car)| Model::new(car).is_ok();
    let tried: Vec<_> = at_an_end.into_iter().filter(sound).collect();
    for key in ["travel.roll_limit", "obstacle.radius", "metal.board"] {
        assert!(
            tried.iter().any(|(one, _)| *one == key),
            "{key} is not tried"
        );
    }
    for (_, car) in tried {
        for notation in Notation::ALL {
            assert_reads_back(&car, notation);
        }
    }
}

/// The car's file, read back, is the same car to a billionth of a millimeter, and says the same when
/// it is written again.
#[track_caller]
fn assert_reads_back(car: &Car, notation: Notation) {
    let text = write(car, notation);
    let back = read(&text).unwrap_or_else(|faults| panic!("{faults:#?}\n{text}"));
    for field in CAR_FIELDS {
        assert_near((field.get)(&back), (field.get)(car), field.bound.key);
    }
    for field in OPTIONAL_FIELDS {
        let (read, meant) = ((field.get)(&back), (field.get)(car));
        assert_eq!(read.is_some(), meant.is_some(), "{}", field.bound.key);
        assert_near(read.unwrap_or(0.0), meant.unwrap_or(0.0), field.bound.key);
    }
    for side in Side::BOTH {
        for field in TAPE_FIELDS {
            let read = (field.reading)(&back.sides.get(side).tape);
            let meant = (field.reading)(&car.sides.get(side).tape);
            assert_eq!(read.guess, meant.guess, "{}", field.field.bound.key);
            assert_near(read.value, meant.value, field.field.bound.key);
            assert_eq!(
                read.error.is_some(),
                meant.error.is_some(),
                "{}",
                field.field.bound.key
            );
            assert_near(
                read.error.unwrap_or(0.0),
                meant.error.unwrap_or(0.0),
                "error",
            );
        }
    }
    let words = |car: &Car| {
        (
            car.name.clone(),
            car.purpose.clone(),
            car.tire.designation.clone(),
            car.tire.arrival,
            car.metal.plugs,
            car.shop.clone(),
            car.no_cut
                .iter()
                .map(|zone| (zone.name.clone(), zone.side))
                .collect::<Vec<_>>(),
        )
    };
    assert_eq!(words(&back), words(car));
    let (read, meant) = (coordinates(&back), coordinates(car));
    assert_eq!(read.len(), meant.len());
    for (read, meant) in read.into_iter().zip(meant) {
        assert_near(read, meant, "coordinate");
    }
    assert_eq!(write(&back, notation), text);
}

/// Every number of locator, parts, zones and stations.
fn coordinates(car: &Car) -> Vec<f64> {
    let mut numbers = match car.locator {
        Locator::TrackBar { axle_end, body_end } => {
            vec![axle_end.x, axle_end.y, body_end.x, body_end.y]
        }
        Locator::WattLink { height, .. }
        | Locator::AngledLinks { height }
        | Locator::LeafSprings { height } => vec![height],
    };
    for part in &car.obstacles {
        numbers.extend(
            [part.from, part.to]
                .iter()
                .flat_map(|end| [end.x, end.y, end.z]),
        );
        numbers.push(part.radius);
    }
    for zone in &car.no_cut {
        numbers.extend(zone.angles.into_iter().chain(zone.along));
    }
    for (_, side) in car.sides.iter() {
        for station in side.stations.iter().flat_map(|table| &table.stations) {
            numbers.push(station.angle);
            numbers.extend(station.points.iter().flat_map(|point| [point.x, point.y]));
        }
    }
    numbers
}

#[track_caller]
fn assert_near(read: f64, meant: f64, key: &str) {
    assert!((read - meant).abs() <= 1e-9, "{key}: {read}, not {meant}");
}

proptest! {
    // A failing car is told in the message; it need not be kept in a file.
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn any_car_reads_back(
        shares in prop::collection::vec(0.0..1.0_f64, 7),
        name in "\\PC{0,20}",
        purpose in "(?s).{0,20}",
        locator in 0..4_usize,
        notation in 0..3_usize,
    ) {
        assert_reads_back(&cars::odd(&shares, (name, purpose), locator), Notation::ALL[notation]);
    }
}

#[test]
fn stations_read_back() {
    let car = cars::with_stations();
    let text = write(&car, Notation::InchDecimals);
    assert!(text.contains("[[left.station]]"));
    let back = read(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let spans = |car: &Car| -> Vec<(Vec<Surface>, usize)> {
        let table = car
            .sides
            .left
            .stations
            .iter()
            .flat_map(|table| &table.stations);
        table
            .map(|station| (station.spans.clone(), station.seam))
            .collect()
    };
    assert_eq!(spans(&back), spans(&car));
    assert_reads_back(&car, Notation::InchDecimals);
}
