//! What a builder should know beside the gaps, each with its numbers and where its limit comes from.

use crate::body::tape::TAPE_FIELDS;
use crate::body::{StationTable, Surface};
use crate::check::Check;
use crate::math;
use crate::model::Model;
use crate::side::{Side, Sides};
use crate::units::{Notation, format_length, radians, shown};

/// How much wider than the maker's a track may get, mm.
pub const TRACK_LIMIT: f64 = 25.0;
/// The share of the maker's bump travel that may be taken away.
pub const BUMP_SHARE: f64 = 1.0 / 3.0;
/// From so far behind straight up to so far ahead the body covers the tire, degrees.
pub const COVERED: [f64; 2] = [-50.0, 30.0];
/// The rear edge of what covers the tire, at most so far above the wheel's center, mm.
pub const REAR_EDGE: f64 = 150.0;

const RULES: &str = "Australian state rules: NSW VSI 9, 25 mm; South Australia Road Traffic (Miscellaneous) Regulations r. 25, 26 mm; other places differ";
const TRAVEL_RULES: &str = "Australian state rules: NSW VSI 9, South Australia Road Traffic (Miscellaneous) Regulations r. 25; other places differ";
const GUARD_RULES: &str = "EU 2021/535 annex V, ADR 42; other places differ";
const RIM_LISTS: &str = "from memory of the standards' lists; the tire maker's own list decides";
/// The source of what has none.
pub const PRACTICE: &str = "common practice, no source";

/// What a warning is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Topic {
    /// The rim is narrower than the tire's range.
    NarrowRim,
    /// The rim is wider than the tire's range.
    WideRim,
    /// The track is wider than the maker's by more than some places allow.
    Track,
    /// The tread stands outside the body where rules want it covered.
    Tread,
    /// What covers the tire ends too high behind it.
    RearEdge,
    /// The tire comes nearer to the frame rail than it wobbles.
    RunOut,
    /// Left and right differ by more than a tape's error.
    Unequal,
    /// More than a third of the maker's bump travel is gone.
    Bump,
}

impl Topic {
    /// The word for it in a program's output.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Topic::NarrowRim => "narrow-rim",
            Topic::WideRim => "wide-rim",
            Topic::Track => "track",
            Topic::Tread => "tread",
            Topic::RearEdge => "rear-edge",
            Topic::RunOut => "run-out",
            Topic::Unequal => "unequal",
            Topic::Bump => "bump",
        }
    }

    /// What it is about, in a word or two.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Topic::NarrowRim => "narrow rim",
            Topic::WideRim => "wide rim",
            Topic::Track => "wider track",
            Topic::Tread => "tread outside the body",
            Topic::RearEdge => "high edge behind the tire",
            Topic::RunOut => "tire near the rail",
            Topic::Unequal => "unequal sides",
            Topic::Bump => "less bump travel",
        }
    }

    /// Whether it is about the rim that the tire is put on.
    #[must_use]
    pub fn is_of_the_rim(self) -> bool {
        matches!(self, Topic::NarrowRim | Topic::WideRim)
    }

    /// What may come of it and who decides, in a sentence or two.
    #[must_use]
    pub fn caution(self) -> &'static str {
        match self {
            Topic::NarrowRim | Topic::WideRim => {
                "On a rim out of its range a tire wears unevenly and may come off the rim. Ask the tire's maker which rims it allows before ordering."
            }
            Topic::Track => {
                "A wider track loads bearings, studs and shafts more. Ask your local rules, and a licensed engineer or inspector where they want one."
            }
            Topic::Tread | Topic::RearEdge => {
                "An uncovered tread throws stones and water at whoever is behind. Ask your local rules what has to be covered."
            }
            Topic::RunOut => {
                "A tire that rubs a rail wears through to its cords. Leave more room than the wheel wobbles, and turn the wheel by hand all the way round before driving."
            }
            Topic::Unequal => {
                "Either a reading is wrong or the body is bent. A body that was hit may need straightening before any metal is moved."
            }
            Topic::Bump => {
                "With less bump travel the axle meets its stops sooner and harder, and grip goes with it. Ask your local rules, and a licensed engineer or inspector where they want one."
            }
        }
    }
}

/// A warning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warning {
    /// What it is about.
    pub topic: Topic,
    /// The side, where only one is meant.
    pub side: Option<Side>,
    /// What was found, mm.
    pub found: f64,
    /// The limit that it passes, mm.
    pub limit: f64,
    /// The reading that differs most, for unequal sides.
    pub reading: Option<&'static str>,
    /// Where the limit comes from.
    pub source: &'static str,
}

impl Warning {
    fn new(topic: Topic, [found, limit]: [f64; 2], source: &'static str) -> Self {
        Self {
            topic,
            side: None,
            found,
            limit,
            reading: None,
            source,
        }
    }

