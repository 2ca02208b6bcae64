//! Will it go on: each way that is found, against a general collision library that knows nothing of how it was found.

use geometry::car::Car;
use geometry::chain::Chain;
use geometry::gap::{Face, Limits, Poses};
use geometry::model::Model;
use geometry::mount::{DROOP_STEP, Finding, Mounting, OVERLAP, Place};
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{Vec2, Vec3, vec2, vec3};
use geometry::travel::Pose;
use parry2d_f64::math::Vector;
use parry2d_f64::query::PointQuery as _;
use parry2d_f64::shape::ConvexPolygon;

/// How far the polygons' chords stay inside the tire, mm.
const SAGITTA: f64 = 0.002;
/// How exact the library's own distance search is, mm: the square root of its numbers' rounding on lengths below 1e3.
const SEARCH: f64 = 2e-5;
/// The way is looked at in so many places between its two ends.
const LOOKS: u32 = 100;
/// Where the body is near, its points are taken no further apart than twice this, mm.
const FINE: f64 = 1.5;
/// How much less than the rim's nominal radius the wheel's hollow has, mm; see `mount/hub.rs`.
const WELL: f64 = 25.4;

#[test]
fn no_way_overlaps_the_body_by_more_than_the_stated_step() {
    let mut ways = 0;
    for (name, model) in cars() {
        for side in Side::BOTH {
            let found = Mounting::whole(&model, side);
            let library = Library::new(&model, side);
            for look in 0..=LOOKS {
                if found.way.is_empty() {
                    break;
                }
                let place = found.at(f64::from(look) / f64::from(LOOKS));
                library.assert_nothing_below(-OVERLAP, &found, place);
                library.assert_past_the_hub(&model, &found, place);
            }
            for stop in &found.way {
                library.assert_nothing_below(stop.clearance, &found, stop.place);
                let there = library.distance(&found, stop.place, stop.spot.at_body);
                assert!(there >= stop.spot.gap - SEARCH, "{name}: {there}");
            }
            ways += usize::from(!found.way.is_empty());
        }
    }
    assert!(ways >= 6, "the invented cars have {ways} ways");
}

#[test]
fn a_way_begins_outside_and_ends_on_the_flange() {
    for (name, model) in cars() {
        for side in Side::BOTH {
            let found = Mounting::whole(&model, side);
            let (Some(first), Some(last)) = (found.way.first(), found.way.last()) else {
                // What does not go on at all is a tire that overlaps the body where it sits.
                assert!(matches!(found.finding, Finding::NoWay { .. }));
                assert!(found.seated.gap < 0.0, "{name}, {side:?}");
                continue;
            };
            assert_eq!(last.place, Place::default());
            let tire = &model.solids.get(side).tire;
            let inboard = tire.chain.support(vec2(-1.0, 0.0));
            let lip = model.stock.get(side).points[0].x;
            assert!(tire.center_plane + first.place.sideways - inboard > lip - 60.0);
            assert!(first.clearance > 0.0, "{name}, {side:?}");
        }
    }
}

#[test]
fn where_it_sits_the_certified_gap_says_the_same() {
    for (name, model) in cars() {
        for side in Side::BOTH {
            let seated = Mounting::whole(&model, side).seated;
            let mut poses = Poses::at(model.motion, Pose::heave(-model.car.travel.droop));
            let solids = model.solids.get(side);
            let gaps = model.faces(side).into_iter().filter_map(|faces| {
                // The ground does not press on a tire that hangs.
                let low = Vec::new();
                let hanging = geometry::model::SurfaceFaces { low, ..faces };
                hanging.gap(&mut poses, solids, 0.0, Limits::accuracy(0.01))
            });
            let (low, high) = gaps.fold((f64::INFINITY, f64::INFINITY), |(low, high), gap| {
                (gap.low.min(low), gap.high.min(high))
            });
            assert!(seated.gap >= low, "{name}, {side:?}: {seated:?}, {low}");
            let slack = (0.15 * seated.gap).max(0.25);
            assert!(
                seated.gap <= high + slack,
                "{name}, {side:?}: {seated:?}, {high}"
            );
        }
    }
}

#[test]
fn a_low_lip_takes_droop_and_says_how_much() {
    let mut car = car("sedan");
    car.travel.droop -= 38.0;
    let found = Mounting::whole(&modeled(&car), Side::Left);
    let Finding::WithDroop(extra) = found.finding else {
        panic!("{:?}", found.finding);
    };
    assert!(extra > 0.0 && !found.way.is_empty());
    let with = |more: f64| {
        let mut car = car.clone();
        car.travel.droop += more;
        Mounting::whole(&modeled(&car), Side::Left).finding
    };
    assert_eq!(with(extra), Finding::GoesOn);
    assert_ne!(with(extra - DROOP_STEP), Finding::GoesOn);
}

#[test]
fn what_stands_in_the_way_is_not_gone_through() {
    let mut car = car("coupe");
    let model = modeled(&car);
    let right = Mounting::whole(&model, Side::Right);
    assert_eq!(right.finding, Finding::GoesOn);
    // Bars across the opening, behind which nothing can come out.
    for (ahead, up) in [(-250.0, 0.0), (250.0, 0.0), (0.0, -120.0), (0.0, -330.0)] {
        let out = right.seat.x + 190.0;
        car.obstacles.push(geometry::body::Obstacle {
            name: "bar".into(),
            side: Side::Right,
            from: vec3(ahead - 80.0, out, up),
            to: vec3(ahead + 80.0, out, up),
            radius: 12.0,
        });
    }
    let barred = Mounting::whole(&modeled(&car), Side::Right);
    assert!(
        matches!(barred.finding, Finding::NoWay { up_to, searched_through: true } if up_to > 150.0),
        "{:?}",
        barred.finding
    );
    assert!(barred.way.is_empty() && barred.seated.gap > 0.0);
}

