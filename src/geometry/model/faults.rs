//! Everything that can be wrong with a car's numbers, with what would be accepted.

use crate::body::tape::{READING_ERROR, TAPE_FIELDS};
use crate::body::{NoCutZone, OBSTACLE_FIELDS, Place, StationTable};
use crate::car::Car;
use crate::car::fields::{CAR_FIELDS, OPTIONAL_FIELDS};
use crate::field::{Bound, Fault, Quantity};
use crate::locator::{LOCATOR_FIELDS, Locator};
use crate::metal::gauge;
use crate::side::Side;
use crate::units::{self, in_both};

/// Every number that is out of its bound.
pub(super) fn out_of_bounds(car: &Car) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut check = |bound: &Bound, at: String, value: f64| {
        if !bound.admits(value) {
            let accepted = format!(
                "{} to {} would be accepted",
                say(bound.quantity, bound.least),
                say(bound.quantity, bound.most)
            );
            faults.push(Fault::new(
                at,
                format!("{} is {}", bound.label, say(bound.quantity, value)),
                accepted,
            ));
        }
    };
    for field in CAR_FIELDS {
        check(&field.bound, field.bound.key.to_owned(), (field.get)(car));
    }
    for field in OPTIONAL_FIELDS {
        if let Some(value) = (field.get)(car) {
            check(&field.bound, field.bound.key.to_owned(), value);
        }
    }
    for (side, spec) in car.sides.iter() {
        for entry in TAPE_FIELDS {
            let bound = &entry.field.bound;
            check(
                bound,
                format!("{}.tape.{}", side.word(), bound.key),
                (entry.field.get)(&spec.tape),
            );
            if let Some(error) = (entry.reading)(&spec.tape).error {
                check(
                    &READING_ERROR,
                    format!("{}.tape.{}.error", side.word(), bound.key),
                    error,
                );
            }
        }
    }
    for field in LOCATOR_FIELDS {
        if let Some(value) = (field.get)(&car.locator) {
            check(&field.bound, field.bound.key.to_owned(), value);
        }
    }
    for (i, part) in car.obstacles.iter().enumerate() {
        for field in OBSTACLE_FIELDS {
            let at = format!("obstacle[{i}].{}", field.bound.key);
            check(&field.bound, at, (field.get)(part));
        }
    }
    faults.extend(no_cut(car));
    faults
}

/// Zones that have no name or are no patch of the sheet.
fn no_cut(car: &Car) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (i, zone) in car.no_cut.iter().enumerate() {
        if zone.name.trim().is_empty() {
            faults.push(Fault::new(
                format!("no_cut[{i}].name"),
                "a no-cut zone has no name",
                "what is behind the sheet, such as \"shock mount\", would be accepted",
            ));
        }
        for (key, bound, ends) in [
            ("angles", NoCutZone::ANGLE, zone.angles),
            ("along", NoCutZone::ALONG, zone.along),
        ] {
            let [from, to] = ends;
            if !(ends.iter().all(|&end| bound.admits(end)) && from < to) {
                let [found_from, found_to, least, most] =
                    [from, to, bound.least, bound.most].map(|value| say(bound.quantity, value));
                faults.push(Fault::new(
                    format!("no_cut[{i}].{key}"),
                    format!("{} runs from {found_from} to {found_to}", zone.name),
                    format!("two in rising order, from {least} to {most}, would be accepted"),
                ));
            }
        }
    }
    faults
}

/// Numbers that are each in bounds and do not go together, other than what the shapes themselves refuse.
pub(super) fn misfits(car: &Car) -> Vec<Fault> {
    let mut faults = Vec::new();
    let (narrowest, widest) = car.tire.rim_limits();
    let rim = car.wheel.rim_width;
    if !(narrowest..=widest).contains(&rim) {
        faults.push(Fault::new(
            "wheel.rim_width",
            format!(
                "a rim {} wide is outside what a {} tire allows",
                in_both(rim),
                car.tire.designation.text
            ),
            format!(
                "{} to {} would be accepted",
                in_both(narrowest),
                in_both(widest)
            ),
        ));
    }
    if car.wheel.backspacing > car.wheel.overall_width() {
        faults.push(Fault::new(
            "wheel.backspacing",
            format!(
                "backspacing of {} is more than the wheel's overall width",
                in_both(car.wheel.backspacing)
            ),
            format!(
                "0 to {} would be accepted",
                in_both(car.wheel.overall_width())
            ),
        ));
    }
    let track = car.track_width();
    if !(700.0..=2400.0).contains(&track) {
        faults.push(Fault::new(
            "axle.width",
            format!("axle and wheel give a track width of {}", in_both(track)),
            format!(
                "a track width of {} to {} would be accepted",
                in_both(700.0),
                in_both(2400.0)
            ),
        ));
    }
    if gauge::thickness(car.metal.gauge).is_none() {
        faults.push(Fault::new(
            "metal.gauge",
            format!("{} is no gauge of sheet", car.metal.gauge),
            "a whole number such as 18 would be accepted",
        ));
    }
    for (side, spec) in car.sides.iter() {
        let tape = &spec.tape;
        if tape.rail_top_up.value - tape.rail_bottom_up.value < 5.0 {
            faults.push(Fault::new(
                format!("{}.tape.rail_top_up", side.word()),
                format!(
                    "the rail's top, at {}, is not above its bottom, at {}",
                    in_both(tape.rail_top_up.value),
                    in_both(tape.rail_bottom_up.value)
                ),
                "a top above the bottom would be accepted",
            ));
        }
    }
    faults.extend(nonsense(car));
    faults.extend(short_bar(car));
    faults
}

