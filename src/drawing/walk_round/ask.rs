//! What the owner does well to ask before the work is ordered: of money, time and rules the geometry knows nothing, but it
//! knows which of these questions this car raises.

use geometry::answers::{Change, Remedy};
use geometry::course::{Course, Plan};
use geometry::side::{Side, Sides};
use geometry::units::{Notation, format_length, shown};

use super::look::tread_outside;
use super::phrases::each;

/// The questions, each a sentence or two.
#[must_use]
pub fn questions(course: &Course, notation: Notation) -> Vec<String> {
    let mut all = Vec::new();
    if matches!(course.plan, Plan::Cannot(..)) {
        all.push("Which tire would fit without cutting, and would it do?".to_owned());
    }
    all.push(if course.cuts() {
        "What do wheel, tire and all the work cost together, and what is added if rust or a wrong reading is found behind the sheet? How long does the car stand?".to_owned()
    } else {
        "What do wheel, tire and the work cost together, and how long does the car stand?"
            .to_owned()
    });
    if course.cuts() {
        all.push(format!(
            "What sits where the tub goes, {} farther into the body: seat, seat belts, trunk, tank, lines? Cut metal is never again as the factory made it, so this is asked first.",
            seams(course, notation)
        ));
    }
    all.extend(
        course
            .changes()
            .iter()
            .filter_map(|change| changed(change, notation)),
    );
    let model = &course.done().model;
    let outside = Sides::each(|side| tread_outside(model, side));
    let farthest = outside.left.max(outside.right);
    if shown(farthest, notation) > 0.0 {
        all.push(format!(
            "The tread stands out of the body by up to {}. Do your local rules let it?",
            format_length(farthest, notation)
        ));
    }
    all.push("Does the car have to be inspected or approved afterward, and who sees to that? Does the insurer have to know?".to_owned());
    all
}

/// How far the tubs go inboard.
fn seams(course: &Course, notation: Notation) -> String {
    let sides = &course.done().model.car.sides;
    let [left, right] = Side::BOTH.map(|side| sides.get(side).seam_move);
    each(left, right, notation)
}

/// What a change raises.
fn changed(change: &Change, notation: Notation) -> Option<String> {
    let say = |length: f64| format_length(length.abs(), notation);
    match change.remedy {
        Remedy::Bump => Some(format!(
            "The axle may rise {} in place of {}. How does the car ride then, with people in the back?",
            say(change.to),
            say(change.from)
        )),
        Remedy::RideHeight => {
            let way = if change.to > change.from {
                "higher"
            } else {
                "lower"
            };
            Some(format!(
                "The body sits {} {way}. What else moves with it: driveshaft, brake hoses, lamps?",
                say(change.to - change.from)
            ))
        }
        Remedy::Backspacing => Some(
            "Who makes sure that the wheel clears the brake and is rated for the load?".to_owned(),
        ),
        Remedy::TrackWidth | Remedy::Ahead => {
            Some("Who changes the axle, and who checks it before it is driven?".to_owned())
        }
        Remedy::SectionWidth | Remedy::Diameter => {
            Some("Is that a tire that can be bought, and is it rated for the car?".to_owned())
        }
        Remedy::Seam(_) | Remedy::Roof(_) => None,
    }
}
