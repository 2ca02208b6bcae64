//! The same outline in a section that is swung round the wheel, felt out by the certified gap.
//!
//! Off the wheel's upright plane no closed form tells where the tire touches its own envelope. But the certified gap of
//! a point over all poses changes by no more than the point moves; so a point that comes in along a ray from outside by
//! no more than its gap never enters the room unseen. The last bit is found by the secant, between a point outside and
//! one inside.

use crate::gap::{Face, Limits, Poses, ROUNDING, certify};
use crate::math;
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, vec2, vec3};

/// Rays over the half turn above the axle.
const RAYS: u32 = 60;
/// How far a corner's gap may stay from the margin asked for, mm: below what a screen shows.
pub const TOLERANCE: f64 = 0.1;
/// How closely a gap is certified near the edge, and far from it, mm.
const FINE: f64 = TOLERANCE / 4.0;
const COARSE: f64 = TOLERANCE * 20.0;
/// Where the rays start, mm from the wheel's middle: beyond any tire in any pose.
const OUTSIDE: f64 = 900.0;
/// The least slope that a step counts on, gap against way: at less the ray runs nearly along the room's edge.
const SLOPE: f64 = 0.3;
/// Steps after which a ray takes what it has.
const MOST_STEPS: u32 = 40;

/// The outlines of everything that `bodies` cover over `poses`, grown by each of `margins` mm, in the section at
/// `angle`: `(left, along)`, in the same order as [`super::outlines`]. Every corner's gap is within [`TOLERANCE`] of its
/// margin.
#[must_use]
pub fn outlines<const N: usize>(
    poses: &mut Poses,
    bodies: &[&Revolved],
    margins: [f64; N],
    angle: f64,
) -> [Vec<Vec2>; N] {
    let Some(first) = bodies.first() else {
        return std::array::from_fn(|_| Vec::new());
    };
    let (sin, cos) = (math::sin(angle), math::cos(angle));
    let motion = *poses.motion();
    let middle = vec2(
        first.side.sign() * first.center_plane,
        motion.ahead * sin + motion.ride * cos,
    );
    let mut outlines: [Vec<Vec2>; N] = std::array::from_fn(|_| Vec::new());
    // The widest margin is met first.
    let mut order: [usize; N] = std::array::from_fn(|k| k);
    order.sort_by(|&a, &b| margins[b].total_cmp(&margins[a]));
    for k in 0..=RAYS {
        let ray = Vec2::at_angle(std::f64::consts::PI * f64::from(k) / f64::from(RAYS));
        let mut over = |way: f64, accuracy: f64| {
            let p = middle + ray * way;
            let point = Face::point(vec3(p.y * sin, p.x, p.y * cos));
            certify(poses, bodies, &[point], 0.0, Limits::accuracy(accuracy))
                .map(|gap| [gap.low, gap.high])
        };
        let mut way = OUTSIDE;
        for &m in &order {
            way = crossing(&mut over, way, margins[m]);
            outlines[m].push(middle + ray * way);
        }
    }
    if first.side == Side::Left {
        for outline in &mut outlines {
            outline.reverse();
        }
    }
    outlines
}

/// Where a ray, coming in from `way`, first finds the gap to be `margin`.
fn crossing(gap: &mut impl FnMut(f64, f64) -> Option<[f64; 2]>, way: f64, margin: f64) -> f64 {
    let (mut here, mut accuracy) = (way, COARSE);
    let (mut outside, mut inside): (Option<Vec2>, Option<Vec2>) = (None, None);
    for step in 0..MOST_STEPS {
        let Some([low, high]) = gap(here, accuracy) else {
            return here;
        };
        let over = high - margin;
        if over.abs() <= TOLERANCE - FINE && high - low <= FINE + ROUNDING {
            return here;
        }
        if over > 0.0 && low - margin <= 0.0 && accuracy > FINE {
            // Too coarse to say on which side of the edge it is.
            accuracy = FINE;
            continue;
        }
        let next = if over > 0.0 {
            let slope = outside.map_or(1.0, |before| {
                ((before.y - over) / (before.x - here)).clamp(SLOPE, 1.0)
            });
            outside = Some(vec2(here, over));
            here - over / slope
        } else {
            inside = Some(vec2(here, over));
            here - over
        };
        here = match (outside, inside) {
            (Some(a), Some(b)) => {
                // Kept off both ends, and halved now and then, so that either end comes nearer.
                let share = if step % 3 == 0 {
                    0.5
                } else {
                    (a.y / (a.y - b.y)).clamp(0.05, 0.95)
                };
                a.x + (b.x - a.x) * share
            }
            _ => next.max(0.0),
        };
        accuracy = (over.abs() * 0.1).clamp(FINE, COARSE);
    }
    here
}
