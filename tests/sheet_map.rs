//! The ring and the wheelhouse map against poses tried one by one, and against each other.

use geometry::body::Surface;
use geometry::check::{Check, check};
use geometry::model::Model;
use geometry::sheet::{ACCURACY, Ring, SheetMap};
use geometry::side::Side;
use geometry::space::vec3;
use geometry::travel::Pose;

/// Poses along each wheel's travel.
const GRID: u32 = 24;

fn cars() -> impl Iterator<Item = Model> {
    carfile::SCENARIOS.iter().map(|scenario| {
        let car = carfile::read(scenario.text).expect("an invented car reads");
        Model::new(&car).expect("an invented car has a model")
    })
}

#[test]
fn a_nodes_gap_is_what_brute_poses_find() {
    for model in cars() {
        let map = SheetMap::whole(&model, Side::Right);
        let solids = model.given.get(Side::Right);
        let domain = model.pose_domain();
        let height =
            |k: u32| domain.low + (domain.high - domain.low) * f64::from(k) / f64::from(GRID);
        for node in map.nodes.iter().step_by(37) {
            let (mut least, mut at_the_ground) = (f64::INFINITY, f64::INFINITY);
            for (left, right) in (0..=GRID).flat_map(|i| (0..=GRID).map(move |j| (i, j))) {
                let pose = Pose {
                    left: height(left),
                    right: height(right),
                    give: 0.0,
                };
                if (pose.left - pose.right).abs() > domain.apart {
                    continue;
                }
                let q = model.motion.at(pose).axle_from_body(node.at);
                least = least
                    .min(solids.tire.distance(q))
                    .min(solids.wheel.distance(q));
                at_the_ground = at_the_ground.min(solids.loaded.distance(q));
            }
            // Low on the sheet the section at the ground counts as well, higher up it does not.
            let known = least.min(at_the_ground);
            assert!(
                least >= node.gap.low,
                "{}: {least} below {:?}",
                model.car.name,
                node.gap
            );
            // The nearest pose of the grid is half a step off each way, and a wheel's height moves a point of the tire by
            // no more than itself and a little roll.
            let step = (domain.high - domain.low) / f64::from(GRID);
            assert!(
                known <= node.gap.high + 1.5 * step,
                "{}: {known} above {:?}",
                model.car.name,
                node.gap
            );
            assert!(node.gap.high - node.gap.low <= ACCURACY + 1e-6);
        }
    }
}

#[test]
fn no_node_comes_nearer_than_its_sector() {
    for model in cars() {
        for side in Side::BOTH {
            let (ring, map) = (Ring::whole(&model, side), SheetMap::whole(&model, side));
            assert_eq!(
                ring.sectors.len(),
                model.wheelhouses.get(side).stations.len() - 1
            );
            for (index, node) in map.nodes.iter().enumerate() {
                let angle = map.angles[map.place(index).0];
                let low = ring
                    .sectors
                    .iter()
                    .filter(|sector| (sector.angles[0]..=sector.angles[1]).contains(&angle))
                    .map(|sector| sector.gap.low)
                    .fold(f64::INFINITY, f64::min);
                assert!(
                    low <= node.gap.high,
                    "{}, {side:?} at {angle}: {low} above {:?}",
                    model.car.name,
                    node.gap
                );
            }
        }
    }
}

#[test]
fn the_ring_holds_what_the_gap_list_finds_all_round() {
    for model in cars() {
        let gaps: Check = check(&model, ACCURACY);
        for side in Side::BOTH {
            let ring = Ring::whole(&model, side);
            let sheet = gaps.sides.get(side).surfaces.iter().filter(|found| {
                !matches!(found.id.surface, Surface::FrameRail | Surface::Obstacle)
            });
            let list = sheet
                .map(|found| found.travel.low)
                .fold(f64::INFINITY, f64::min);
            let least = ring.least().expect("a ring has sectors").gap.low;
            assert!(
                (least - list).abs() <= ACCURACY,
                "{}: {least} in the ring, {list} in the list",
                model.car.name
            );
        }
    }
}

#[test]
fn slices_give_the_whole() {
    let model = cars().next().expect("a car");
    let mut ring = Ring::begin(&model, Side::Left);
    let mut map = SheetMap::begin(&model, Side::Left);
    let sliced = loop {
        if let Some(ring) = ring.step(1) {
            break ring;
        }
    };
    assert_eq!(
        sliced.sectors.len(),
        Ring::whole(&model, Side::Left).sectors.len()
    );
    let mut slices = 0;
    let sliced = loop {
        slices += 1;
        if let Some(map) = map.step(50) {
            break map;
        }
    };
    let whole = SheetMap::whole(&model, Side::Left);
    assert!(slices > 5);
    assert_eq!(sliced, whole);
}

#[test]
fn the_nodes_lie_on_the_sheet_and_count_from_the_lip() {
    for model in cars() {
        let map = SheetMap::whole(&model, Side::Left);
        assert_eq!(map.nodes.len(), map.angles.len() * map.rows.len());
        for (column, &angle) in map.angles.iter().enumerate() {
            let station = model
                .wheelhouses
                .left
                .at(angle)
                .expect("a column is in the table");
            let lip = station.points[0];
            let first = map.node(column, 0).expect("a first node");
            let at = vec3(
                lip.y * geometry::math::sin(angle),
                lip.x,
                lip.y * geometry::math::cos(angle),
            );
            assert!((first.at - at).length() < 1e-9 && first.along == 0.0);
            let alongs: Vec<f64> = (0..map.rows.len())
                .filter_map(|row| map.node(column, row))
                .map(|node| node.along)
                .collect();
            assert!(alongs.is_sorted(), "{alongs:?}");
            let length: f64 = station
                .points
                .windows(2)
                .map(|ends| (ends[1] - ends[0]).length())
                .sum();
            assert!((alongs[alongs.len() - 1] - length).abs() < 1e-6);
        }
    }
}
