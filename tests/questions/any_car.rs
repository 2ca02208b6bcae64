//! Any car within its bounds: one of the invented cars, and changes to it, each told by a few bytes.

use carfile::{MANY, SCENARIOS, STATION_ANGLE, STATION_POINT, read};
use geometry::body::tape::{READING_ERROR, TAPE_FIELDS};
use geometry::body::{NoCutZone, Obstacle, Reading, Station, StationTable, Surface, SurfaceId};
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::car::{Car, FoundGap, PlugPractice};
use geometry::field::Bound;
use geometry::locator::{Locator, PivotOn};
use geometry::side::Side;
use geometry::space::{Vec2, Vec3, vec2, vec3};
use geometry::tire::{Arrival, Designation};
use geometry::travel::Pose;

use crate::source::Source;

/// The most changes to one car.
const CHANGES: usize = 24;

/// The car that the bytes stand for; what is left of them is for the one who asks.
pub fn car(source: &mut Source<'_>) -> Car {
    let file = source.choice(SCENARIOS);
    let mut car = read(file.text).unwrap_or_else(|faults| panic!("{}: {faults:#?}", file.name));
    let changes = source.below(CHANGES + 1);
    for _ in 0..changes {
        change(&mut car, source);
    }
    car
}

fn change(car: &mut Car, source: &mut Source<'_>) {
    match source.below(12) {
        0..=2 => {
            let field = source.choice(CAR_FIELDS);
            let value = source.within(&field.bound, (field.get)(car));
            (field.set)(car, value);
        }
        3 => {
            let field = source.choice(OPTIONAL_FIELDS);
            let value = source.flag().then(|| {
                let present = (field.get)(car).unwrap_or(field.bound.least);
                source.within(&field.bound, present)
            });
            (field.set)(car, value);
        }
        4 | 5 => read_again(car, source),
        6 => tire(car, source),
        7 => car.locator = locator(source),
        8 => part(car, source),
        9 => zone(car, source),
        10 => stations(car, source),
        _ => words(car, source),
    }
}

/// A tape reading, on one side or both.
fn read_again(car: &mut Car, source: &mut Source<'_>) {
    let field = source.choice(TAPE_FIELDS);
    let sides = [&Side::BOTH[..], &Side::BOTH[..1], &Side::BOTH[1..]][source.below(3)];
    let present = (field.field.get)(&car.sides.get(sides[0]).tape);
    let value = source.within(&field.field.bound, present);
    let error = source.flag().then(|| source.within(&READING_ERROR, 0.0));
    let guess = source.flag();
    for &side in sides {
        let reading = Reading {
            value,
            guess,
            error,
        };
        (field.set_reading)(&mut car.sides.get_mut(side).tape, reading);
    }
}

/// A tire of any printed size that reads.
fn tire(car: &mut Car, source: &mut Source<'_>) {
    car.tire.arrival = *source.choice(&Arrival::ALL);
    let construction = *source.choice(&["R", "-", "B"]);
    let rim = 8.0 + source.below(45) as f64 / 2.0;
    let text = match source.below(4) {
        0 => {
            let (width, aspect) = (80 + source.below(85) * 5, 20 + source.below(17) * 5);
            format!("{width}/{aspect}{construction}{rim}")
        }
        1 => {
            let (diameter, width) = (source.between(15.0, 60.0), source.between(3.0, 25.0));
            format!("{diameter:.1}x{width:.1}{construction}{rim}LT")
        }
        2 => {
            let (diameter, width) = (source.between(15.0, 60.0), source.between(3.0, 25.0));
            format!("{diameter:.1}x{width:.1}{construction}{rim}")
        }
        _ => format!("{:.2}{construction}{rim}", source.between(3.0, 25.0)),
    };
    if let Ok(size) = Designation::parse(&text) {
        car.tire.designation = size;
    }
}

fn locator(source: &mut Source<'_>) -> Locator {
    let height = source.between(-600.0, 800.0);
    match source.below(5) {
        0 => Locator::TrackBar {
            axle_end: coordinates(source),
            body_end: coordinates(source),
        },
        1 => Locator::WattLink {
            height,
            pivot_on: PivotOn::Axle,
        },
        2 => Locator::WattLink {
            height,
            pivot_on: PivotOn::Body,
        },
        3 => Locator::AngledLinks { height },
        _ => Locator::LeafSprings { height },
    }
}

fn coordinates(source: &mut Source<'_>) -> Vec2 {
    vec2(
        source.between(-2000.0, 2000.0),
        source.between(-2000.0, 2000.0),
    )
}

/// A place near the tire, or anywhere that a file may put it.
fn place(source: &mut Source<'_>) -> Vec3 {
    let reach = if source.flag() { 2000.0 } else { 500.0 };
    let mut coordinate =
        |middle: f64| (middle + source.between(-reach, reach)).clamp(-2000.0, 2000.0);
    vec3(coordinate(0.0), coordinate(700.0), coordinate(0.0))
}

/// One part more, with a gap found to it, or one fewer.
fn part(car: &mut Car, source: &mut Source<'_>) {
    if source.below(4) == 0 {
        if let Some(last) = car.obstacles.len().checked_sub(1) {
            car.remove_obstacle(last);
        }
        return;
    }
    let part = Obstacle {
        name: name(source),
        side: *source.choice(&Side::BOTH),
        from: place(source),
        to: place(source),
        radius: source.between(0.5, 300.0),
    };
    let pose = |length: f64| length.clamp(FoundGap::POSE.least, FoundGap::POSE.most);
    car.found.push(FoundGap {
        side: part.side,
        id: SurfaceId {
            surface: Surface::Obstacle,
            index: car.obstacles.len(),
        },
        pose: Pose {
            left: pose(part.from.x),
            right: pose(part.from.z),
            give: pose(part.to.x),
        },
        gap: part.radius,
    });
    car.obstacles.push(part);
}

