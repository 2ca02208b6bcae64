//! Found against predicted: which measurement the gaps found with the mock-up throw doubt on.
//!
//! # The estimate
//!
//! Each found gap differs from the predicted one by `r = found - predicted`. A measurement that is off by `d` moves
//! gap `i` by `a_i d`, with the exact derivatives of [`crate::tolerance`]. Every measurement was taken with an error of
//! about `e` (the car's own tape errors), every gap found with an error of about `s`. The most likely corrections then
//! make
//!
//! ```text
//! sum over gaps ((r_i - sum_j a_ij d_j) / s)^2 + sum over measurements (d_j / e_j)^2
//! ```
//!
//! least: weighted least squares with the tape errors as the prior, the posterior mode of a linear Gaussian model. It is
//! solved in the space of the gaps, `d = E A' (A E A' + S)^-1 r`, where the matrix is never singular. The same with one
//! measurement alone ranks them: the one whose correction takes the most off the sum explains the difference best.
//! Both are repeated about the corrected car until they settle, because a gap is no straight line.

use crate::body::SurfaceId;
use crate::body::tape::TAPE_FIELDS;
use crate::car::{Car, FoundGap};
use crate::check;
use crate::field::Fault;
use crate::gap::Gap;
use crate::metal::mock_up::MockUp;
use crate::model::Model;
use crate::order;
use crate::side::{Side, Sides};
use crate::tolerance::{Measurement, Rates};
use crate::travel::Pose;

/// How far a gap that somebody measured on the mock-up may be off, mm: 1/16 in, a tape's mark (common practice, no
/// source).
pub const GAP_ERROR: f64 = 1.5875;
/// How closely the predicted gaps are certified, mm.
const ACCURACY: f64 = 0.01;
/// Rounds after which the corrections are taken as they are.
const ROUNDS: u32 = 8;
/// Corrections that change by less than this count as settled, mm.
const SETTLED: f64 = 1e-3;
/// How often a step that makes no car is halved.
const HALVINGS: u32 = 6;

/// A found gap beside what is predicted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FitRow {
    /// What was found.
    pub found: FoundGap,
    /// What the car as measured predicts, mm.
    pub predicted: f64,
    /// What the car with the likeliest single correction predicts, mm.
    pub after: f64,
}

/// A correction of one measurement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// The measurement.
    pub measurement: Measurement,
    /// How much is to be added to it, mm.
    pub by: f64,
    /// How far it may be off by the car's own tape errors, mm.
    pub error: f64,
}

/// What the found gaps say.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Each found gap, in the order given; those to surfaces that the car does not have are left out.
    pub rows: Vec<FitRow>,
    /// Root mean square of found less predicted, mm, as measured and after the likeliest single correction.
    pub misfit: [f64; 2],
    /// The measurement that explains the difference best on its own, and its correction; nothing where none helps.
    pub likeliest: Option<Change>,
    /// The car with that one correction, to be taken over.
    pub corrected: Option<Car>,
    /// The likeliest corrections of all measurements together, the one largest for its error first; those below a
    /// hundredth of a millimeter are left out.
    pub together: Vec<Change>,
    /// The car with all of them.
    pub corrected_together: Option<Car>,
}

impl Change {
    /// How large the correction is for its error.
    #[must_use]
    pub fn in_errors(&self) -> f64 {
        if self.error > 0.0 {
            (self.by / self.error).abs()
        } else {
            0.0
        }
    }
}

/// What the gaps found with a car's mock-up say about its measurements.
///
/// # Errors
/// As [`Model::new`] and [`MockUp::of`] for the car as it was measured.
pub fn fit(car: &Car, found: &[FoundGap]) -> Result<Fit, Vec<Fault>> {
    let start = Trial::of(car, found)?;
    let all: Vec<usize> = (0..start.measurements.len()).collect();
    let likeliest = start
        .best_alone()
        .and_then(|index| settle(car, &start, found, &[index]));
    let together = settle(car, &start, found, &all);

    let after = likeliest.as_ref().map_or(&start, |found| &found.trial);
    let rows: Vec<FitRow> = start
        .gaps
        .iter()
        .zip(&after.gaps)
        .map(|(before, after)| FitRow {
            found: before.found,
            predicted: before.gap,
            after: after.gap,
        })
        .collect();
    let misfit = [start.misfit(), after.misfit()];
    let mut changes = together
        .as_ref()
        .map(|found| found.changes(&start))
        .unwrap_or_default();
    changes.retain(|change| change.by.abs() >= 0.01);
    order::sort_by(&mut changes, |a, b| b.in_errors().total_cmp(&a.in_errors()));
    Ok(Fit {
        rows,
        misfit,
        likeliest: likeliest
            .as_ref()
            .and_then(|found| found.changes(&start).first().copied()),
        corrected: likeliest.map(|found| found.car),
        together: changes,
        corrected_together: together.map(|found| found.car),
    })
}

