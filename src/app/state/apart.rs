//! Places to take hold of in a picture, kept apart: each as wide as a fingertip, none over another, all inside.
//!
//! A handle's sign stays at what it moves wherever its place reaches that far; where it does not, the sign stands at
//! the place's edge and a leader points from it to what it moves.

use geometry::order;
use geometry::space::{Vec2, vec2};

/// Width and height of a place to take hold of, CSS pixels (WCAG 2.2, 2.5.5).
pub const REACH: f64 = 44.0;

/// How near to its place's edge a sign may stand, CSS pixels: all of it is inside.
const SIGN: f64 = 10.0;

/// How far a place reaches to one side of its sign when it has a choice, CSS pixels.
const LEAN: f64 = REACH / 2.0 - SIGN;

/// Rounds of pushing that settle as many places as a picture has.
const ROUNDS: usize = 40;

/// Which way a place reaches from what it moves when it has a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lean {
    /// Up the picture.
    Up,
    /// As far up as down.
    Even,
    /// Down the picture.
    Down,
}

impl Lean {
    fn shift(self) -> f64 {
        match self {
            Lean::Up => -LEAN,
            Lean::Even => 0.0,
            Lean::Down => LEAN,
        }
    }
}

/// A place to take hold of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Its middle in the picture, CSS pixels.
    pub middle: Vec2,
    /// Its sign, from the middle.
    pub sign: Vec2,
    /// What it moves, from the middle.
    pub point: Vec2,
}

impl Hold {
    /// Whether the sign stands where it points.
    pub fn is_at_point(&self) -> bool {
        self.sign == self.point
    }
}

/// A place for each of `points`, in a picture of that size; all in CSS pixels, y down. Where the picture is too low for
/// all of them, the lowest stay apart and the uppermost reach beyond its edge.
pub fn apart(points: &[(Vec2, Lean)], picture: Vec2) -> Vec<Hold> {
    let within = |at: f64, size: f64| at.min(size - REACH / 2.0).max(REACH / 2.0);
    let mut middles: Vec<Vec2> = points
        .iter()
        .map(|&(point, lean)| {
            vec2(
                within(point.x, picture.x),
                within(point.y + lean.shift(), picture.y),
            )
        })
        .collect();
    // Who is above another stays above it: places that are dragged past each other do not jump.
    let mut order: Vec<usize> = (0..points.len()).collect();
    order::sort_by(&mut order, |&one, &other| {
        middles[one].y.total_cmp(&middles[other].y)
    });
    let mut pairs = Vec::new();
    for (place, &upper) in order.iter().enumerate() {
        let beside = |&lower: &usize| (middles[upper].x - middles[lower].x).abs() < REACH;
        pairs.extend(
            order[place + 1..]
                .iter()
                .copied()
                .filter(beside)
                .map(|lower| (upper, lower)),
        );
    }
    for _ in 0..ROUNDS {
        for &(upper, lower) in &pairs {
            let short = REACH - (middles[lower].y - middles[upper].y);
            if short > 0.0 {
                middles[upper].y = within(middles[upper].y - short / 2.0, picture.y);
                middles[lower].y = within(middles[lower].y + short / 2.0, picture.y);
            }
        }
    }
    // What pushing has not settled is settled downward, then upward from the picture's edge.
    for &(upper, lower) in &pairs {
        middles[lower].y = middles[lower].y.max(middles[upper].y + REACH);
    }
    for &index in &order {
        middles[index].y = middles[index].y.min(picture.y - REACH / 2.0);
    }
    for &(upper, lower) in pairs.iter().rev() {
        middles[upper].y = middles[upper].y.min(middles[lower].y - REACH);
    }
    let inside = REACH / 2.0 - SIGN;
    let hold = |(&(point, _), &middle): (&(Vec2, Lean), &Vec2)| {
        let to = point - middle;
        Hold {
            middle,
            sign: vec2(to.x.clamp(-inside, inside), to.y.clamp(-inside, inside)),
            point: to,
        }
    };
    points.iter().zip(&middles).map(hold).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const PHONE: Vec2 = vec2(320.0, 300.0);

    /// What rounding may leave two neighbors short of their reach, pixels.
    const ROUNDING: f64 = 1e-9;

    #[track_caller]
    fn all_apart(points: &[(Vec2, Lean)]) -> Vec<Hold> {
        let holds = apart(points, PHONE);
        for (index, one) in holds.iter().enumerate() {
            for other in &holds[index + 1..] {
                let away = one.middle - other.middle;
                let widest = away.x.abs().max(away.y.abs());
                assert!(widest >= REACH - ROUNDING, "{one:?} lies on {other:?}");
            }
            let (low, high) = (REACH / 2.0 - ROUNDING, REACH / 2.0 + ROUNDING);
            assert!(one.middle.x >= low && one.middle.x <= PHONE.x - high + 2.0 * ROUNDING);
            assert!(one.middle.y >= low && one.middle.y <= PHONE.y - high + 2.0 * ROUNDING);
            assert!(one.sign.x.abs().max(one.sign.y.abs()) <= REACH / 2.0 - SIGN);
        }
        holds
    }

    #[test]
    fn what_is_far_apart_stays_where_it_is() {
        let holds = all_apart(&[
            (vec2(50.0, 50.0), Lean::Even),
            (vec2(200.0, 50.0), Lean::Even),
        ]);
        assert_eq!(holds[0].middle, vec2(50.0, 50.0));
        assert!(holds.iter().all(Hold::is_at_point));
    }

    #[test]
    fn a_seam_above_a_tire_is_taken_hold_of_from_above() {
        let holds = all_apart(&[
            (vec2(100.0, 100.0), Lean::Up),
            (vec2(100.0, 122.0), Lean::Down),
        ]);
        assert!(holds[0].middle.y < 100.0 && holds[1].middle.y > 122.0);
        assert!(holds.iter().all(Hold::is_at_point));
    }

    #[test]
    fn what_lies_on_one_spot_is_told_apart_by_leaders() {
        let spot = vec2(160.0, 150.0);
        let holds = all_apart(&[(spot, Lean::Up), (spot, Lean::Even), (spot, Lean::Down)]);
        for hold in &holds {
            assert_eq!(hold.middle + hold.point, spot);
        }
        assert!(!holds[0].is_at_point() && holds[1].is_at_point() && !holds[2].is_at_point());
    }

    #[test]
    fn corners_and_crowds_stay_inside() {
        all_apart(&[
            (vec2(0.0, 0.0), Lean::Even),
            (vec2(1.0, 0.0), Lean::Up),
            (vec2(0.0, 3.0), Lean::Down),
            (vec2(320.0, 300.0), Lean::Even),
            (vec2(319.0, 290.0), Lean::Up),
        ]);
        // Anywhere: points from a plain generator of remainders, as many as both sides have.
        let mut seed = 7_u32;
        let mut next = |size: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from((seed >> 8) % size)
        };
        for _ in 0..300 {
            let points: Vec<_> = (0..6)
                .map(|index| {
                    let lean = [Lean::Up, Lean::Even, Lean::Down][index % 3];
                    (vec2(next(320), 60.0 + next(180)), lean)
                })
                .collect();
            all_apart(&points);
        }
    }
}
