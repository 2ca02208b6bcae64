//! A figure that the reader may play with: what it shows, what its lever moves, and what is said of it. Nothing here
//! changes the car on the bench.

use drawing::walk_round::{self, Panel};
use drawing::{Dimensions, Shown};
use geometry::answers::{Answer, Outcome, Remedy};
use geometry::body::SurfaceId;
use geometry::car::{Car, Lever};
use geometry::course::{Course, Found, Plan};
use geometry::field::Quantity;
use geometry::gap::Gap;
use geometry::model::Model;
use geometry::mount::Mounting;
use geometry::side::{Side, Sides};
use geometry::travel::Pose;
use geometry::units::{self, Notation};

use super::around::pose_words;
use super::dial::{Dial, Scale};
use super::scrub::Scrub;

/// What a figure shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum View {
    /// The car from behind.
    Rear {
        /// Which sides.
        shown: Shown,
        /// Which dimensions.
        dimensions: Dimensions,
        /// Whether all the room that the tire takes through travel is drawn.
        room: bool,
    },
    /// The fill strip of one side, laid flat.
    Piece(Side),
    /// The car from behind, cut where tire and metal come nearest through travel, the axle as it stands then.
    Nearest,
    /// The wheel of one side on its way past the lip.
    Mount(Side),
}

/// What a figure's lever moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Knob {
    /// A lever of the car.
    Lever(Lever),
    /// Both wheels, up and down.
    Heave,
    /// One wheel, up and down; the axle goes along as it does where it began.
    Wheel(Side),
    /// The upper reading from the axle flange to the tub, on both sides.
    TubHigh,
}

/// What is to be seen in a figure, for whoever puts it in words.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'a> {
    /// The car as the figure began.
    pub base: &'a Found,
    /// The car with the lever where it is.
    pub found: &'a Found,
    /// Where the wheels stand.
    pub pose: Pose,
    /// The gaps there, unless it is at ride height.
    pub held: Option<&'a Gaps>,
    /// The wheel's way on, where the figure shows it and it is found.
    pub mounting: Option<&'a Mounting>,
    /// How lengths are written.
    pub notation: Notation,
}

/// Each surface's gap in one pose.
pub type Gaps = Sides<Vec<(SurfaceId, Gap)>>;

/// A figure.
#[derive(Debug, Clone, Copy)]
pub struct Exhibit {
    /// What it shows.
    pub view: View,
    /// What its lever moves.
    pub knob: Knob,
    /// What is said of it.
    pub say: fn(&Seen) -> String,
    /// Where the axle is held until the reader moves it.
    pub start: fn(&Found) -> Scrub,
}

/// How far a reading is played with, either way, mm.
const MISREAD: f64 = 19.05;

/// A figure of nothing, before there is a car.
pub const NOTHING: Exhibit = Exhibit {
    view: View::Piece(Side::Left),
    knob: Knob::Heave,
    say: |_| String::new(),
    start: at_ride,
};

