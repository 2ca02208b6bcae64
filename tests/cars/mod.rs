//! Cars to write and read again, that more than one test is made of.

use carfile::{SCENARIOS, read};
use geometry::body::{NoCutZone, Obstacle, Reading, Station, StationTable, Surface};
use geometry::car::{Car, PlugPractice};
use geometry::locator::{Locator, PivotOn};
use geometry::side::Side;
use geometry::space::{vec2, vec3};

/// The coupe's file, which the cars here are made of.
pub fn coupe() -> &'static str {
    SCENARIOS[0].text
}

/// A car with every kind of thing in it, at odd numbers: a share of the way through each bound.
pub fn odd(shares: &[f64], texts: (String, String), locator: usize) -> Car {
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
    car.shop.name = format!("Shop \"{}\"", car.name);
    car.shop.notes = String::from("A line,\nand another: \\ tabs\tand all.");
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

/// The coupe with its left wheelhouse measured as stations.
pub fn with_stations() -> Car {
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
    car
}
