//! Where the greatest of several smooth functions is least, found from a place nearby.

use super::planes::weights;

/// Steps of the differences, mm: the functions are distances to arcs of centimeters and more, so that what the third
/// and fourth derivatives do over it and what rounding does to it both stay below a ten-thousandth of a curvature.
const STEP: f64 = 0.05;
/// A step this small ends the search, mm.
const SETTLED: f64 = 1e-7;
/// From further away than this the search does not begin, mm: a place that is this far from the least of a distance
/// that curves over a meter would be higher by 0.01 mm, which is what searches are certified to.
const REACH: f64 = 5.0;
/// What is added to each curvature, 1/mm: along a direction in which nothing curves the place stays as it is.
const STIFF: f64 = 1e-7;
/// Newton doubles the right digits each time.
const ROUNDS: u32 = 12;

/// The place, mm in each direction, and the weights of so many functions under which their mixture rests as far as the
/// room to either side in each direction lets it; where that is not near, the start and the weights under which they
/// come nearest to resting there. Nothing only where the functions have no values.
///
/// A direction that would lead out of its room ends at the nearer of its ends, the one with the nearest end first.
pub(super) fn within(
    rooms: &[[f64; 2]],
    functions: usize,
    values: impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Option<(Vec<f64>, Vec<f64>)> {
    let mut moves = vec![0.0; rooms.len()];
    let mut free: Vec<usize> = (0..rooms.len()).collect();
    let mut first = None;
    loop {
        let all = |part: &[f64]| {
            let mut all = moves.clone();
            for (&direction, &by) in free.iter().zip(part) {
                all[direction] = by;
            }
            all
        };
        let part = |part: &[f64]| values(&all(part));
        let start = weights(&Local::of(&vec![0.0; free.len()], &part)?.rows(functions));
        if let Some((found, weights)) = saddle(free.len(), start.clone(), part) {
            let is_in = |(&direction, &at): (&usize, &f64)| {
                let [low, high] = rooms[direction];
                (low..=high).contains(&at)
            };
            if free.iter().zip(&found).all(is_in) {
                return Some((all(&found), weights));
            }
        }
        let first = first.get_or_insert((moves.clone(), start));
        let end = |[low, high]: [f64; 2]| if -low < high { low } else { high };
        let nearest = free
            .iter()
            .map(|&direction| (direction, end(rooms[direction])));
        let nearest = nearest.min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        match nearest.filter(|(_, end)| end.abs() <= REACH) {
            Some((direction, end)) => {
                moves[direction] = end;
                free.retain(|&one| one != direction);
            }
            None => return Some(first.clone()),
        }
    }
}

/// The place, mm in each direction, and the weights of the functions, not negative and one in sum, under which their
/// mixture rests; `None` where that is not near. `values` gives the functions at a place, each weight begins as given.
///
/// Newton's way for the least `t` that is no less than any of the functions: those with a weight are equal there, and
/// their gradients, so weighted, cancel.
fn saddle(
    directions: usize,
    mut weights: Vec<f64>,
    values: impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Option<(Vec<f64>, Vec<f64>)> {
    let count = weights.len();
    let mut at = vec![0.0; directions];
    let mut active: Vec<usize> = (0..count).collect();
    for _ in 0..ROUNDS {
        let local = Local::of(&at, &values)?;
        let (step, found) = local.step(&active, &weights)?;
        if let Some(least) = (0..active.len()).min_by(|&a, &b| found[a].total_cmp(&found[b]))
            && found[least] < 0.0
        {
            // It is not one of those that hold the place; the rest decide.
            active.remove(least);
            continue;
        }
        weights = vec![0.0; count];
        for (&k, &weight) in active.iter().zip(&found) {
            weights[k] = weight;
        }
        for (at, step) in at.iter_mut().zip(&step) {
            *at += step;
        }
        if at.iter().any(|at| at.abs() > REACH) {
            return None;
        }
        if step.iter().all(|step| step.abs() < SETTLED) {
            return Some((at, weights));
        }
    }
    None
}

/// Values, gradients and curvatures of all functions at a place.
struct Local {
    values: Vec<f64>,
    /// For each direction, each function's slope.
    slopes: Vec<Vec<f64>>,
    /// For each pair of directions, each function's second derivative.
    curvatures: Vec<Vec<Vec<f64>>>,
}

impl Local {
    fn of(at: &[f64], values: &impl Fn(&[f64]) -> Option<Vec<f64>>) -> Option<Self> {
        let by = |moves: &[(usize, f64)]| {
            let mut there = at.to_vec();
            for &(direction, by) in moves {
                there[direction] += by;
            }
            values(&there)
        };
        let here = values(at)?;
        let directions = 0..at.len();
        let mut slopes = Vec::new();
        let mut curvatures = vec![vec![Vec::new(); at.len()]; at.len()];
        for i in directions.clone() {
            let (low, high) = (by(&[(i, -STEP)])?, by(&[(i, STEP)])?);
            let each = low.iter().zip(&high);
            slopes.push(
                each.clone()
                    .map(|(low, high)| (high - low) / (2.0 * STEP))
                    .collect(),
            );
            let bent = each.zip(&here);
            curvatures[i][i] = bent
                .map(|((low, high), here)| (low - 2.0 * here + high) / (STEP * STEP))
                .collect();
            for j in directions.clone().skip(i + 1) {
                let corner = |a: f64, b: f64| by(&[(i, a * STEP), (j, b * STEP)]);
                let corners = [
                    corner(1.0, 1.0)?,
                    corner(-1.0, -1.0)?,
                    corner(1.0, -1.0)?,
                    corner(-1.0, 1.0)?,
                ];
                let [a, b, c, d] = &corners;
                let mixed: Vec<f64> = (0..here.len())
                    .map(|k| (a[k] + b[k] - c[k] - d[k]) / (4.0 * STEP * STEP))
                    .collect();
                curvatures[i][j].clone_from(&mixed);
                curvatures[j][i] = mixed;
            }
        }
        Some(Self {
            values: here,
            slopes,
            curvatures,
        })
    }

    /// The slopes, a row for each of so many functions.
    fn rows(&self, functions: usize) -> Vec<Vec<f64>> {
        let row = |k: usize| self.slopes.iter().map(|slopes| slopes[k]).collect();
        (0..functions).map(row).collect()
    }

    /// The step and the weights of the active functions that solve the conditions to first order.
    fn step(&self, active: &[usize], weights: &[f64]) -> Option<(Vec<f64>, Vec<f64>)> {
        let (n, k) = (self.slopes.len(), active.len());
        let bent = |i: usize, j: usize| -> f64 {
            let bent = active
                .iter()
                .map(|&of| weights[of] * self.curvatures[i][j][of]);
            bent.sum::<f64>() + if i == j { STIFF } else { 0.0 }
        };
        let slope = |i: usize, column: usize| self.slopes[i][active[column]];
        let rests = |i: usize| -> Vec<f64> {
            let row = (0..n).map(|j| bent(i, j));
            row.chain((0..k).map(|column| slope(i, column)))
                .chain([0.0, 0.0])
                .collect()
        };
        let equals = |column: usize| -> Vec<f64> {
            let row = (0..n).map(|i| slope(i, column));
            row.chain(std::iter::repeat_n(0.0, k))
                .chain([-1.0, -self.values[active[column]]])
                .collect()
        };
        let whole: Vec<f64> = std::iter::repeat_n(0.0, n)
            .chain(std::iter::repeat_n(1.0, k))
            .chain([0.0, 1.0])
            .collect();
        let rows = (0..n).map(rests).chain((0..k).map(equals));
        let rows = rows.chain([whole]).collect();
        let solved = solved(rows)?;
        Some((solved[..n].to_vec(), solved[n..n + k].to_vec()))
    }
}

/// Solves equations, each a row with its right side last; nothing where they do not settle the unknowns.
fn solved(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let size = rows.len();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        rows.swap(column, pivot);
        let top = rows[column].clone();
        if top[column].abs() <= f64::MIN_POSITIVE {
            return None;
        }
        for (other, row) in rows.iter_mut().enumerate() {
            let share = row[column] / top[column];
            if other != column {
                for (value, of_top) in row.iter_mut().zip(&top) {
                    *value -= share * of_top;
                }
            }
        }
    }
    let unknowns: Vec<f64> = (0..size)
        .map(|column| rows[column][size] / rows[column][column])
        .collect();
    unknowns
        .iter()
        .all(|value| value.is_finite())
        .then_some(unknowns)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_bowls_meet_where_both_are_as_low_as_can_be() {
        // Bowls round (-1, 0) and (1, 0), the second twice as steep and a little lower.
        let values = |at: &[f64]| {
            let bowl = |x: f64| (at[0] - x) * (at[0] - x) + at[1] * at[1];
            Some(vec![bowl(-1.0), 2.0 * bowl(1.0) - 0.5])
        };
        let (at, weights) = saddle(2, vec![0.5, 0.5], values).expect("it is near");
        let found = values(&at).expect("values");
        assert!((found[0] - found[1]).abs() < 1e-9, "{found:?}");
        assert!(at[1].abs() < 1e-9, "{at:?}");
        // Across the ridge the weighted slopes cancel.
        let slope = weights[0] * 2.0 * (at[0] + 1.0) + weights[1] * 4.0 * (at[0] - 1.0);
        assert!(slope.abs() < 1e-6 && (weights[0] + weights[1] - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_direction_that_leads_out_of_its_room_ends_there() {
        // Both fall along the second direction, which has room for 0.01 only.
        let values = |at: &[f64]| Some(vec![at[0] - at[1], -at[0] - 3.0 * at[1]]);
        let rooms = [[-100.0, 100.0], [-100.0, 0.01]];
        let (at, weights) = within(&rooms, 2, values).expect("they have values");
        assert!(
            (at[0] + 0.01).abs() < 1e-9 && (at[1] - 0.01).abs() < 1e-12,
            "{at:?}"
        );
        assert!((weights[0] - 0.5).abs() < 1e-9, "{weights:?}");
    }

    #[test]
    fn a_function_that_does_not_hold_the_place_gets_no_weight() {
        let values = |at: &[f64]| Some(vec![at[0] * at[0], at[0] - 0.2]);
        let (at, weights) = saddle(1, vec![0.5, 0.5], values).expect("it is near");
        assert!(
            at[0].abs() < 1e-6 && weights == [1.0, 0.0],
            "{at:?} {weights:?}"
        );
    }

    #[test]
    fn what_is_not_near_is_not_found() {
        let values = |at: &[f64]| Some(vec![(at[0] - 40.0) * (at[0] - 40.0)]);
        assert_eq!(saddle(1, vec![1.0], values), None);
    }
}