/// A found gap with its prediction, mm, and what each measurement does to it.
struct Predicted {
    found: FoundGap,
    gap: f64,
    rates: Vec<f64>,
}

/// Each surface's gap in one pose.
type Lists = Sides<Vec<(SurfaceId, Gap)>>;

/// A car's predictions for the found gaps.
struct Trial {
    measurements: Vec<(Measurement, f64)>,
    gaps: Vec<Predicted>,
}

/// Corrections that have settled.
struct Settled {
    /// The measurements by their places, and how much is added to each, mm.
    corrections: Vec<(usize, f64)>,
    car: Car,
    trial: Trial,
}

impl Settled {
    fn changes(&self, start: &Trial) -> Vec<Change> {
        let change = |&(index, by): &(usize, f64)| {
            let (measurement, error) = start.measurements[index];
            Change {
                measurement,
                by,
                error,
            }
        };
        self.corrections.iter().map(change).collect()
    }
}

impl Trial {
    fn of(car: &Car, found: &[FoundGap]) -> Result<Self, Vec<Fault>> {
        let mock_up = MockUp::of(car).map_err(|fault| vec![fault])?;
        let model = mock_up.under(&Model::new(car)?);
        let measurements = measurements(car);
        let mut poses: Vec<(Pose, Lists)> = Vec::new();
        for one in found {
            if !poses.iter().any(|(pose, _)| *pose == one.pose) {
                poses.push((one.pose, check::at_pose(&model, one.pose, ACCURACY)));
            }
        }
        let rates = Rates::of(&model);
        let predict = |one: &FoundGap| {
            let (_, lists) = poses.iter().find(|(pose, _)| *pose == one.pose)?;
            let (_, gap) = lists.get(one.side).iter().find(|(id, _)| *id == one.id)?;
            let shares = rates.at(one.side, one.id, gap);
            let of_each = measurements.iter().map(|(measurement, _)| {
                shares
                    .iter()
                    .find(|share| share.measurement == *measurement)
                    .map_or(0.0, |share| share.rate)
            });
            Some(Predicted {
                found: *one,
                gap: gap.high,
                rates: of_each.collect(),
            })
        };
        Ok(Self {
            gaps: found.iter().filter_map(predict).collect(),
            measurements,
        })
    }

    fn misfit(&self) -> f64 {
        let squares: f64 = self.gaps.iter().map(|gap| gap.off() * gap.off()).sum();
        (squares / self.gaps.len().max(1) as f64).sqrt()
    }

    /// The measurement whose correction alone takes the most off the sum of squares; nothing where none takes any.
    fn best_alone(&self) -> Option<usize> {
        let weight = 1.0 / (GAP_ERROR * GAP_ERROR);
        let taken = |index: usize| {
            let error = self.measurements[index].1;
            let (mut along, mut square) = (0.0, 1.0 / (error * error));
            for gap in &self.gaps {
                along += weight * gap.rates[index] * gap.off();
                square += weight * gap.rates[index] * gap.rates[index];
            }
            along * along / square
        };
        let ranked = (0..self.measurements.len()).filter(|&index| self.measurements[index].1 > 0.0);
        ranked
            .map(|index| (index, taken(index)))
            .filter(|(_, taken)| *taken > 0.0)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(index, _)| index)
    }

    /// The likeliest whole corrections of the measurements `of`, where `so_far` are already in the predictions.
    fn corrections(&self, of: &[usize], so_far: &[f64]) -> Option<Vec<f64>> {
        let variance = |index: usize| self.measurements[index].1 * self.measurements[index].1;
        // What would be off without the corrections so far: the derivatives are told about where they lead.
        let off: Vec<f64> = self
            .gaps
            .iter()
            .map(|gap| gap.off() + dot(of.iter().map(|&k| gap.rates[k]), so_far))
            .collect();
        let matrix: Vec<Vec<f64>> = self
            .gaps
            .iter()
            .enumerate()
            .map(|(row, a)| {
                let entry = |(column, b): (usize, &Predicted)| {
                    let shared: f64 = of
                        .iter()
                        .map(|&k| a.rates[k] * variance(k) * b.rates[k])
                        .sum();
                    shared
                        + if row == column {
                            GAP_ERROR * GAP_ERROR
                        } else {
                            0.0
                        }
                };
                self.gaps.iter().enumerate().map(entry).collect()
            })
            .collect();
        let solved = solve(matrix, &off)?;
        let correction =
            |&k: &usize| variance(k) * dot(self.gaps.iter().map(|gap| gap.rates[k]), &solved);
        Some(of.iter().map(correction).collect())
    }
}

