//! What to doubt about a gap list: how far each gap may be off, what to measure again, other tires, warnings.

use geometry::arrivals::{TireAnswer, three_tires};
use geometry::check::{ACCURACY, Check};
use geometry::model::Model;
use geometry::tire::Arrival;
use geometry::tolerance::bands;
use geometry::units::{Notation, format_length};
use geometry::warnings::warnings;

/// The lines under a gap list, in blocks; those that have nothing to say are left out.
pub fn doubts(model: &Model, check: &Check) -> String {
    let warnings = warnings(model, check).into_iter().map(|warning| {
        let words = warning.words(Notation::InchFractions);
        format!(
            "warning: {words} ({}) {}",
            warning.source,
            warning.topic.caution()
        )
    });
    let blocks = [
        measure_again(model, check),
        tires(model),
        warnings.collect(),
    ];
    let mut text = String::new();
    for line in blocks
        .into_iter()
        .filter(|block| !block.is_empty())
        .flat_map(|block| std::iter::once(String::new()).chain(block))
    {
        text.push_str(&line);
        text.push('\n');
    }
    text
}

/// The verdicts that the tape's error could overturn, each with the measurement that matters most.
fn measure_again(model: &Model, check: &Check) -> Vec<String> {
    let length = |mm: f64| format_length(mm, Notation::InchFractions);
    let mut lines = Vec::new();
    for (side, list) in bands(model, check).iter() {
        for band in list {
            let (Some([worst, best]), Some(measurement)) = (band.could_be, band.measure_again())
            else {
                continue;
            };
            let spread = band.deciding();
            lines.push(format!(
                "measure again: the {} on the {} may be off by {} ({} at worst) and be anything from {} to {}; what matters most: {}",
                band.name,
                side.word(),
                length(spread.rss),
                length(spread.worst),
                worst.word(),
                best.word(),
                measurement.words(&model.car),
            ));
        }
    }
    lines
}

/// The car on the tires that it can have: the one at speed only where the car says that it grows.
pub fn answers(model: &Model) -> impl Iterator<Item = TireAnswer> {
    let grows = model.car.tire.growth > 0.0;
    three_tires(&model.car, ACCURACY)
        .into_iter()
        .filter(move |answer| grows || answer.tire != Arrival::AtSpeed)
}

/// The verdict on each tire, with its size; or what does not go together, and by how much.
fn tires(model: &Model) -> Vec<String> {
    let length = |mm: f64| format_length(mm, Notation::Millimeters);
    answers(model)
        .map(|answer| {
            let verdict = match &answer.check {
                Ok(check) => check.verdict().word().to_owned(),
                Err(faults) => {
                    let found = faults.iter().map(|fault| fault.found.as_str());
                    format!(
                        "there is no such tire on this rim: {}",
                        found.collect::<Vec<_>>().join("; ")
                    )
                }
            };
            format!(
                "tire, {}: section {}, diameter {}: {verdict}",
                answer.tire.words(),
                length(answer.section_width),
                length(answer.diameter)
            )
        })
        .collect()
}
