//! What to doubt, for programs: bands, the three tires, warnings.

use geometry::check::{Check, Verdict};
use geometry::field::Fault;
use geometry::model::Model;
use geometry::side::Side;
use geometry::tolerance;
use geometry::units::Notation;
use serde::Serialize;

use crate::doubts::answers;

#[derive(Serialize)]
pub struct Band {
    ride_rss_mm: f64,
    ride_worst_mm: f64,
    travel_rss_mm: f64,
    travel_worst_mm: f64,
    decides: &'static str,
    could_be: Option<[&'static str; 2]>,
    matters_most: Option<Matters>,
}

#[derive(Serialize)]
struct Matters {
    measurement: String,
    error_mm: f64,
    rate: f64,
}

#[derive(Serialize)]
pub struct Asked {
    tire: &'static str,
    section_width_mm: f64,
    overall_diameter_mm: f64,
    verdict: Option<&'static str>,
    no_such_tire: Vec<Refused>,
}

#[derive(Serialize)]
struct Refused {
    at: String,
    found: String,
    accepted: String,
}

#[derive(Serialize)]
pub struct Warning {
    topic: &'static str,
    side: Option<&'static str>,
    reading: Option<&'static str>,
    found_mm: f64,
    limit_mm: f64,
    words: String,
    source: &'static str,
    caution: &'static str,
}

pub fn band(band: &tolerance::Band) -> Band {
    let most = band.deciding().shares.first();
    Band {
        ride_rss_mm: band.ride.rss,
        ride_worst_mm: band.ride.worst,
        travel_rss_mm: band.travel.rss,
        travel_worst_mm: band.travel.worst,
        decides: if band.ride_decides { "ride" } else { "travel" },
        could_be: band.could_be.map(|ends| ends.map(Verdict::word)),
        matters_most: most.map(|share| Matters {
            measurement: share.measurement.key(),
            error_mm: share.error,
            rate: share.rate,
        }),
    }
}

pub fn tires(model: &Model) -> Vec<Asked> {
    answers(model)
        .map(|answer| {
            let verdict = answer
                .check
                .as_ref()
                .ok()
                .map(|check| check.verdict().word());
            let faults = answer.check.err().unwrap_or_default();
            Asked {
                tire: answer.tire.words(),
                section_width_mm: answer.section_width,
                overall_diameter_mm: answer.diameter,
                verdict,
                no_such_tire: faults.into_iter().map(refused).collect(),
            }
        })
        .collect()
}

fn refused(fault: Fault) -> Refused {
    Refused {
        at: fault.at,
        found: fault.found,
        accepted: fault.accepted,
    }
}

pub fn warnings(model: &Model, check: &Check) -> Vec<Warning> {
    geometry::warnings::warnings(model, check)
        .into_iter()
        .map(|warning| Warning {
            topic: warning.topic.key(),
            side: warning.side.map(Side::word),
            reading: warning.reading,
            found_mm: warning.found,
            limit_mm: warning.limit,
            words: warning.words(Notation::InchFractions),
            source: warning.source,
            caution: warning.topic.caution(),
        })
        .collect()
}