impl Predicted {
    fn off(&self) -> f64 {
        self.found.gap - self.gap
    }
}

/// Corrects the measurements `of` until they settle; nothing where no step makes a car.
fn settle(car: &Car, start: &Trial, found: &[FoundGap], of: &[usize]) -> Option<Settled> {
    let mut so_far = vec![0.0; of.len()];
    let mut here: Option<Settled> = None;
    for _ in 0..ROUNDS {
        let trial = here.as_ref().map_or(start, |settled| &settled.trial);
        let goal = trial.corrections(of, &so_far)?;
        let moved = goal
            .iter()
            .zip(&so_far)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        if moved < SETTLED {
            break;
        }
        let mut share = 1.0;
        let mut step = None;
        for _ in 0..HALVINGS {
            let corrections: Vec<f64> = so_far
                .iter()
                .zip(&goal)
                .map(|(from, to)| from + (to - from) * share)
                .collect();
            step = applied(car, start, found, of, &corrections);
            if step.is_some() {
                so_far = corrections;
                break;
            }
            share /= 2.0;
        }
        let Some(step) = step else { break };
        here = Some(step);
    }
    here
}

fn applied(
    car: &Car,
    start: &Trial,
    found: &[FoundGap],
    of: &[usize],
    corrections: &[f64],
) -> Option<Settled> {
    let mut corrected = car.clone();
    // In the order of the tape: what a guess leans on is corrected before the guess itself.
    let mut in_order: Vec<(usize, f64)> = of
        .iter()
        .copied()
        .zip(corrections.iter().copied())
        .collect();
    order::sort_by(&mut in_order, |a, b| a.0.cmp(&b.0));
    for (index, by) in in_order {
        correct(&mut corrected, start.measurements[index].0, by);
    }
    Model::new(&corrected).ok()?;
    Some(Settled {
        corrections: of
            .iter()
            .copied()
            .zip(corrections.iter().copied())
            .collect(),
        trial: Trial::of(&corrected, found).ok()?,
        car: corrected,
    })
}

/// What can be corrected, each with its error: the tape readings and the axle. The mock-up is what it was cut to, and
/// stations and parts are not one number.
fn measurements(car: &Car) -> Vec<(Measurement, f64)> {
    let keys = || TAPE_FIELDS.iter().map(|field| field.field.bound.key);
    let readings = Side::BOTH
        .into_iter()
        .flat_map(|side| keys().map(move |key| Measurement::Reading(side, key)));
    let all = std::iter::once(Measurement::Axle).chain(readings);
    all.map(|measurement| (measurement, measurement.error(car)))
        .collect()
}

/// Adds `by` mm to a measurement. A guess that is corrected stays a guess, and a guess that leans on a corrected reading
/// moves with it.
fn correct(car: &mut Car, measurement: Measurement, by: f64) {
    match measurement {
        Measurement::Reading(side, key) => {
            let field = TAPE_FIELDS
                .iter()
                .find(|field| field.field.bound.key == key);
            if let Some(field) = field {
                let tape = &mut car.sides.get_mut(side).tape;
                let mut reading = (field.reading)(tape);
                reading.value += by;
                tape.retake(field, reading);
            }
        }
        Measurement::Axle => car.axle.correct_measured(by),
        Measurement::Stations(_)
        | Measurement::Obstacle(_)
        | Measurement::SectionWidth
        | Measurement::Diameter => {}
    }
}

fn dot(a: impl Iterator<Item = f64>, b: &[f64]) -> f64 {
    a.zip(b).map(|(a, b)| a * b).sum()
}

/// Solves a positive definite system by Cholesky's factors; nothing where it is not one.
fn solve(mut matrix: Vec<Vec<f64>>, right: &[f64]) -> Option<Vec<f64>> {
    let size = right.len();
    for row in 0..size {
        for column in 0..=row {
            let known: f64 = (0..column)
                .map(|k| matrix[row][k] * matrix[column][k])
                .sum();
            let rest = matrix[row][column] - known;
            matrix[row][column] = if row == column {
                if rest <= 0.0 || !rest.is_finite() {
                    return None;
                }
                rest.sqrt()
            } else {
                rest / matrix[column][column]
            };
        }
    }
    let mut solved = right.to_vec();
    for row in 0..size {
        let known: f64 = (0..row).map(|k| matrix[row][k] * solved[k]).sum();
        solved[row] = (solved[row] - known) / matrix[row][row];
    }
    for row in (0..size).rev() {
        let known: f64 = (row + 1..size).map(|k| matrix[k][row] * solved[k]).sum();
        solved[row] = (solved[row] - known) / matrix[row][row];
    }
    Some(solved)
}