    /// The warning in one sentence, with its numbers.
    #[must_use]
    pub fn words(&self, notation: Notation) -> String {
        let (found, limit) = (
            format_length(self.found, notation),
            format_length(self.limit, notation),
        );
        let side = self.side.map_or("", Side::word);
        match self.topic {
            Topic::NarrowRim => format!(
                "The rim, {found}, is narrower than the lists have for this tire: they begin at {limit}."
            ),
            Topic::WideRim => format!(
                "The rim, {found}, is wider than the lists have for this tire: they end at {limit}."
            ),
            Topic::Track => {
                format!("The track is {found} wider than the maker's; some places allow {limit}.")
            }
            Topic::Tread => format!(
                "On the {side} the tread stands {found} outside the body between 30\u{b0} ahead and 50\u{b0} behind."
            ),
            Topic::RearEdge => format!(
                "On the {side} the body's edge behind the tire ends {found} above the wheel's center; some places allow {limit}."
            ),
            Topic::RunOut if self.found < 0.0 => format!(
                "On the {side} the tire hits the frame rail, and it wobbles by {limit} besides."
            ),
            Topic::RunOut if shown(self.found, notation) == 0.0 => format!(
                "On the {side} the tire just touches the frame rail, and it wobbles by {limit} besides."
            ),
            Topic::RunOut => format!(
                "On the {side} the tire comes within {found} of the frame rail, and it wobbles by {limit}."
            ),
            Topic::Unequal => format!(
                "Left and right differ by {found} in \u{201c}{}\u{201d}, more than the tape's error of {limit}: measure it again, or the body is not straight.",
                self.reading.unwrap_or("a reading")
            ),
            Topic::Bump => format!(
                "The bump travel is {found} less than the maker's; some places allow {limit} less, a third."
            ),
        }
    }
}

/// Every warning about a car and its gaps; the check must be of the same model.
#[must_use]
pub fn warnings(model: &Model, check: &Check) -> Vec<Warning> {
    let mut warnings = rim(model);
    warnings.extend(track(model));
    warnings.extend(bump(model));
    warnings.extend(unequal(model));
    for (side, list) in check.sides.iter() {
        let on_side = |warning: Warning| Warning {
            side: Some(side),
            ..warning
        };
        warnings.extend(guard(model, side).into_iter().map(on_side));
        let run_out = model.car.wheel.run_out;
        let rail = list
            .surfaces
            .iter()
            .find(|surface| surface.id.surface == Surface::FrameRail)
            .map(|rail| rail.travel.low);
        if let Some(gap) = rail.filter(|&gap| gap < run_out) {
            warnings.push(on_side(Warning::new(
                Topic::RunOut,
                [gap, run_out],
                PRACTICE,
            )));
        }
    }
    warnings
}

fn rim(model: &Model) -> Vec<Warning> {
    let width = model.car.wheel.rim_width;
    let (least, most) = model.car.tire.rim_range();
    let passed = [
        (width < least).then_some((Topic::NarrowRim, least)),
        (width > most).then_some((Topic::WideRim, most)),
    ];
    passed
        .into_iter()
        .flatten()
        .map(|(topic, limit)| Warning::new(topic, [width, limit], RIM_LISTS))
        .collect()
}

fn track(model: &Model) -> Option<Warning> {
    let more = model.car.track_width() - model.car.stock.track_width?;
    (more > TRACK_LIMIT).then(|| Warning::new(Topic::Track, [more, TRACK_LIMIT], RULES))
}

fn bump(model: &Model) -> Option<Warning> {
    let stock = model.car.stock.bump?;
    let (less, limit) = (stock - model.car.travel.bump, BUMP_SHARE * stock);
    (less > limit).then(|| Warning::new(Topic::Bump, [less, limit], TRAVEL_RULES))
}

/// The reading that differs most beyond its tape error; a guess says nothing about the body.
fn unequal(model: &Model) -> Option<Warning> {
    let car = &model.car;
    let tapes = Sides::each(|side| &car.sides.get(side).tape);
    let mut most: Option<Warning> = None;
    for field in TAPE_FIELDS {
        let (left, right) = ((field.reading)(tapes.left), (field.reading)(tapes.right));
        let apart = (left.value - right.value).abs();
        let error = car.tape_error.of(left).max(car.tape_error.of(right));
        let counts = !left.guess && !right.guess && apart > error;
        if counts && most.is_none_or(|most| apart > most.found) {
            most = Some(Warning {
                reading: Some(field.field.bound.label),
                ..Warning::new(Topic::Unequal, [apart, error], PRACTICE)
            });
        }
    }
    most
}

/// How the body covers the tire on one side, the axle at ride height.
fn guard(model: &Model, side: Side) -> Vec<Warning> {
    let table = model.wheelhouses.get(side);
    let tread = f64::midpoint(model.car.track_width(), model.tire.tread_width);
    let outside = cover(table).map(|cover| tread - cover);
    let ends = table.stations.first().and_then(|rear| {
        let lip = rear.points.first()?;
        Some(lip.y * math::cos(rear.angle) - model.motion.ride)
    });
    let passed = [
        outside
            .filter(|&outside| outside > 0.0)
            .map(|outside| (Topic::Tread, outside, 0.0)),
        ends.filter(|&ends| ends > REAR_EDGE)
            .map(|ends| (Topic::RearEdge, ends, REAR_EDGE)),
    ];
    passed
        .into_iter()
        .flatten()
        .map(|(topic, found, limit)| Warning::new(topic, [found, limit], GUARD_RULES))
        .collect()
}

/// How far out the body stands where it stands out least over the angles to be covered, mm. It runs straight from one
/// station to the next, so that it is least at a station or at an end.
fn cover(table: &StationTable) -> Option<f64> {
    let [rear, front] = COVERED.map(radians);
    let between = table
        .stations
        .iter()
        .map(|station| station.angle)
        .filter(|angle| (rear..=front).contains(angle));
    between
        .chain([rear, front])
        .filter_map(|angle| {
            let station = table.at(angle)?;
            let lip = station
                .segments()
                .filter(|(of, ..)| *of == Surface::QuarterLip);
            lip.map(|(_, a, b)| a.x.max(b.x)).reduce(f64::max)
        })
        .reduce(f64::min)
}
