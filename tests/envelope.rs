//! The envelope's outline against the certified gap: it may not fall short of the room the tire takes.

use geometry::gap::{Face, Limits, Poses, certify};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::vec3;

/// How far the outline may stray from the room that the certified gap finds, mm. It is a polygon on rays half a degree
/// apart, whose corners stand on it to a touch's chord: 6 degrees on the largest radius of a sidewall, about
/// 100 mm, is 0.14 mm of sagitta.
const DRAWN: f64 = 0.15;

#[test]
fn every_corner_of_the_outline_touches_the_room_the_tire_takes() {
    for scenario in carfile::SCENARIOS {
        let car = carfile::read(scenario.text).expect("an invented car reads");
        let model = Model::new(&car).expect("an invented car has a model");
        for side in Side::BOTH {
            let section = model.envelope_section(side, 12.7, 0.0);
            for (outline, margin) in [(&section.outline, 0.0), (&section.margin, 12.7)] {
                check(&model, side, outline, margin, scenario.name);
            }
        }
    }
}

#[track_caller]
fn check(model: &Model, side: Side, outline: &[geometry::space::Vec2], margin: f64, name: &str) {
    let solids = model.given.get(side);
    let mut poses = Poses::new(model.motion, model.pose_domain());
    // The first and last rays lie along the axle, below the room that the section shows.
    for p in &outline[5..outline.len() - 5] {
        let point = Face::point(vec3(model.motion.ahead, p.x, p.y));
        let gap = certify(
            &mut poses,
            &[&solids.tire, &solids.wheel],
            &[point],
            model.car.travel.give,
            Limits::accuracy(0.01),
        )
        .expect("a point and a tire");
        assert!(
            (gap.high - margin).abs() <= DRAWN,
            "{name}, {side:?}, margin {margin}: at {p:?} the gap is {}",
            gap.high
        );
    }
}