impl Knob {
    /// What the lever is called.
    pub fn label(self) -> &'static str {
        match self {
            Knob::Lever(Lever::SeamMove) => "Tub set inboard",
            Knob::Lever(Lever::RideHeight) => "Body up or down",
            Knob::Lever(lever) => lever.bound().label,
            Knob::Heave => "Both wheels",
            Knob::Wheel(Side::Left) => "Left wheel, with the axle's tilt",
            Knob::Wheel(Side::Right) => "Right wheel, with the axle's tilt",
            Knob::TubHigh => "To the tub, high",
        }
    }

    /// What kind of number it is.
    pub fn quantity(self) -> Quantity {
        match self {
            Knob::Lever(lever) => lever.bound().quantity,
            Knob::Heave | Knob::Wheel(_) | Knob::TubHigh => Quantity::Length,
        }
    }

    /// Where it stands on a car.
    pub fn value(self, car: &Car) -> f64 {
        match self {
            Knob::Lever(lever) => lever.get(car),
            Knob::Heave | Knob::Wheel(_) => 0.0,
            Knob::TubHigh => car.sides.left.tape.to_tub_high.value,
        }
    }

    /// Its marks, for a figure that began with this car: as far as there is such a car.
    pub fn scale(self, base: &Model, notation: Notation) -> Scale {
        match self {
            Knob::Lever(lever) => {
                let dial = Dial::Lever(lever);
                let value = lever.get(&base.car);
                let scale =
                    dial.scale(value, value, dial.limit(|| Some(base.seam_limit)), notation);
                let is_one = |position: f64| {
                    let mut car = base.car.clone();
                    dial.set(&mut car, scale.value(position));
                    Model::new(&car).is_ok()
                };
                let here = scale.position(value);
                Scale {
                    least: farthest(here.floor(), scale.least, is_one),
                    most: farthest(here.ceil(), scale.most, is_one),
                    ..scale
                }
            }
            Knob::Heave | Knob::Wheel(_) => {
                let travel = &base.car.travel;
                Scale::between(-travel.droop, travel.bump, notation)
            }
            Knob::TubHigh => {
                let value = self.value(&base.car);
                Scale::between(value - MISREAD, value + MISREAD, notation)
            }
        }
    }

    /// The car with the lever moved, which may be a car that cannot be.
    pub fn moved(self, base: &Found, value: f64) -> Option<Found> {
        match self {
            Knob::Lever(lever) => {
                let mut car = base.model.car.clone();
                Dial::Lever(lever).set(&mut car, value);
                Some(Found::of(Model::new(&car).ok()?))
            }
            Knob::Heave | Knob::Wheel(_) => Some(base.clone()),
            Knob::TubHigh => {
                let mut car = base.model.car.clone();
                for side in Side::BOTH {
                    let tape = &mut car.sides.get_mut(side).tape;
                    tape.to_tub_high = tape.to_tub_high.retaken(value);
                }
                Some(Found::of(Model::new(&car).ok()?))
            }
        }
    }
}

impl Knob {
    /// Where it stands while the axle is held there; `None` where it moves no axle.
    pub fn on_axle(self, scrub: Scrub) -> Option<f64> {
        match self {
            Knob::Heave => Some(scrub.heave),
            Knob::Wheel(side) => Some(wheel(scrub, side)),
            Knob::Lever(_) | Knob::TubHigh => None,
        }
    }

    /// Where it holds the axle that began at `start`; `None` where it moves no axle.
    pub fn axle(self, value: f64, start: Scrub) -> Option<Scrub> {
        match self {
            Knob::Heave => Some(Scrub {
                heave: value,
                ..Scrub::RIDE
            }),
            Knob::Wheel(side) => {
                let share = value / wheel(start, side);
                Some(Scrub {
                    heave: start.heave * share,
                    tilt: start.tilt * share,
                    give: start.give * share,
                })
            }
            Knob::Lever(_) | Knob::TubHigh => None,
        }
    }
}

/// How far a wheel is above ride height, before its stops.
fn wheel(scrub: Scrub, side: Side) -> f64 {
    match side {
        Side::Left => scrub.heave + scrub.tilt,
        Side::Right => scrub.heave - scrub.tilt,
    }
}

/// The axle where the car stands.
pub fn at_ride(_: &Found) -> Scrub {
    Scrub::RIDE
}

/// The axle where tire and metal come nearest through travel, or overlap most.
fn at_worst(found: &Found) -> Scrub {
    found.check.worst().map_or(Scrub::RIDE, |(_, surface)| {
        Scrub::at(surface.travel.witness.pose)
    })
}

/// Less than this of a wheel's travel is no way to the worst, mm: a few marks of a tape.
const NO_WAY: f64 = 6.35;

/// What leads from rest to where tire and metal come nearest: the wheel with the axle's tilt, or both wheels where it
/// hardly rises or falls there.
fn to_worst(bare: &Found, side: Side) -> Knob {
    if wheel(at_worst(bare), side).abs() < NO_WAY {
        Knob::Heave
    } else {
        Knob::Wheel(side)
    }
}

/// The farthest whole position on the way from `here` to `end` up to which there is such a car.
fn farthest(here: f64, end: f64, is_one: impl Fn(f64) -> bool) -> f64 {
    if is_one(end) {
        return end;
    }
    let (mut near, mut far) = (here, end);
    while (far - near).abs() > 1.0 {
        let middle = f64::midpoint(near, far).round();
        if is_one(middle) {
            near = middle;
        } else {
            far = middle;
        }
    }
    near
}

