//! Sections that are swung round the wheel: they lie on the solids they cut, and the room they show is the certified one.

use geometry::gap::{Face, Limits, Poses, certify};
use geometry::model::Model;
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{Vec2, Vec3, vec3};
use geometry::travel::Pose;
use geometry::units::radians;

/// How far an outline's corners may lie off the solid, mm: the chords of the meridian that they are taken from.
const SAGITTA: f64 = 0.05;
/// How far the corners of the swung envelope may lie off the room that the certified gap finds, mm: its own tolerance
/// with the accuracy it is checked to.
const FELT: f64 = 0.11;

fn cars() -> impl Iterator<Item = Model> {
    carfile::SCENARIOS.iter().map(|scenario| {
        let mut car = carfile::read(scenario.text).expect("an invented car reads");
        car.axle.ahead = 9.0;
        car.axle.yaw = 0.004;
        Model::new(&car).expect("an invented car has a model")
    })
}

const POSES: [Pose; 3] = [
    Pose::RIDE,
    Pose::heave(60.0),
    Pose {
        left: 55.0,
        right: -45.0,
        give: 2.0,
    },
];

/// A point of the section's plane in the car's frame.
fn in_car(p: Vec2, angle: f64) -> Vec3 {
    vec3(
        p.y * geometry::math::sin(angle),
        p.x,
        p.y * geometry::math::cos(angle),
    )
}

#[test]
fn every_corner_of_a_section_lies_on_the_solid_it_cuts() {
    for model in cars() {
        for degrees in [-90.0, -62.0, -35.0, 0.0, 17.0, 90.0] {
            for (pose, side) in POSES
                .iter()
                .flat_map(|&pose| Side::BOTH.map(|side| (pose, side)))
            {
                let angle = radians(degrees);
                let section = model.wheel_section(side, pose, angle);
                let placement = model.motion.at(pose);
                let solids = model.solids.get(side);
                let check = |outline: &[Vec2], solid: &Revolved| {
                    assert!(outline.len() > 20, "{} at {degrees}", model.car.name);
                    for &p in outline {
                        let off = solid.distance(placement.axle_from_body(in_car(p, angle)));
                        assert!(
                            off.abs() <= SAGITTA + 1e-9,
                            "{}, {side:?} at {degrees}, {pose:?}: {p:?} lies {off} off",
                            model.car.name
                        );
                    }
                };
                check(&section.tire_top, &solids.tire);
                check(&section.wheel, &solids.wheel);
            }
        }
    }
}

#[test]
fn straight_up_at_rest_the_section_is_the_meridian() {
    for scenario in carfile::SCENARIOS {
        let mut car = carfile::read(scenario.text).expect("an invented car reads");
        // Straight up the plane holds the axle only where the axle sits at its station.
        car.axle.ahead = 0.0;
        let model = Model::new(&car).expect("an invented car has a model");
        let section = model.wheel_section(Side::Left, Pose::RIDE, 0.0);
        let middle = model.motion.track_width / 2.0;
        for (chain, up, outline) in [
            (&model.tire.chain, 1.0, &section.tire_top),
            (&model.loaded.chain, -1.0, &section.tire_bottom),
        ] {
            for p in chain.outline(SAGITTA) {
                let wanted = geometry::space::vec2(middle + p.x, up * p.y + model.motion.ride);
                let nearest = outline
                    .iter()
                    .map(|&q| (q - wanted).length())
                    .fold(f64::INFINITY, f64::min);
                assert!(
                    nearest < 1e-9,
                    "{}: {wanted:?} is {nearest} off",
                    model.car.name
                );
            }
        }
    }
}

#[test]
fn a_plane_that_misses_the_hub_closes_the_outline() {
    let mut car = carfile::read(carfile::SCENARIOS[0].text).expect("an invented car reads");
    car.axle.ahead = 100.0;
    let model = Model::new(&car).expect("a car with its axle far ahead");
    let section = model.wheel_section(Side::Left, Pose::RIDE, 0.0);
    let lowest = |outline: &[Vec2]| outline.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let radius = model.tire.inputs.diameter / 2.0;
    let highest = section.tire_top.iter().map(|p| p.y).fold(0.0, f64::max);
    assert!(
        (highest - (radius * radius - 1e4).sqrt()).abs() < 0.1,
        "{highest}"
    );
    assert!(lowest(&section.tire_top) > 0.0);
}

#[test]
fn the_rail_over_the_axle_is_its_section() {
    for model in cars() {
        let rail = model.rails.left;
        let [only] = model.rail_section(Side::Left, 0.0)[..] else {
            panic!("one rail over the axle");
        };
        assert!((only[0] - rail.bottom).abs() < 1e-9 && (only[1] - rail.top).abs() < 1e-9);
        for degrees in [-90.0, -45.0, 30.0, 89.0] {
            for [from, to] in model.rail_section(Side::Left, radians(degrees)) {
                assert!(from < to && to.is_finite());
            }
        }
    }
}

#[test]
fn every_corner_of_the_swung_envelope_touches_the_room_the_tire_takes() {
    for model in cars() {
        for (side, degrees) in [(Side::Left, -35.0), (Side::Right, 60.0)] {
            let (angle, margin) = (radians(degrees), 12.7);
            let section = model.envelope_section(side, margin, angle);
            for (outline, margin) in [(&section.outline, 0.0), (&section.margin, margin)] {
                let solids = model.given.get(side);
                let mut poses = Poses::new(model.motion, model.pose_domain());
                for &p in outline {
                    let gap = certify(
                        &mut poses,
                        &[&solids.tire, &solids.wheel],
                        &[Face::point(in_car(p, angle))],
                        model.car.travel.give,
                        Limits::accuracy(0.01),
                    )
                    .expect("a point and a tire");
                    assert!(
                        (gap.high - margin).abs() <= FELT,
                        "{}, {side:?} at {degrees}, margin {margin}: at {p:?} the gap is {}",
                        model.car.name,
                        gap.high
                    );
                }
            }
        }
    }
}
