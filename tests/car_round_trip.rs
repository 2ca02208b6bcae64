//! A car file that is written reads back to the same car.

use carfile::{SCENARIOS, Scenario, read, write};
use geometry::body::tape::TAPE_FIELDS;
use geometry::body::{NoCutZone, Obstacle, Reading, Station, StationTable, Surface};
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::car::{Car, PlugPractice};
use geometry::locator::{Locator, PivotOn};
use geometry::side::Side;
use geometry::space::{vec2, vec3};
use geometry::units::Notation;
use proptest::prelude::*;

/// The coupe's file, which the cars here are made of.
fn coupe() -> &'static str {
    SCENARIOS[0].text
}

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
    let text = coupe().replacen(
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

/// A car with every kind of thing in it, at odd numbers: a share of the way through each bound.
fn odd_car(shares: &[f64], texts: (String, String), locator: usize) -> Car {
    let mut car = read(coupe()).expect("the coupe is good");
    let mut shares = shares.iter().copied().cycle();
    let mut between = |least: f64, most: f64| least + (most - least) * shares.next().unwrap_or(0.5);
    (car.name, car.purpose) = texts;
    car.tire.widest_at = between(0.45, 0.55);
    car.tire.load = between(250.0, 350.0);
    car.tire.pressure = between(200.0, 250.0);
    car.axle.yaw = between(-0.01, 0.01);
    car.travel.bump = between(30.0, 60.0);
    car.tire.tread_width = Some(between(200.0, 240.0));
    car.travel.roll_limit = Some(between(0.01, 0.05));
    car.sides.left.tape.to_lip =
        Reading::measured(between(170.0, 190.0)).within(Some(between(0.0, 9.0)));
    car.sides.left.tape.kick_drop = car
        .sides
        .left
        .tape
        .kick_drop
        .within(Some(between(9.0, 90.0)));
    car.tape_error.axle = Some(between(0.0, 9.0));
    car.sides.right.tape.to_seam = Reading::guessed(between(20.0, 30.0));
    car.sides.right.tape.roof_fall = Reading::guessed(between(20.0, 30.0));
    car.sides.left.tape.lip_depth = Reading::measured(between(15.0, 25.0));
    car.tape_error.measured = between(0.0, 10.0);
    car.stock.track_width = Some(between(1300.0, 1500.0));
    car.stock.bump = Some(between(50.0, 90.0));
    car.metal.gauge = between(12.0, 24.0).round();
    car.metal.lap = between(10.0, 40.0);
    car.metal.plugs = PlugPractice::Repair;
    car.metal.pitch = Some(between(20.0, 60.0));
    car.metal.board = between(9.0, 25.0);
    let height = between(-50.0, 100.0);
    car.locator = match locator {
        0 => Locator::TrackBar {
            axle_end: vec2(between(300.0, 400.0), height),
            body_end: vec2(-between(300.0, 400.0), height),
        },
        1 => Locator::WattLink {
            height,
            pivot_on: PivotOn::Body,
        },
        2 => Locator::AngledLinks { height },
        _ => Locator::LeafSprings { height },
    };
    car.obstacles = vec![Obstacle {
        name: car.name.clone(),
        side: Side::Right,
        from: vec3(between(-400.0, -300.0), between(300.0, 400.0), 0.0),
        to: vec3(between(-400.0, -300.0), between(300.0, 400.0), 50.0),
        radius: between(10.0, 30.0),
    }];
    car.no_cut = vec![NoCutZone {
        name: format!("{}.", car.name),
        side: Side::Left,
        angles: [between(-1.0, -0.5), between(-0.4, 0.9)],
        along: [between(-300.0, 0.0), between(10.0, 600.0)],
    }];
    car
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
        assert_reads_back(&odd_car(&shares, (name, purpose), locator), Notation::ALL[notation]);
    }
}

#[test]
fn stations_read_back() {
    let mut car = read(coupe()).expect("the coupe is good");
    let station = |angle: f64| Station {
        angle,
        points: vec![
            vec2(921.3, 320.0),
            vec2(921.3, 340.0),
            vec2(921.3, 450.7),
            vec2(610.123, 476.0),
            vec2(606.0, 200.0),
        ],
        spans: vec![
            Surface::QuarterLip,
            Surface::OuterHalf,
            Surface::Roof,
            Surface::TubWall,
        ],
        seam: 2,
        fill: None,
    };
    car.sides.left.stations = Some(StationTable {
        stations: vec![station(-1.2), station(0.0), station(1.234_567_89)],
    });
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
