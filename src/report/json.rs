//! The gap list as JSON: the keys, units and meanings that programs may rely on.

mod doubts;

use geometry::check::{ACCURACY, Check, SideCheck, SurfaceCheck};
use geometry::model::Model;
use geometry::space::Vec3;
use geometry::tolerance::{Band, bands};
use serde::Serialize;

/// The gap list as JSON. Lengths are millimeters; points are in the car's frame, x forward, y left,
/// z up. `ride_gap_mm` and `travel_gap_mm.low` are never above the true gap.
///
/// Each surface's `band` tells how far its gaps may be off by the errors of the measurements, root-sum-square and at
/// worst; `could_be`, the worst and the best verdict within the root-sum-square band, is null where they agree;
/// `matters_most` is the measurement to take again first, by where it stands in a car file, with how far the gap that
/// decides moves a millimeter of it. `tires` holds the verdict on the nominal tire, the largest that may arrive and,
/// where the car says that it grows, the tire at speed; where there is no such tire on the rim, `verdict` is null and
/// `no_such_tire` says what does not go together. `warnings` has what was found, the limit that it passes, where the
/// limit comes from, and a caution.
#[must_use]
pub fn to_json(model: &Model, check: &Check) -> String {
    let car = &model.car;
    let bands = bands(model, check);
    let report = Report {
        car: &car.name,
        verdict: check.verdict().word(),
        accuracy_mm: ACCURACY,
        tire: Tire {
            size: &car.tire.designation.text,
            section_width_mm: car.section_width(),
            overall_diameter_mm: car.overall_diameter(),
            center_plane_mm: car.axle.center_plane(car.wheel.offset()),
        },
        sides: Sides {
            left: side(&check.sides.left, &bands.left),
            right: side(&check.sides.right, &bands.right),
        },
        tires: doubts::tires(model),
        warnings: doubts::warnings(model, check),
    };
    // Only a map with keys that are no text could fail, and there is none in here.
    serde_json::to_string_pretty(&report).unwrap_or_default()
}

#[derive(Serialize)]
struct Report<'a> {
    car: &'a str,
    verdict: &'a str,
    accuracy_mm: f64,
    tire: Tire<'a>,
    sides: Sides<'a>,
    tires: Vec<doubts::Asked>,
    warnings: Vec<doubts::Warning>,
}

#[derive(Serialize)]
struct Tire<'a> {
    size: &'a str,
    section_width_mm: f64,
    overall_diameter_mm: f64,
    center_plane_mm: f64,
}

#[derive(Serialize)]
struct Sides<'a> {
    left: Side<'a>,
    right: Side<'a>,
}

#[derive(Serialize)]
struct Side<'a> {
    surfaces: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    surface: &'a str,
    ride_gap_mm: f64,
    ride_target_mm: f64,
    travel_gap_mm: Interval,
    target_mm: f64,
    verdict: &'a str,
    pose: Pose,
    at_body_mm: [f64; 3],
    at_tire_mm: [f64; 3],
    band: doubts::Band,
}

#[derive(Serialize)]
struct Interval {
    low: f64,
    high: f64,
}

#[derive(Serialize)]
struct Pose {
    #[serde(rename = "left_mm")]
    left: f64,
    #[serde(rename = "right_mm")]
    right: f64,
    #[serde(rename = "give_mm")]
    give: f64,
}

fn side<'a>(check: &'a SideCheck, bands: &[Band]) -> Side<'a> {
    let rows = check.surfaces.iter().zip(bands);
    Side {
        surfaces: rows.map(|(check, band)| surface(check, band)).collect(),
    }
}

fn surface<'a>(check: &'a SurfaceCheck, band: &Band) -> Row<'a> {
    let SurfaceCheck { travel, ride, .. } = check;
    let pose = travel.witness.pose;
    Row {
        surface: &check.name,
        ride_gap_mm: ride.low,
        ride_target_mm: check.ride_target,
        travel_gap_mm: Interval {
            low: travel.low,
            high: travel.high,
        },
        target_mm: check.travel_target,
        verdict: check.verdict.word(),
        pose: Pose {
            left: pose.left,
            right: pose.right,
            give: pose.give,
        },
        at_body_mm: point(travel.witness.at_body),
        at_tire_mm: point(travel.witness.at_tire),
        band: doubts::band(band),
    }
}

fn point(at: Vec3) -> [f64; 3] {
    [at.x, at.y, at.z]
}