/// The figure of a panel of the Walk-round, as far as the course is known.
pub fn of_panel(panel: Panel, bare: &Found, course: Option<&Course>) -> Exhibit {
    let side = bare.check.worst().map_or(Side::Left, |(side, _)| side);
    let close = |room| View::Rear {
        shown: Shown::One(side),
        dimensions: Dimensions::Gaps,
        room,
    };
    let whole = View::Rear {
        shown: Shown::Both,
        dimensions: Dimensions::None,
        room: false,
    };
    let named = View::Rear {
        shown: Shown::One(side),
        dimensions: Dimensions::Parts,
        room: false,
    };
    let (view, knob, say): (View, Knob, fn(&Seen) -> String) = match panel {
        Panel::Want => (named, Knob::Lever(Lever::SectionWidth), |seen| {
            walk_round::size(seen.found, seen.notation)
        }),
        Panel::Stops => (close(false), to_worst(bare, side), say_held),
        Panel::Tried => (close(true), Knob::Lever(Lever::Backspacing), |seen| {
            walk_round::spent(seen.found, seen.notation)
        }),
        Panel::Change => (close(true), Knob::Lever(changed(course)), say_changed),
        Panel::Means if course.is_some_and(Course::cuts) => {
            let cut = |side: &Side| {
                course
                    .is_some_and(|course| course.done().model.car.sides.get(*side).seam_move > 0.0)
            };
            let side = if cut(&side) { side } else { other(side) };
            let say: fn(&Seen) -> String = match side {
                Side::Left => {
                    |seen| walk_round::piece_words(&seen.found.model, Side::Left, seen.notation)
                }
                Side::Right => {
                    |seen| walk_round::piece_words(&seen.found.model, Side::Right, seen.notation)
                }
            };
            (View::Piece(side), Knob::Lever(Lever::SeamMove), say)
        }
        Panel::Means => (close(true), Knob::Lever(Lever::Bump), say_whole),
        Panel::Look => (whole, Knob::Lever(Lever::RideHeight), |seen| {
            format!("Now {}", walk_round::seen(seen.found, seen.notation))
        }),
    };
    let start = match panel {
        Panel::Stops => at_worst,
        _ => at_ride,
    };
    Exhibit {
        view,
        knob,
        say,
        start,
    }
}

