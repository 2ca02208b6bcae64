//! The planes that hold a gap, each with its weight.
//!
//! Outside a tire one plane does. Deep inside, the tire may be left two ways that are equally short, and the least gap
//! then lies where the two meet: its derivative is that mixture of theirs under which place and pose rest, as the
//! multipliers of any least of a greatest do.

use crate::chain::Chain;
use crate::math;
use crate::order;
use crate::space::{Vec2, vec2};

/// Planes this much short of the deepest count as well, mm: more than the searches' accuracy leaves between two that tie.
const TIE: f64 = 0.25;

/// The unit normals at which `normal . point - support` has a peak within [`TIE`] of the highest, the highest first.
pub(super) fn active(chain: &Chain, point: Vec2) -> Vec<Vec2> {
    let mut peaks = peaks(chain, point);
    let highest = peaks.first().map_or(0.0, |peak| peak.0);
    peaks.retain(|peak| peak.0 >= highest - TIE);
    peaks.into_iter().map(|(_, normal)| normal).collect()
}

/// The peak that goes on from the one at the normal `before`, after the point has moved a little: how high it is, and
/// its normal.
pub(super) fn followed(chain: &Chain, point: Vec2, before: Vec2) -> Option<(f64, Vec2)> {
    let peaks = peaks(chain, point);
    let nearest = |a: &(f64, Vec2), b: &(f64, Vec2)| a.1.dot(before).total_cmp(&b.1.dot(before));
    peaks.into_iter().max_by(nearest)
}

/// Every peak of `normal . point - support` over the normals, the highest first.
fn peaks(chain: &Chain, point: Vec2) -> Vec<(f64, Vec2)> {
    let arcs = chain.arcs();
    let mut peaks: Vec<(f64, Vec2)> = Vec::new();
    for (i, arc) in arcs.iter().enumerate() {
        let before = &arcs[(i + arcs.len() - 1) % arcs.len()];
        let d = point - arc.center;
        let along = vec2(-arc.from.y, arc.from.x);
        if along.dot(point - before.center) >= 0.0 && along.dot(d) <= 0.0 {
            peaks.push((arc.from.dot(d) - arc.radius, arc.from));
        }
        let length = d.length();
        if length > 0.0 && arc.from.cross(d) > 0.0 && d.cross(chain.to(i)) > 0.0 {
            peaks.push((length - arc.radius, d * (1.0 / length)));
        }
    }
    order::sort_by(&mut peaks, |a, b| b.0.total_cmp(&a.0));
    peaks
}

/// The weights, not negative and one in sum, under which the mixture of `slopes` is shortest: a row for each plane, a
/// column for each way in which place or pose is free.
pub(super) fn weights(slopes: &[Vec<f64>]) -> Vec<f64> {
    /// Two planes are settled in one step; more than three hardly ever tie.
    const STEPS: u32 = 60;
    let mut weights = vec![0.0; slopes.len()];
    if let Some(first) = weights.first_mut() {
        *first = 1.0;
    }
    let columns = slopes.first().map_or(0, Vec::len);
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    for _ in 0..STEPS {
        let mixed: Vec<f64> = (0..columns)
            .map(|k| weights.iter().zip(slopes).map(|(w, row)| w * row[k]).sum())
            .collect();
        let toward = (0..slopes.len())
            .min_by(|&a, &b| dot(&slopes[a], &mixed).total_cmp(&dot(&slopes[b], &mixed)));
        let Some(toward) = toward else { break };
        let step: Vec<f64> = mixed
            .iter()
            .zip(&slopes[toward])
            .map(|(m, s)| m - s)
            .collect();
        let square = dot(&step, &step);
        if square <= 0.0 {
            break;
        }
        let share = (dot(&mixed, &step) / square).clamp(0.0, 1.0);
        for (k, weight) in weights.iter_mut().enumerate() {
            *weight = *weight * (1.0 - share) + if k == toward { share } else { 0.0 };
        }
    }
    weights
}

/// Whether `value` is neither end of its range nor anything between them that it cannot pass smoothly.
pub(super) fn is_free(value: f64, creases: impl IntoIterator<Item = f64>) -> bool {
    const NEAR: f64 = 1e-6;
    creases
        .into_iter()
        .all(|crease| (value - crease).abs() > NEAR)
}

/// The turn that moves a point at `radius` by `step`, radians.
pub(super) fn turn(step: f64, radius: f64) -> f64 {
    math::atan2(step, radius.max(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_a_rectangle_can_be_left_two_ways() {
        let chain = Chain::rounded_rectangle(vec2(50.0, 100.0), 5.0).expect("a rectangle");
        let normals = active(&chain, vec2(0.0, 10.0));
        assert_eq!(normals, [vec2(1.0, 0.0), vec2(-1.0, 0.0)]);
        assert_eq!(active(&chain, vec2(3.0, 10.0)), [vec2(1.0, 0.0)]);
    }

    #[test]
    fn the_mixture_rests() {
        let weights = weights(&[vec![1.0, 0.2], vec![-3.0, -0.6]]);
        assert!((weights[0] - 0.75).abs() < 1e-12 && (weights[1] - 0.25).abs() < 1e-12);
        assert_eq!(super::weights(&[vec![]]), [1.0]);
    }
}
