//! Gaps found with the mock-up: where each is found, and what they say about the readings.

use geometry::body::SurfaceId;
use geometry::car::{Car, FoundGap};
use geometry::metal::fit::GAP_ERROR;
use geometry::metal::{Change, Fit, FitRow};
use geometry::model::Model;
use geometry::side::Side;
use geometry::travel::Pose;
use geometry::units::{Notation, format_length, shown};

/// How many times its tape error a correction may be before it is called more than a slip of the tape.
const PLAUSIBLE: f64 = 3.0;

/// Where a gap is found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The side.
    pub side: Side,
    /// The surface.
    pub id: SurfaceId,
    /// The pose.
    pub pose: Pose,
}

/// Whether two poses are the same position of a mock-up: they differ by more than this, mm, and a car's file rounds less.
fn is_same(one: Pose, other: Pose) -> bool {
    const SAME: f64 = 1e-6;
    let apart = [
        one.left - other.left,
        one.right - other.right,
        one.give - other.give,
    ];
    apart.iter().all(|apart| apart.abs() < SAME)
}

impl Spot {
    fn is_of(self, one: &FoundGap) -> bool {
        one.side == self.side && one.id == self.id && is_same(one.pose, self.pose)
    }

    /// The gap that was found there, mm.
    pub fn gap(self, found: &[FoundGap]) -> Option<f64> {
        let one = found.iter().find(|one| self.is_of(one));
        one.map(|one| one.gap)
    }

    /// All that was found, with this gap in place of what was found there before.
    pub fn with(self, found: &[FoundGap], gap: Option<f64>) -> Vec<FoundGap> {
        let mut all: Vec<FoundGap> = found.to_vec();
        let place = all.iter().position(|one| self.is_of(one));
        match (place, gap) {
            (Some(place), Some(gap)) => all[place].gap = gap,
            (Some(place), None) => {
                all.remove(place);
            }
            (None, Some(gap)) => all.push(FoundGap {
                side: self.side,
                id: self.id,
                pose: self.pose,
                gap,
            }),
            (None, None) => {}
        }
        all
    }
}

/// What the found gaps say, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// One or two sentences.
    pub finding: String,
    /// Each found gap: where, predicted, found, and what would be predicted after the likeliest correction.
    pub rows: Vec<[String; 4]>,
    /// The car with the likeliest correction, where one is worth taking over.
    pub corrected: Option<Car>,
    /// What all readings together would have to be corrected by, each in words, and the car with that.
    pub together: Vec<String>,
    /// The car with all of that.
    pub corrected_together: Option<Car>,
}

/// Puts a fit into words.
pub fn say(model: &Model, fit: &Fit, notation: Notation) -> Said {
    let length = |value: f64| format_length(value, notation);
    let [before, after] = fit.misfit;
    let agrees = before <= GAP_ERROR;
    // What nobody could read off a tape is no better.
    let is_better = shown(after, notation) < shown(before, notation);
    let likeliest = fit.likeliest.filter(|_| !agrees && is_better);
    let finding = match &likeliest {
        _ if fit.rows.is_empty() => {
            "Nothing that was found belongs to a surface of this car.".to_owned()
        }
        _ if agrees => format!(
            "What was found agrees with what is predicted, by {} on average: no more than a tape tells. Nothing needs to be corrected.",
            length(before)
        ),
        None => format!(
            "What was found is {} off on average, and no reading explains it. Look at the mock-up, the ride height and the stations.",
            length(before)
        ),
        Some(change) => explained(&model.car, change, [before, after], notation),
    };
    let row = |row: &FitRow| {
        [
            place(model, &row.found, notation),
            length(row.predicted),
            length(row.found.gap),
            length(row.after),
        ]
    };
    let all = if agrees { &[][..] } else { &fit.together[..] };
    Said {
        finding,
        rows: fit.rows.iter().map(row).collect(),
        corrected: likeliest.and(fit.corrected.clone()),
        together: all
            .iter()
            .map(|change| changed(&model.car, change, notation))
            .collect(),
        corrected_together: if all.is_empty() {
            None
        } else {
            fit.corrected_together.clone()
        },
    }
}

fn explained(car: &Car, change: &Change, misfit: [f64; 2], notation: Notation) -> String {
    let [before, after] = misfit.map(|value| format_length(value, notation));
    let times = change.in_errors();
    let doubt = if times > PLAUSIBLE {
        format!(
            "That is {times:.0} times what its tape reading may be off: a misreading, or another car. Measure it again before you take it over."
        )
    } else if times > 1.0 {
        format!(
            "That is {times:.1} times what its tape reading may be off; measure it again before you take it over."
        )
    } else {
        "That is within what its tape reading may be off; measure it again if you can.".to_owned()
    };
    format!(
        "One reading explains it best: {}. What was found is then {after} off on average in place of {before}. {doubt}",
        changed(car, change, notation)
    )
}