fn other(side: Side) -> Side {
    match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// What is changed first of all: the seam where metal is cut.
fn changed(course: Option<&Course>) -> Lever {
    let Some(course) = course.filter(|course| !course.cuts()) else {
        return Lever::SeamMove;
    };
    let first = match &course.plan {
        Plan::Mix(_) | Plan::Stands(_) => {
            let first = course.changes().first().map(|change| change.remedy);
            first.or(Some(Remedy::SectionWidth))
        }
        Plan::Nothing => Some(Remedy::SectionWidth),
        Plan::Cannot(_, last) => {
            let works = |answer: &&Answer| matches!(answer.outcome, Outcome::Works(_));
            let mut works = last
                .answers
                .iter()
                .filter(works)
                .map(|answer| answer.remedy);
            works.find(|remedy| *remedy == Remedy::Diameter)
        }
    };
    match first {
        Some(Remedy::Backspacing) => Lever::Backspacing,
        Some(Remedy::TrackWidth) => Lever::TrackWidth,
        Some(Remedy::Bump) => Lever::Bump,
        Some(Remedy::RideHeight) => Lever::RideHeight,
        Some(Remedy::SectionWidth) => Lever::SectionWidth,
        Some(Remedy::Diameter) => Lever::OverallDiameter,
        _ => Lever::SeamMove,
    }
}

fn say_whole(seen: &Seen) -> String {
    walk_round::hits_or_not(seen.found, seen.notation)
}

/// The same, and where the move of a seam ends.
fn say_changed(seen: &Seen) -> String {
    let model = &seen.found.model;
    let limit = model.seam_limit.left.min(model.seam_limit.right);
    // The lever stands on a mark of the tape, so the last one may be a mark short of the limit.
    let is_last = units::step(seen.notation) > limit - Lever::SeamMove.get(&model.car);
    let whole = say_whole(seen);
    if is_last {
        format!("{whole} This is as far inboard as the frame rail lets the tub go.")
    } else {
        whole
    }
}

fn say_held(seen: &Seen) -> String {
    let words = format!("With {}", pose_words(seen.pose, seen.notation));
    let at_rest = || {
        Sides::each(|side| {
            let surfaces = seen.found.check.sides.get(side).surfaces.iter();
            surfaces.map(|surface| (surface.id, surface.ride)).collect()
        })
    };
    let held = seen.held.cloned().unwrap_or_else(at_rest);
    walk_round::held(seen.found, &held, &words, seen.notation)
}

#[cfg(test)]
mod tests {
    use geometry::answers::Preferences;
    use geometry::course::CourseWork;

    use super::*;
    use crate::state::opening;

    const NOTATION: Notation = Notation::InchFractions;

    /// Every panel's figure of every invented car.
    fn each(check: impl Fn(Panel, &Found, Exhibit)) {
        for index in 0..carfile::SCENARIOS.len() {
            let work = opening::invented(index).expect("it opens");
            let model = Model::new(&work.car).expect("it has a model");
            let course = CourseWork::begin(&model, &Preferences::default()).whole();
            for panel in Panel::ALL {
                let base = match panel {
                    Panel::Want | Panel::Stops | Panel::Tried => &course.bare,
                    _ => course.done(),
                };
                check(panel, base, of_panel(panel, &course.bare, Some(&course)));
            }
        }
    }

    #[test]
    fn what_stops_it_can_be_led_from_rest_to_the_hit() {
        each(|panel, base, exhibit| {
            if panel != Panel::Stops {
                return;
            }
            let worst = at_worst(base);
            assert_eq!((exhibit.start)(base), worst);
            let value = exhibit.knob.on_axle(worst).expect("it moves the axle");
            let there = exhibit.knob.axle(value, worst).expect("it moves the axle");
            if let Knob::Wheel(_) = exhibit.knob {
                // One product and one quotient of each number.
                for (one, other) in [(there.heave, worst.heave), (there.tilt, worst.tilt)] {
                    assert!((one - other).abs() <= 2.0 * f64::EPSILON * other.abs());
                }
            }
            let rest = exhibit.knob.axle(0.0, worst).expect("it moves the axle");
            assert_eq!(rest.pose(&base.model.car.travel), Pose::RIDE);
        });
    }

    #[test]
    fn every_lever_can_be_moved_and_its_sentence_follows() {
        each(|panel, base, exhibit| {
            let scale = exhibit.knob.scale(&base.model, NOTATION);
            assert!(scale.least < scale.most, "{panel:?} {:?}", exhibit.knob);
            let said = |position: f64| {
                let value = scale.value(position);
                let found = exhibit.knob.moved(base, value)?;
                let axle = exhibit.knob.axle(value, (exhibit.start)(base));
                let pose = axle.map_or(Pose::RIDE, |axle| axle.pose(&base.model.car.travel));
                let held = geometry::check::at_pose(&found.model, pose, 0.1);
                let seen = Seen {
                    base,
                    found: &found,
                    pose,
                    held: Some(&held),
                    mounting: None,
                    notation: NOTATION,
                };
                Some((exhibit.say)(&seen))
            };
            let here = scale.position(exhibit.knob.value(&base.model.car));
            let [low, here, high] = [scale.least, here, scale.most].map(said);
            assert!(
                low.is_some() && high.is_some(),
                "{panel:?}: there is no such car"
            );
            for words in [&low, &here, &high].into_iter().flatten() {
                assert!(
                    words.ends_with('.') && !words.contains("NaN"),
                    "{panel:?}: {words}"
                );
            }
            assert!(here.is_some(), "{panel:?}");
            assert!(low != here || high != here, "{panel:?}: {here:?}");
        });
    }

    #[test]
    fn before_the_course_is_known_every_panel_has_a_figure() {
        let work = opening::invented(0).expect("it opens");
        let bare = Found::bare(&Model::new(&work.car).expect("it has a model"));
        for panel in Panel::ALL {
            let exhibit = of_panel(panel, &bare, None);
            assert!(!exhibit.knob.label().is_empty());
        }
    }
}
