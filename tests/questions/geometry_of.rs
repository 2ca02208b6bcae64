//! Any bounded car: its model or its faults, its gap list, its room, its curves, its bands, its warnings.

use geometry::arrivals::three_tires;
use geometry::body::Surface;
use geometry::car::Car;
use geometry::check::{ACCURACY, Check, at_pose, check};
use geometry::gap::{Face, Gap, Limits, Poses, certify};
use geometry::math;
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, Vec3, vec3};
use geometry::sweep::SweepWork;
use geometry::tolerance::BandsWork;
use geometry::travel::Pose;
use geometry::units::Notation;
use geometry::warnings::warnings;

use crate::any_car;
use crate::clock::timed;
use crate::same;
use crate::source::Source;

pub fn ask(input: &[u8]) {
    let mut source = Source::new(input);
    let about = source.below(5);
    let car = any_car::car(&mut source);
    let Some(model) = model(&car) else { return };
    same::comes_back(&car);
    let found = gaps(&model);
    warned(&model, &found);
    let pose = Pose {
        left: source.between(-car.travel.droop, car.travel.bump),
        right: source.between(-car.travel.droop, car.travel.bump),
        give: 0.0,
    };
    match about {
        0 => at_one_pose(&model, &found, pose),
        1 => sections(&model, pose, source.between(-3.2, 3.2)),
        2 => curves(&model),
        3 => bands(&model, &found),
        _ => tires(&car),
    }
}

fn warned(model: &Model, found: &Check) {
    for warning in warnings(model, found) {
        let sound = warning.found.is_finite() && warning.limit.is_finite();
        assert!(sound, "{warning:?}");
        for notation in Notation::ALL {
            says_something(&warning.words(notation));
        }
    }
}

fn tires(car: &Car) {
    for tire in timed("three tires", || three_tires(car, ACCURACY)) {
        match tire.check {
            Ok(check) => is_sound(&check),
            Err(faults) => assert!(!faults.is_empty()),
        }
    }
}

/// The car's model; none where it has faults, each of which says what was found and what would be accepted.
pub fn model(car: &Car) -> Option<Model> {
    match timed("a model", || Model::new(car)) {
        Ok(model) => Some(model),
        Err(faults) => {
            assert!(
                !faults.is_empty(),
                "there is no model, and nothing is wrong with the car"
            );
            for fault in &faults {
                says_something(&fault.found);
                says_something(&fault.accepted);
            }
            None
        }
    }
}

/// The gap list, each gap of which is an interval with a place.
pub fn gaps(model: &Model) -> Check {
    let found = timed("a gap list", || check(model, ACCURACY));
    is_sound(&found);
    for (side, list) in found.sides.iter() {
        let fixed = list
            .surfaces
            .iter()
            .filter(|one| one.id.surface != Surface::Obstacle);
        assert!(fixed.count() > 0, "the {} has no sheet", side.word());
    }
    found
}

fn is_sound(check: &Check) {
    for (_, list) in check.sides.iter() {
        for one in &list.surfaces {
            is_gap(&one.ride);
            is_gap(&one.travel);
            // Rest is one of the poses, and nothing gives way in it.
            let (travel, ride) = (one.travel.low, one.ride.high);
            assert!(
                travel <= ride,
                "{}: {travel} through travel, {ride} at rest",
                one.name
            );
        }
    }
    let _ = check.verdict();
}

/// An interval of numbers, attained at a place of numbers.
fn is_gap(gap: &Gap) {
    let Gap { low, high, witness } = gap;
    assert!(
        low.is_finite() && high.is_finite() && low <= high,
        "{gap:?}"
    );
    let places = [witness.at_body, witness.at_tire];
    assert!(places.iter().all(|place| place.is_finite()), "{gap:?}");
    let heights = [witness.pose.left, witness.pose.right, witness.pose.give];
    assert!(heights.iter().all(|height| height.is_finite()), "{gap:?}");
}

/// No gap at one pose is below what was certified for all of them.
fn at_one_pose(model: &Model, found: &Check, pose: Pose) {
    let apart = model.pose_domain().apart;
    let here = timed("gaps at one pose", || at_pose(model, pose, ACCURACY));
    for side in Side::BOTH {
        let list = &found.sides.get(side).surfaces;
        for (id, gap) in here.get(side) {
            is_gap(gap);
            let through = list.iter().find(|one| one.id == *id);
            if let Some(one) = through.filter(|_| (pose.left - pose.right).abs() <= apart) {
                let (low, high) = (one.travel.low, gap.high);
                assert!(
                    low <= high,
                    "{}: {low} through travel, {high} at {pose:?}",
                    one.name
                );
            }
        }
    }
}

