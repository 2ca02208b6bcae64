//! Whether a car that was written and read again is the same one.

use carfile::{read, write};
use geometry::body::tape::TAPE_FIELDS;
use geometry::car::Car;
use geometry::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use geometry::locator::Locator;
use geometry::side::Side;
use geometry::travel::Pose;
use geometry::units::Notation;

/// What a length or an angle may lose on its way through a file: a billionth of a millimeter, as files promise.
const LOST: f64 = 1e-9;

/// The car can be written in every notation, reads back the same, and is then written the same.
pub fn comes_back(car: &Car) {
    for notation in Notation::ALL {
        let text = write(car, notation);
        let back = read(&text).unwrap_or_else(|faults| panic!("{faults:#?}\nin\n{text}"));
        is_same(&back, car);
        assert_eq!(
            write(&back, notation),
            text,
            "written again it is another text"
        );
    }
}

/// Both are one car, to the digits that a file keeps.
pub fn is_same(one: &Car, other: &Car) {
    assert_eq!(words(one), words(other));
    let (ours, theirs) = (numbers(one), numbers(other));
    assert_eq!(ours.len(), theirs.len());
    for (ours, theirs) in ours.into_iter().zip(theirs) {
        match (ours, theirs) {
            (Some(ours), Some(theirs)) => {
                assert!((ours - theirs).abs() <= LOST, "{ours} was {theirs}");
            }
            _ => assert_eq!(ours, theirs, "one has it, the other has not"),
        }
    }
}

/// Everything of a car that is no number.
fn words(car: &Car) -> impl PartialEq + std::fmt::Debug {
    let parts = car
        .obstacles
        .iter()
        .map(|part| (part.name.clone(), part.side));
    let zones = car.no_cut.iter().map(|zone| (zone.name.clone(), zone.side));
    let stations = car.sides.iter().flat_map(|(side, spec)| {
        let table = spec.stations.iter().flat_map(|table| &table.stations);
        table.map(move |one| (side, one.spans.clone(), one.seam, one.fill))
    });
    let guesses = car.sides.iter().flat_map(|(_, spec)| {
        TAPE_FIELDS
            .iter()
            .map(|field| (field.reading)(&spec.tape).guess)
    });
    (
        (car.name.clone(), car.purpose.clone(), car.shop.clone()),
        (
            car.tire.designation.clone(),
            car.tire.arrival,
            car.metal.plugs,
        ),
        std::mem::discriminant(&car.locator),
        parts.chain(zones).collect::<Vec<_>>(),
        stations.collect::<Vec<_>>(),
        car.found
            .iter()
            .map(|one| (one.side, one.id))
            .collect::<Vec<_>>(),
        guesses.collect::<Vec<_>>(),
    )
}

/// Every number of a car, in one order; none where it has none.
fn numbers(car: &Car) -> Vec<Option<f64>> {
    let single = CAR_FIELDS.iter().map(|field| Some((field.get)(car)));
    let optional = OPTIONAL_FIELDS.iter().map(|field| (field.get)(car));
    let mut numbers: Vec<Option<f64>> = single.chain(optional).collect();
    numbers.push(car.tire.section_width.map(|measured| measured.on_rim));
    for side in Side::BOTH {
        let spec = car.sides.get(side);
        for field in TAPE_FIELDS {
            let reading = (field.reading)(&spec.tape);
            numbers.extend([Some(reading.value), reading.error]);
        }
        for station in spec.stations.iter().flat_map(|table| &table.stations) {
            numbers.push(Some(station.angle));
            numbers.extend(
                station
                    .points
                    .iter()
                    .flat_map(|at| [Some(at.x), Some(at.y)]),
            );
        }
    }
    numbers.extend(match car.locator {
        Locator::TrackBar { axle_end, body_end } => {
            vec![
                Some(axle_end.x),
                Some(axle_end.y),
                Some(body_end.x),
                Some(body_end.y),
            ]
        }
        Locator::WattLink { height, .. }
        | Locator::AngledLinks { height }
        | Locator::LeafSprings { height } => vec![Some(height)],
    });
    for part in &car.obstacles {
        let ends = [part.from, part.to];
        numbers.extend(
            ends.iter()
                .flat_map(|end| [Some(end.x), Some(end.y), Some(end.z)]),
        );
        numbers.push(Some(part.radius));
    }
    for zone in &car.no_cut {
        numbers.extend(zone.angles.into_iter().chain(zone.along).map(Some));
    }
    for one in &car.found {
        let Pose { left, right, give } = one.pose;
        numbers.extend([left, right, give, one.gap].map(Some));
    }
    numbers
}