#[test]
fn slices_change_nothing() {
    let model = modeled(&car("sedan"));
    let whole = Mounting::whole(&model, Side::Right);
    let mut work = Mounting::begin(&model, Side::Right);
    let sliced = loop {
        if let Some(found) = work.step(3) {
            break found;
        }
    };
    assert_eq!(whole, sliced);
}

/// Tire, wheel and what is hollow in it, in the general library.
struct Library {
    side: Side,
    tire: (Revolved, ConvexPolygon),
    wheel: ConvexPolygon,
    /// The wheel's disc outboard of the mounting face, and its barrel inboard of it.
    shell: [ConvexPolygon; 2],
    faces: Vec<Face>,
}

impl Library {
    fn new(model: &Model, side: Side) -> Self {
        let solids = model.solids.get(side);
        let polygon = |chain: &Chain| hull(&chain.outline(SAGITTA));
        let (half, rim) = (
            model.car.wheel.overall_width() / 2.0,
            model.car.tire.rim_diameter() / 2.0,
        );
        let boxed =
            |from: Vec2, to: Vec2| hull(&[from, vec2(to.x, from.y), to, vec2(from.x, to.y)]);
        let face = model.car.wheel.offset();
        Self {
            side,
            tire: (solids.tire.clone(), polygon(&solids.tire.chain)),
            wheel: polygon(&solids.wheel.chain),
            shell: [
                boxed(vec2(face, 0.0), vec2(half, rim)),
                boxed(vec2(-half, rim - WELL), vec2(face, rim)),
            ],
            faces: model
                .faces(side)
                .into_iter()
                .flat_map(|of| of.faces)
                .collect(),
        }
    }

    fn meridian(&self, found: &Mounting, place: Place, point: Vec3) -> Vector {
        let q = found.placement(place).axle_from_body(point);
        let (at, _) = self.tire.0.meridian(q);
        Vector::new(at.x, at.y)
    }

    fn distance(&self, found: &Mounting, place: Place, point: Vec3) -> f64 {
        let at = self.meridian(found, place, point);
        let away = |polygon: &ConvexPolygon| polygon.distance_to_local_point(at, false);
        away(&self.tire.1).min(away(&self.wheel))
    }

    /// No point of the body that is looked at is nearer than `floor`; pieces that cannot be are not looked at closely.
    #[track_caller]
    fn assert_nothing_below(&self, floor: f64, found: &Mounting, place: Place) {
        let mut open = self.faces.clone();
        while let Some(face) = open.pop() {
            let middle = face.middle();
            let away = self.distance(found, place, middle) - face.radius;
            assert!(
                away >= floor - SEARCH - SAGITTA,
                "{:?}, {place:?}: {away} at {middle:?} is below {floor}",
                self.side
            );
            let far = |&corner: &Vec3| (corner - middle).length();
            let reach = face.corners().iter().map(far).fold(0.0, f64::max) + face.bend;
            if away - reach < floor && reach > FINE {
                open.extend(face.halves());
            }
        }
    }

    /// Off the studs no point of the hub's skin may be in disc, barrel or tire; on them the wheel goes straight.
    fn assert_past_the_hub(&self, model: &Model, found: &Mounting, place: Place) {
        let axle = &model.car.axle;
        if place.sideways < axle.stud_length {
            assert!(
                place.up.abs() < 1e-9 && place.tilt.abs() < 1e-9,
                "{place:?}"
            );
            return;
        }
        let tip = axle.mounting_face() + axle.stud_length;
        let seat = found.placement(Place::default());
        for (along, round) in (0..40).flat_map(|along| (0..24).map(move |round| (along, round))) {
            let turn = std::f64::consts::TAU * f64::from(round) / 24.0;
            let around = Vec2::at_angle(turn) * (axle.flange_diameter / 2.0);
            let out = tip - 10.0 * f64::from(along);
            let skin = vec3(around.x, self.side.sign() * out, around.y);
            let at = self.meridian(found, place, seat.body_from_axle(skin));
            let [disc, barrel] = &self.shell;
            for (what, polygon) in [("disc", disc), ("barrel", barrel), ("tire", &self.tire.1)] {
                let away = polygon.distance_to_local_point(at, false);
                assert!(
                    away >= -OVERLAP,
                    "{place:?}: the hub is {away} in the {what}"
                );
            }
        }
    }
}

fn hull(corners: &[Vec2]) -> ConvexPolygon {
    let corners: Vec<Vector> = corners.iter().map(|p| Vector::new(p.x, p.y)).collect();
    ConvexPolygon::from_convex_hull(&corners).expect("a convex outline")
}

fn car(name: &str) -> Car {
    let scenario = carfile::SCENARIOS
        .iter()
        .find(|scenario| scenario.name == name)
        .expect("an invented car of that name");
    carfile::read(scenario.text).expect("an invented car reads")
}

fn modeled(car: &Car) -> Model {
    Model::new(car).expect("the car has a model")
}

fn cars() -> impl Iterator<Item = (&'static str, Model)> {
    carfile::SCENARIOS
        .iter()
        .map(|scenario| (scenario.name, modeled(&car(scenario.name))))
}