/// One no-cut zone more, or one fewer.
fn zone(car: &mut Car, source: &mut Source<'_>) {
    if source.below(4) == 0 {
        car.no_cut.pop();
        return;
    }
    let mut rising = |bound: &Bound| {
        let ends = [bound.least, bound.most].map(|end| source.within(bound, end));
        [ends[0].min(ends[1]), ends[0].max(ends[1])]
    };
    let (angles, along) = (rising(&NoCutZone::ANGLE), rising(&NoCutZone::ALONG));
    let name = format!("z{}", name(source));
    car.no_cut.push(NoCutZone {
        name,
        side: *source.choice(&Side::BOTH),
        angles,
        along,
    });
}

/// A side measured as stations: its readings' own with points moved, thinned to a few, or any at all; or readings again.
fn stations(car: &mut Car, source: &mut Source<'_>) {
    let side = *source.choice(&Side::BOTH);
    let spec = car.sides.get(side);
    let of_tape = || StationTable::from_tape(&spec.tape, car.axle.measured_face()).ok();
    let present = spec.stations.clone().or_else(of_tape);
    let table = match (source.below(7), present) {
        (0, _) => None,
        (1, _) | (_, None) => Some(any_table(source)),
        (2, Some(mut table)) => {
            for _ in 0..source.below(8) {
                let count = table.stations.len();
                let station = &mut table.stations[source.below(count)];
                let at = source.below(station.points.len());
                station.points[at] = moved(station.points[at], source);
            }
            Some(table)
        }
        (3, Some(mut table)) => {
            let (from, to) = (
                source.below(table.stations.len()),
                source.below(table.stations.len()),
            );
            table.stations = table.stations[from.min(to)..=from.max(to)].to_vec();
            Some(table)
        }
        (4, Some(mut table)) => {
            let count = table.stations.len();
            let station = &mut table.stations[source.below(count)];
            station.angle = source.within(&STATION_ANGLE, station.angle);
            Some(table)
        }
        (5, Some(table)) => Some(dense(&table, source)),
        (_, Some(mut table)) => {
            // Points on top of one another, in every station.
            let count = table
                .stations
                .first()
                .map_or(1, |station| station.points.len());
            let (from, to) = (source.below(count), source.below(count));
            for station in &mut table.stations {
                if let Some(&point) = station.points.get(from) {
                    station.points[to] = point;
                }
            }
            Some(table)
        }
    };
    car.sides.get_mut(side).stations = table;
}

/// The same sheet told by as many stations and points as a file may hold.
fn dense(table: &StationTable, source: &mut Source<'_>) -> StationTable {
    let between = |k: usize, count: usize| k as f64 / (count - 1) as f64;
    let (count, parts) = (2 + source.below(MANY - 1), 1 + source.below(8));
    let ends = table.stations.first().zip(table.stations.last());
    let [from, to] = ends.map_or([0.0; 2], |(first, last)| [first.angle, last.angle]);
    let angles = (0..count).map(|k| from + (to - from) * between(k, count));
    let mut stations: Vec<Station> = angles.filter_map(|angle| table.at(angle)).collect();
    for station in &mut stations {
        let parts = parts.min((MANY - 1) / station.spans.len().max(1)).max(1);
        let runs = station.points.windows(2);
        let split = runs.flat_map(|ends| {
            (0..parts).map(|part| ends[0].lerp(ends[1], part as f64 / parts as f64))
        });
        station.points = split.chain(station.points.last().copied()).collect();
        station.spans = station
            .spans
            .iter()
            .flat_map(|&span| vec![span; parts])
            .collect();
        station.seam *= parts;
    }
    StationTable { stations }
}

fn moved(point: Vec2, source: &mut Source<'_>) -> Vec2 {
    vec2(
        source.within(&STATION_POINT, point.x),
        source
            .within(&STATION_POINT, point.y)
            .max(f64::MIN_POSITIVE),
    )
}

/// Few stations of few points, made alike as a table must be.
fn any_table(source: &mut Source<'_>) -> StationTable {
    let points = 2 + source.below(6);
    let mut spans = vec![Surface::QuarterLip];
    let mut surface = 0;
    while spans.len() + 1 < points {
        surface = (surface + source.below(3)).min(4);
        spans.push(Surface::FIXED[surface]);
    }
    let seam = source.below(points);
    let mut angle = source.between(STATION_ANGLE.least, 0.0);
    let mut stations = Vec::new();
    for _ in 0..=source.below(6) {
        let point = |_| moved(vec2(700.0, 400.0), source);
        stations.push(Station {
            angle,
            points: (0..points).map(point).collect(),
            spans: spans.clone(),
            seam,
            fill: None,
        });
        angle = (angle + source.between(0.0, 1.5)).min(STATION_ANGLE.most);
    }
    StationTable { stations }
}

/// A name of any kind, but for the letters of what is written where a number is none: those are looked for in what is
/// drawn and said.
fn name(source: &mut Source<'_>) -> String {
    source.text().replace(['N', 'f'], "-")
}

fn words(car: &mut Car, source: &mut Source<'_>) {
    let text = name(source);
    match source.below(5) {
        0 => car.name = text,
        1 => car.purpose = text,
        2 => car.metal.plugs = *source.choice(&[PlugPractice::Code, PlugPractice::Repair]),
        3 => car.shop.notes = text.chars().cycle().take(source.below(5) * 300).collect(),
        _ => car.shop.name = text.chars().take(Car::LONGEST_NAME).collect(),
    }
}
