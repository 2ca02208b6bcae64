//! The gaps all round the wheel against brute force over the sheet and the poses.

use geometry::body::StationTable;
use geometry::check::{at_pose, check};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec3, vec3};
use geometry::sweep::{self, SweepWork};
use geometry::travel::Pose;

/// The accuracy asked for, mm.
const ACCURACY: f64 = 0.05;
/// Poses along each wheel's travel, and shares along each span.
const GRID: u32 = 4;

fn cars() -> impl Iterator<Item = Model> {
    carfile::SCENARIOS.iter().map(|scenario| {
        let car = carfile::read(scenario.text).expect("an invented car reads");
        Model::new(&car).expect("an invented car has a model")
    })
}

#[test]
fn no_point_of_the_sheet_comes_nearer_in_any_brute_pose() {
    for model in cars() {
        let gaps = check(&model, ACCURACY);
        for side in Side::BOTH {
            let solids = model.given.get(side);
            for pose in poses(&model) {
                let placement = model.motion.at(pose);
                for (surface, point) in sheet(model.wheelhouses.get(side), side) {
                    let q = placement.axle_from_body(point);
                    let there = solids.tire.distance(q).min(solids.wheel.distance(q));
                    let of_surface = gaps
                        .sides
                        .get(side)
                        .surfaces
                        .iter()
                        .find(|gap| gap.id.surface == surface);
                    let low = of_surface
                        .expect("every span's surface is in the list")
                        .travel
                        .low;
                    assert!(
                        there >= low,
                        "{}, {side:?}, {surface:?} at {point:?} in {pose:?}: {there} below {low}",
                        model.car.name
                    );
                }
            }
        }
    }
}

#[test]
fn a_sweep_is_what_the_single_poses_give() {
    const HEIGHTS: u32 = 5;
    for model in cars() {
        for side in Side::BOTH {
            let curves = SweepWork::begin(&model, side, HEIGHTS).whole();
            let domain = model.pose_domain();
            for k in 0..HEIGHTS {
                let share = f64::from(k) / f64::from(HEIGHTS - 1);
                let up = domain.low + (domain.high - domain.low) * share;
                let here = at_pose(&model, Pose::heave(up), ACCURACY);
                for ((id, gap), curve) in here.get(side).iter().zip(&curves) {
                    let (height, found) = curve.points[k as usize];
                    assert_eq!(*id, curve.id);
                    assert!((height - up).abs() < 1e-9);
                    // Both are attained, and neither is further from the truth than its accuracy.
                    let apart = ACCURACY.max(sweep::ACCURACY) + 1e-6;
                    assert!((found - gap.high).abs() <= apart, "{found} is not {gap:?}");
                }
                assert_eq!(here.get(side).len(), curves.len());
            }
        }
    }
}

fn poses(model: &Model) -> Vec<Pose> {
    let domain = model.pose_domain();
    let at = |k: u32| domain.low + (domain.high - domain.low) * f64::from(k) / f64::from(GRID);
    let all = (0..=GRID).flat_map(|i| (0..=GRID).map(move |j| (i, j)));
    all.map(|(i, j)| Pose {
        left: at(i),
        right: at(j),
        give: 0.0,
    })
    .filter(|pose| (pose.left - pose.right).abs() <= domain.apart)
    .collect()
}

/// Points of the sheet at the stations and halfway between them, each with its surface.
fn sheet(table: &StationTable, side: Side) -> Vec<(geometry::body::Surface, Vec3)> {
    let mut points = Vec::new();
    for pair in table.stations.windows(2) {
        for angle in [pair[0].angle, f64::midpoint(pair[0].angle, pair[1].angle)] {
            let station = table.at(angle).expect("the angle is in the table");
            for (surface, a, b) in station.segments() {
                for k in 0..=GRID {
                    let p = a.lerp(b, f64::from(k) / f64::from(GRID));
                    let (sin, cos) = (geometry::math::sin(angle), geometry::math::cos(angle));
                    points.push((surface, vec3(p.y * sin, side.sign() * p.x, p.y * cos)));
                }
            }
        }
    }
    points
}