fn changed(car: &Car, change: &Change, notation: Notation) -> String {
    let way = if change.by < 0.0 { "less" } else { "more" };
    format!(
        "{}, {} {way} than it was read",
        change.measurement.words(car),
        format_length(change.by.abs(), notation)
    )
}

fn place(model: &Model, found: &FoundGap, notation: Notation) -> String {
    let positions = geometry::metal::mock_up::poses(model);
    let named = positions
        .into_iter()
        .find(|(_, pose)| is_same(*pose, found.pose));
    let position = match named {
        Some((name, _)) => name.to_owned(),
        // The travel was changed since.
        None => format!(
            "left wheel at {}, right wheel at {}",
            format_length(found.pose.left, notation),
            format_length(found.pose.right, notation)
        ),
    };
    format!("{} {}, {position}", found.side.word(), model.name(found.id))
}

#[cfg(test)]
mod tests {
    use geometry::check::at_pose;
    use geometry::metal::{MockUp, fit};

    use super::*;
    use crate::state::opening;

    fn coupe() -> Model {
        let work = opening::invented(0).expect("the first invented car opens");
        Model::new(&work.car).expect("it has a model")
    }

    /// What a mock-up on the car of `model` shows at ride height and in bump.
    fn found_on(model: &Model) -> Vec<FoundGap> {
        let mock_up = MockUp::of(&model.car).expect("a mock-up");
        let stand_in = mock_up.under(model);
        let mut all = Vec::new();
        for pose in [Pose::RIDE, Pose::heave(model.car.travel.bump)] {
            for (side, list) in at_pose(&stand_in, pose, 0.01).iter() {
                let of = |&(id, ref gap): &(SurfaceId, geometry::gap::Gap)| FoundGap {
                    side,
                    id,
                    pose,
                    gap: gap.high,
                };
                all.extend(list.iter().map(of));
            }
        }
        all
    }

    #[test]
    fn a_gap_is_put_changed_and_taken_away_at_its_spot_alone() {
        let all = found_on(&coupe());
        let spot = Spot {
            side: all[3].side,
            id: all[3].id,
            pose: all[3].pose,
        };
        let changed = spot.with(&all, Some(5.0));
        assert_eq!(spot.gap(&changed), Some(5.0));
        assert_eq!(changed.len(), all.len());
        let without = spot.with(&changed, None);
        assert_eq!((spot.gap(&without), without.len()), (None, all.len() - 1));
        assert_eq!(spot.with(&without, Some(all[3].gap)).len(), all.len());
    }

    #[test]
    fn a_wrong_reading_is_named_and_its_correction_brings_the_car_back() {
        let true_car = coupe();
        let found = found_on(&true_car);
        let agreeing = fit(&true_car.car, &found).expect("a fit");
        let said = say(&true_car, &agreeing, Notation::Millimeters);
        assert!(
            said.finding.starts_with("What was found agrees"),
            "{}",
            said.finding
        );
        assert_eq!((said.corrected, said.together.len()), (None, 0));

        // Half an inch too much was read from the flange out to the left lip.
        let mut read = true_car.car.clone();
        let field = geometry::body::tape::TAPE_FIELDS
            .iter()
            .find(|field| field.field.bound.key == "to_lip")
            .expect("the tape has the lip");
        let tape = &mut read.sides.left.tape;
        let was = (field.field.get)(tape);
        (field.field.set)(tape, was + 12.7);
        let model = Model::new(&read).expect("a model");
        let said = say(
            &model,
            &fit(&read, &found).expect("a fit"),
            Notation::Millimeters,
        );
        let lip = field.field.bound.label;
        assert!(
            said.finding.contains(&format!("{lip} (left), ")),
            "{}",
            said.finding
        );
        assert!(
            said.finding.contains("less than it was read"),
            "{}",
            said.finding
        );
        let corrected = said.corrected.expect("a corrected car");
        let now = (field.field.get)(&corrected.sides.left.tape);
        // Gaps to a hundredth of a millimeter, weighed against the reading's own error, leave less than a tape's mark.
        assert!((now - was).abs() < GAP_ERROR, "{now} in place of {was}");
    }
}
