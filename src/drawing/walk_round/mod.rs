//! The Walk-round in words: the course of the work as its owner is told it, panel by panel, in plain sentences.
//!
//! Every number is taken from the course: the same gap lists and answers that the pictures beside the sentences are
//! drawn from. A trade's word is used only beside its meaning.

mod ask;
mod change;
mod look;
mod means;
mod phrases;
mod piece;
mod stops;
mod tried;

use geometry::course::{Course, Found, Plan};
use geometry::units::{Notation, format_length, shown};
use geometry::warnings::Topic;

pub use ask::questions;
pub use look::seen;
pub use phrases::{between, hits_or_not, lower, size, weight};
pub use piece::{piece, piece_words};
pub use stops::held;
pub use tried::{room_each_way, spent};

/// What one panel says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Telling {
    /// Its heading.
    pub heading: &'static str,
    /// Its sentences, a paragraph each.
    pub sentences: Vec<String>,
    /// What is listed below them, each with its name.
    pub lines: Vec<(String, String)>,
}

/// The panels, in the order in which they are walked past.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Panel {
    /// The tire that is wanted, in its place.
    Want,
    /// What stops it in the wheelhouses as the factory made them.
    Stops,
    /// What was tried before cutting.
    Tried,
    /// What will be changed.
    Change,
    /// What that means: metal, orders, cautions.
    Means,
    /// What it will look like from behind.
    Look,
}

impl Panel {
    /// All of them.
    pub const ALL: [Panel; 6] = [
        Panel::Want,
        Panel::Stops,
        Panel::Tried,
        Panel::Change,
        Panel::Means,
        Panel::Look,
    ];

    /// A word for use in addresses and ids.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Panel::Want => "want",
            Panel::Stops => "stops",
            Panel::Tried => "tried",
            Panel::Change => "change",
            Panel::Means => "means",
            Panel::Look => "look",
        }
    }

    /// What the panel says of a course.
    #[must_use]
    pub fn told(self, course: &Course, notation: Notation) -> Telling {
        match self {
            Panel::Want | Panel::Stops => self.told_early(&course.bare, notation),
            Panel::Tried => tried::told(course, notation),
            Panel::Change => change::told(course, notation),
            Panel::Means => means::told(course, notation),
            Panel::Look => look::told(course, notation),
        }
    }
}

impl Panel {
    /// What the panel says before the course is worked out: all of it where only the bare car matters, else its heading.
    #[must_use]
    pub fn told_early(self, bare: &Found, notation: Notation) -> Telling {
        let heading = match self {
            Panel::Want => return want(bare, notation),
            Panel::Stops => return stops::told(bare, notation),
            Panel::Tried => tried::HEADING,
            Panel::Change => change::HEADING,
            Panel::Means => means::HEADING,
            Panel::Look => look::HEADING,
        };
        Telling {
            heading,
            ..Telling::default()
        }
    }
}

/// The whole in one sentence, for whoever reads no further.
#[must_use]
pub fn in_short(course: &Course, notation: Notation) -> String {
    let stops = phrases::what(&course.bare);
    match &course.plan {
        Plan::Nothing => {
            "The tire fits under the car as the factory made it: nothing has to be cut.".to_owned()
        }
        Plan::Mix(..) if course.cuts() => format!(
            "The tire does not fit because the {stops} is in its way{}, and nothing short of cutting makes the room: {}{}.",
            when(&course.bare, notation),
            change::cut_words(course.done(), notation),
            change::besides_words(course)
        ),
        Plan::Stands(_) if course.cuts() => format!(
            "The tire does not fit because the {stops} is in its way. With this it does: {}{}.",
            change::cut_words(course.done(), notation),
            change::besides_words(course)
        ),
        Plan::Stands(_) | Plan::Mix(..) => format!(
            "The tire does not fit as it is because of the {stops}, but nothing has to be cut: {}.",
            change::no_cut_words(course, notation)
        ),
        Plan::Cannot(..) => format!(
            "The tire does not fit because of the {stops}, and re-setting the tub, the inner half of the wheelhouse, does not change that."
        ),
    }
}

/// When the metal is in the way, where it is not always.
fn when(bare: &Found, notation: Notation) -> &'static str {
    match bare.check.worst() {
        Some((_, worst)) if shown(worst.ride.low, notation) > 0.0 => {
            " when the axle rises and tilts on the road"
        }
        _ => "",
    }
}

fn want(bare: &Found, notation: Notation) -> Telling {
    let car = &bare.model.car;
    let say = |length: f64| format_length(length, notation);
    Telling {
        heading: "What you want",
        sentences: vec![
            format!(
                "This tire under the back of the car: {}, {} wide and {} tall, on a wheel {} wide.",
                car.tire.designation.text,
                say(car.section_width()),
                say(car.overall_diameter()),
                say(car.wheel.rim_width)
            ),
            "The picture looks at the car from behind, cut open at the axle. The room for a tire ends outside at the \
             quarter lip, the folded edge of the body over the wheel, and inside at the frame rail, a beam that \
             carries the car. Between them stands the wheelhouse, a sheet-metal box round the tire. Its inner half \
             is called the tub."
                .to_owned(),
        ],
        lines: means::warned(bare, notation, Topic::is_of_the_rim),
    }
}
