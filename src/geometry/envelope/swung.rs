//! The same outline in a section that is swung round the wheel, felt out by the certified gap.
//!
//! Off the wheel's upright plane no closed form tells where the tire touches its own envelope. But the certified gap of
//! a point over all poses changes by no more than the point moves; so a point that comes in along a ray from outside by
//! no more than its gap never enters the room unseen. The last bit is found by the secant, between a point outside and
//! one inside.

use super::EnvelopeSection;
use crate::gap::{Face, Limits, Poses, ROUNDING, certify};
use crate::math;
use crate::side::{Side, Sides};
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

/// The room of one side in a swung section, as far as it is felt out: it can be done in slices, between frames.
#[derive(Debug, Clone)]
pub struct EnvelopeWork {
    poses: Poses,
    bodies: [Revolved; 2],
    margin: f64,
    angle: f64,
    middle: Vec2,
    next: u32,
    found: EnvelopeSection,
}

impl EnvelopeWork {
    /// Begins with everything that `bodies` cover over `poses`, and the same grown by `margin` mm, in the section at
    /// `angle` radians from straight up.
    #[must_use]
    pub fn new(poses: Poses, bodies: [Revolved; 2], margin: f64, angle: f64) -> Self {
        let motion = poses.motion();
        let [first, _] = &bodies;
        let middle = vec2(
            first.side.sign() * first.center_plane,
            motion.ahead * math::sin(angle) + motion.ride * math::cos(angle),
        );
        Self {
            poses,
            bodies,
            margin,
            angle,
            middle,
            next: 0,
            found: EnvelopeSection::default(),
        }
    }

    /// Follows so many rays more; gives the outlines once all are done. Every corner's gap is within `TOLERANCE` of
    /// its margin; the points run in the same order as those of [`super::outlines`].
    pub fn step(&mut self, rays: u32) -> Option<EnvelopeSection> {
        let end = self.next.saturating_add(rays).min(RAYS + 1);
        for k in self.next..end {
            let ray = Vec2::at_angle(std::f64::consts::PI * f64::from(k) / f64::from(RAYS));
            let outer = self.crossing(ray, OUTSIDE, self.margin);
            let inner = self.crossing(ray, outer, 0.0);
            self.found.margin.push(self.middle + ray * outer);
            self.found.outline.push(self.middle + ray * inner);
        }
        self.next = end;
        (end > RAYS).then(|| {
            let mut found = self.found.clone();
            if self.bodies[0].side == Side::Left {
                found.outline.reverse();
                found.margin.reverse();
            }
            found
        })
    }

    /// Where a ray, coming in from `way`, first finds the gap to be `margin`.
    fn crossing(&mut self, ray: Vec2, way: f64, margin: f64) -> f64 {
        let (sin, cos) = (math::sin(self.angle), math::cos(self.angle));
        let bodies = [&self.bodies[0], &self.bodies[1]];
        let (middle, poses) = (self.middle, &mut self.poses);
        crossing(
            &mut |way, accuracy| {
                let p = middle + ray * way;
                let point = Face::point(vec3(p.y * sin, p.x, p.y * cos));
                certify(poses, &bodies, &[point], 0.0, Limits::accuracy(accuracy))
                    .map(|gap| [gap.low, gap.high])
            },
            way,
            margin,
        )
    }
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
/// The room of both sides, the left one first.
#[derive(Debug, Clone)]
pub struct EnvelopesWork {
    work: Sides<EnvelopeWork>,
    left: Option<EnvelopeSection>,
}

impl EnvelopesWork {
    /// Begins with these.
    #[must_use]
    pub fn new(work: Sides<EnvelopeWork>) -> Self {
        Self { work, left: None }
    }

    /// Follows so many rays more of one side; gives both once all are done.
    pub fn step(&mut self, rays: u32) -> Option<Sides<EnvelopeSection>> {
        if self.left.is_none() {
            self.left = self.work.left.step(rays);
            return None;
        }
        let right = self.work.right.step(rays)?;
        self.left.take().map(|left| Sides { left, right })
    }
}