/// The sections and the room in them, straight up and swung.
fn sections(model: &Model, pose: Pose, swung: f64) {
    for side in Side::BOTH {
        for angle in [0.0, swung] {
            if let Some((stock, moved)) = model.section(side, angle) {
                are_finite(&stock.points);
                are_finite(&moved.points);
            }
            let wheel = timed("a wheel's section", || {
                model.wheel_section(side, pose, angle)
            });
            let _ = format!("{wheel:?}");
            let rail = model.rail_section(side, angle);
            assert!(
                rail.iter().flatten().all(|number| number.is_finite()),
                "{rail:?}"
            );
        }
        let margin = model.car.targets.travel;
        let room = timed("room straight up", || {
            model.envelope_section(side, margin, 0.0)
        });
        are_finite(&room.outline);
        are_finite(&room.margin);
        let mut work = model.begin_envelope(side, margin, swung);
        let room = loop {
            if let Some(room) = timed("rays of room, swung", || work.step(8)) {
                break room;
            }
        };
        are_finite(&room.outline);
        are_finite(&room.margin);
        for &corner in room.margin.iter().step_by(7) {
            holds_room(
                model,
                side,
                vec3(
                    corner.y * math::sin(swung),
                    corner.x,
                    corner.y * math::cos(swung),
                ),
            );
        }
    }
}

/// How far a corner of the room may lie inside the true one, mm: what it is felt out to, and what is certified here.
const FELT: f64 = 0.1 + ACCURACY;

/// A corner of the room with its margin is no nearer to the tire than the margin, in any pose.
fn holds_room(model: &Model, side: Side, corner: Vec3) {
    let solids = model.given.get(side);
    let mut poses = Poses::new(model.motion, model.pose_domain());
    let gap = certify(
        &mut poses,
        &[&solids.tire, &solids.wheel],
        &[Face::point(corner)],
        model.car.travel.give,
        Limits::accuracy(ACCURACY),
    );
    let gap = gap.unwrap_or_else(|| panic!("a point and a tire"));
    let margin = model.car.targets.travel;
    assert!(
        gap.high >= margin - FELT,
        "{corner:?} of a margin of {margin}: {gap:?}"
    );
}

pub fn are_finite(points: &[Vec2]) {
    assert!(points.iter().all(|point| point.is_finite()), "{points:?}");
}

fn curves(model: &Model) {
    let mut work = SweepWork::begin(model, Side::Left, 5);
    let curves = loop {
        if let Some(curves) = timed("curves through travel", || work.step()) {
            break curves;
        }
    };
    let mut numbers = curves.iter().flat_map(|curve| &curve.points);
    assert!(
        numbers.all(|(at, gap)| at.is_finite() && gap.is_finite()),
        "{curves:?}"
    );
}

fn bands(model: &Model, found: &Check) {
    let mut work = BandsWork::begin(model, found);
    let bands: Sides<Vec<_>> = loop {
        if let Some(bands) = timed("a band", || work.step()) {
            break bands;
        }
    };
    for (side, list) in bands.iter() {
        assert_eq!(list.len(), found.sides.get(side).surfaces.len());
        for band in list {
            for spread in [&band.ride, &band.travel] {
                let sound = spread.rss.is_finite() && spread.rss >= 0.0 && spread.worst.is_finite();
                // A sum of squares and a sum are added in different orders.
                assert!(
                    sound && spread.rss <= spread.worst * (1.0 + 1e-9) + 1e-9,
                    "{band:?}"
                );
                let mut shares = spread.shares.iter();
                assert!(shares.all(|share| share.rate.is_finite() && share.error.is_finite()));
            }
        }
    }
}

/// Words, with no number in them that is none.
pub fn says_something(words: &str) {
    assert!(!words.trim().is_empty(), "nothing is said");
    let none = |word: &str| matches!(word, "NaN" | "inf" | "-inf" | "\u{2212}inf");
    let mut numbers =
        words.split(|letter: char| !(letter.is_alphanumeric() || "-\u{2212}.".contains(letter)));
    assert!(!numbers.any(none), "{words}");
}
