//! A car with as much in it as may be entered.

use carfile::{FOUND, MANY, MAX_BYTES, SCENARIOS, STATION_ANGLE, read, write};
use geometry::body::{NoCutZone, Obstacle, Station, StationTable, Surface};
use geometry::car::{Car, FoundGap};
use geometry::side::Side;
use geometry::space::{vec2, vec3};
use geometry::travel::Pose;
use geometry::units::Notation;

/// The fuzzer found that what could be entered could not always be opened again.
#[test]
fn the_largest_car_is_not_too_long_to_be_read() {
    let mut car = read(SCENARIOS[0].text).expect("the coupe reads");
    // A control character takes six bytes in a file; a number that no unit makes round, all the digits it may have.
    let name = "\u{2}".repeat(Car::LONGEST_NAME);
    let digits = |base: f64, i: usize| base + i as f64 / 7.0;
    car.name.clone_from(&name);
    car.shop.name.clone_from(&name);
    car.purpose = "\u{2}".repeat(Car::LONGEST_NOTES);
    car.shop.notes.clone_from(&car.purpose);
    let station = |k: usize| Station {
        angle: STATION_ANGLE.least + (STATION_ANGLE.most - STATION_ANGLE.least) * k as f64 / 211.0,
        points: (0..MANY)
            .map(|i| vec2(digits(1000.0, i + k), digits(1500.0, i)))
            .collect(),
        // The longest word for a surface.
        spans: vec![Surface::QuarterLip; MANY - 1],
        seam: MANY - 1,
        fill: Some(MANY - 2),
    };
    let table = StationTable {
        stations: (0..MANY).map(station).collect(),
    };
    for side in Side::BOTH {
        car.sides.get_mut(side).stations = Some(table.clone());
    }
    let place = |i| vec3(-digits(1000.0, i), digits(1000.0, i), -digits(1500.0, i));
    let part = |i| Obstacle {
        name: name.clone(),
        side: Side::Right,
        from: place(i),
        to: place(i + 1),
        radius: digits(100.0, i),
    };
    let zone = |i| NoCutZone {
        name: name.clone(),
        side: Side::Right,
        angles: [-2.0 - digits(0.0, i) / 211.0, 1.0],
        along: [-digits(1000.0, i), digits(1000.0, i)],
    };
    car.obstacles = (0..MANY).map(part).collect();
    car.no_cut = (0..MANY).map(zone).collect();
    let found = |i| FoundGap {
        side: Side::Right,
        id: Surface::QuarterLip.into(),
        pose: Pose {
            left: -digits(100.0, i),
            right: -digits(200.0, i),
            give: -digits(0.0, i),
        },
        gap: digits(100.0, i),
    };
    car.found = (0..FOUND).map(found).collect();
    for notation in Notation::ALL {
        let length = write(&car, notation).len();
        assert!(length <= MAX_BYTES, "{notation:?}: {length} bytes");
    }
}