/// Stations that are no sheet metal.
fn nonsense(car: &Car) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (side, spec) in car.sides.iter() {
        let list = spec.stations.iter().flat_map(StationTable::nonsense);
        faults.extend(list.map(|one| {
            let (station, key, what) = match one.place {
                Place::Angle { station } => (station, ".angle", "the station".to_owned()),
                Place::Point { station, point } => (station, ".points", format!("point {point}")),
                Place::Span { span } => (0, ".spans", format!("span {span}")),
                Place::Seam => (0, ".seam", "the seam".to_owned()),
                Place::Station { station } => (station, "", "the station".to_owned()),
            };
            Fault::new(
                format!("{}.station[{station}]{key}", side.word()),
                format!("{what} {}", one.found),
                format!("{} would be accepted", one.accepted),
            )
        }));
    }
    faults
}

/// A tub that would be moved into the rail.
pub(super) fn beyond_rail(car: &Car, side: Side, limit: f64) -> Option<Fault> {
    let seam_move = car.sides.get(side).seam_move;
    (seam_move > limit).then(|| {
        Fault::new(
            format!("{}.seam_move", side.word()),
            format!(
                "moving the {} seam {} puts the tub into the frame rail",
                side.word(),
                in_both(seam_move)
            ),
            format!("0 to {} would be accepted", in_both(limit)),
        )
    })
}

/// A fault of a side's own readings, told with its side.
pub(super) fn on_side(side: Side, fault: Fault) -> Fault {
    Fault {
        at: format!("{}.{}", side.word(), fault.at),
        ..fault
    }
}

/// A rim whose flanges leave no disc between them.
pub(super) fn wheel(car: &Car) -> Fault {
    Fault::new(
        "wheel.flange_thickness",
        format!(
            "flanges {} thick do not go with a rim {} wide",
            in_both(car.wheel.flange_thickness),
            in_both(car.wheel.rim_width)
        ),
        "thinner flanges would be accepted",
    )
}

/// A track bar that cannot follow the axle through its travel.
fn short_bar(car: &Car) -> Option<Fault> {
    let Locator::TrackBar { axle_end, body_end } = car.locator else {
        return None;
    };
    let travel = &car.travel;
    let track = car.track_width().max(1.0);
    let tilt = ((travel.bump + travel.droop) / track).min(1.0);
    let upright = (1.0 - tilt * tilt).sqrt();
    let rise = (axle_end.y - body_end.y).abs()
        + axle_end.x.abs() * tilt
        + axle_end.y.abs() * (1.0 - upright)
        + travel.ride_change.abs()
        + travel.bump.max(travel.droop);
    let length_of_bar = (axle_end - body_end).length();
    // Beyond this slope the bar steers the axle sideways as fast as it rises.
    let steepest = std::f64::consts::FRAC_1_SQRT_2 * length_of_bar;
    (rise > steepest).then(|| {
        Fault::new(
            "locator",
            format!("a track bar of {} would have to stand steeper than 45 degrees to follow {} of bump and {} of droop", in_both(length_of_bar), in_both(travel.bump), in_both(travel.droop)),
            format!("a bar of at least {} would be accepted", in_both(rise / std::f64::consts::FRAC_1_SQRT_2)),
        )
    })
}

fn say(quantity: Quantity, value: f64) -> String {
    match quantity {
        Quantity::Length if value.is_finite() => in_both(value),
        Quantity::Angle => format!("{:.1} degrees", units::degrees(value)),
        Quantity::Mass => format!("{value:.0} kg"),
        Quantity::Pressure => format!("{value:.0} kPa"),
        Quantity::Length | Quantity::Ratio | Quantity::RimCode => format!("{value}"),
    }
}
