//! Each invented car says why it is there: what its purpose claims has to be what the model finds.

use carfile::{SCENARIOS, read};
use geometry::car::{Car, Lever};
use geometry::check::{Check, Verdict, check as gaps};
use geometry::gap::{Face, Limits, Poses, certify};
use geometry::math;
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::vec3;
use geometry::units::MM_PER_INCH;

/// Near enough to tell a verdict, mm.
const ACCURACY: f64 = 0.05;

/// The scenario's check after `change`, at the model that was made of it.
#[track_caller]
fn check(name: &str, change: impl Fn(&mut Car)) -> (Model, Check) {
    let scenario = SCENARIOS
        .iter()
        .find(|scenario| scenario.name == name)
        .expect("a scenario of that name");
    let mut car = read(scenario.text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"));
    change(&mut car);
    let model = Model::new(&car).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"));
    let check = gaps(&model, ACCURACY);
    for surface in Side::BOTH
        .iter()
        .flat_map(|side| &check.sides.get(*side).surfaces)
    {
        assert!(
            surface.ride.low.is_finite() && surface.travel.low.is_finite(),
            "{name}: {}",
            surface.name
        );
    }
    (model, check)
}

/// The verdict with `lever` moved by so many sixteenths of an inch.
#[track_caller]
fn moved(name: &str, lever: Lever, sixteenths: i32) -> Verdict {
    let by = f64::from(sixteenths) * MM_PER_INCH / 16.0;
    check(name, |car| lever.set(car, lever.get(car) + by))
        .1
        .verdict()
}

#[test]
fn the_coupes_answer_is_the_seam() {
    assert_eq!(moved("coupe", Lever::SeamMove, 0), Verdict::Hits);
    assert!(
        (-4..=4).all(|halves| moved("coupe", Lever::Backspacing, 8 * halves) != Verdict::Clears)
    );
    assert_eq!(moved("coupe", Lever::SeamMove, 40), Verdict::Clears);
}

#[test]
fn the_fastbacks_answer_is_backspacing() {
    assert_eq!(moved("fastback", Lever::Backspacing, 0), Verdict::Tight);
    assert_eq!(moved("fastback", Lever::Backspacing, 8), Verdict::Clears);
}

#[test]
fn the_pickups_sides_differ() {
    let (_, check) = check("pickup", |_| ());
    let worst = |side| check.sides.get(side).worst().map(|surface| surface.verdict);
    assert_eq!(
        (worst(Side::Left), worst(Side::Right)),
        (Some(Verdict::Clears), Some(Verdict::Hits))
    );
}

#[test]
fn the_low_cars_rail_stops_the_seam_first() {
    let (model, _) = check("low-car", |_| ());
    // A hair short of the limit, which is itself a matter of rounding.
    let at_the_rail = |car: &mut Car| {
        for side in Side::BOTH {
            car.sides.get_mut(side).seam_move = model.seam_limit.get(side) - 0.01;
        }
    };
    assert_eq!(check("low-car", at_the_rail).1.verdict(), Verdict::Hits);
}

#[test]
fn the_sedans_corner_hits_behind_the_axle_and_not_over_it() {
    let (model, check) = check("sedan", |_| ());
    for side in Side::BOTH {
        let worst = check.sides.get(side).worst().expect("a surface");
        assert_eq!(worst.verdict, Verdict::Hits);
        let at = worst.travel.witness.at_body;
        let behind = -math::atan2(at.x, at.z).to_degrees();
        assert!((20.0..70.0).contains(&behind), "{behind} degrees behind");

        let over_the_axle = model.moved.get(side);
        let solids = model.given.get(side);
        let mut poses = Poses::new(model.motion, model.pose_domain());
        for (surface, a, b) in over_the_axle.segments() {
            let at = |p: geometry::space::Vec2| vec3(0.0, side.sign() * p.x, p.y);
            let gap = certify(
                &mut poses,
                &[&solids.tire, &solids.wheel],
                &[Face::segment(at(a), at(b))],
                model.car.travel.give,
                Limits::accuracy(ACCURACY),
            );
            let target = model.car.targets.through_travel(surface);
            assert!(
                gap.is_some_and(|gap| gap.low >= target),
                "{side:?} {surface:?} over the axle: {gap:?}, target {target}"
            );
        }
    }
}
