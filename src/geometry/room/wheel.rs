//! The wheel at one section width, at any backspacing.

use crate::gap::{PoseDomain, Poses};
use crate::model::{Model, Solids};
use crate::motion::Motion;
use crate::normals::SECTORS;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec2};
use crate::travel::Pose;

/// Tire and wheel at one section width.
#[derive(Debug, Clone)]
pub(super) struct Wheel {
    backspacing: f64,
    motion: Motion,
    domain: PoseDomain,
    /// At rest, and with the axle's sideways give.
    solids: [Sides<Solids>; 2],
    /// How much farther than the tire the wheel and the tire's section at the ground reach, mm, by the sectors of their
    /// normals; the axle's give adds the same to all.
    pub farther: [[f64; SECTORS]; 2],
}

/// A wheel's solids at one backspacing, through travel and at rest.
pub(super) struct Placed([Sides<Solids>; 2]);

/// A point of the metal in a pose, seen from the wheel that it is nearest to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub side: Side,
    pub at_ride: bool,
    /// Which of [`Wheel::solids`].
    pub solid: usize,
    pub point: Vec3,
    pub radius: f64,
    /// The wheels' heights.
    pub pose: Vec2,
}

impl Wheel {
    pub fn new(model: &Model) -> Self {
        let solids = [model.given.clone(), model.solids.clone()];
        let [tire, wheel, loaded] = all(solids[0].get(Side::Left));
        Self {
            backspacing: model.car.wheel.backspacing,
            motion: model.motion,
            domain: model.pose_domain(),
            farther: [wheel, loaded].map(|other| other.chain.beyond(&tire.chain)),
            solids,
        }
    }

    /// Between the tires' center planes at a backspacing, mm.
    pub fn track_width(&self, backspacing: f64) -> f64 {
        self.motion.track_width - 2.0 * (backspacing - self.backspacing)
    }

    /// The motion and the poses at a backspacing.
    pub fn moving(&self, backspacing: f64) -> (Motion, PoseDomain) {
        let track_width = self.track_width(backspacing);
        let mut motion = self.motion;
        motion.track_width = track_width;
        let domain = PoseDomain {
            apart: self.domain.apart * track_width / self.motion.track_width,
            ..self.domain
        };
        (motion, domain)
    }

    pub fn at(&self, backspacing: f64) -> Placed {
        let center_plane = self.track_width(backspacing) / 2.0;
        let shifted = |solid: &Revolved| Revolved {
            center_plane,
            ..solid.clone()
        };
        let solids = |all: &Sides<Solids>| {
            Sides::each(|side| {
                let one = all.get(side);
                Solids {
                    tire: shifted(&one.tire),
                    loaded: shifted(&one.loaded),
                    wheel: shifted(&one.wheel),
                }
            })
        };
        Placed([solids(&self.solids[0]), solids(&self.solids[1])])
    }

    /// All poses at a backspacing.
    pub fn travel(&self, backspacing: f64) -> Poses {
        let (motion, domain) = self.moving(backspacing);
        Poses::new(motion, domain)
    }

    /// The pose of ride height, which no track changes.
    pub fn rest(&self) -> Poses {
        Poses::at(self.motion, Pose::RIDE)
    }

    /// How much farther than another's these solids reach along normals of each sector, at most, mm: the tire alone,
    /// and with its section at the ground. Not less than nothing, for the wheel stays the same.
    pub fn beyond(&self, other: &Self) -> [[f64; SECTORS]; 2] {
        let more = |of: fn(&Solids) -> &Revolved| {
            let [ours, theirs] = [self, other].map(|wheel| of(wheel.solids[0].get(Side::Left)));
            ours.chain.beyond(&theirs.chain)
        };
        let tire = more(|solids| &solids.tire).map(|more| more.max(0.0));
        let loaded = more(|solids| &solids.loaded);
        [tire, std::array::from_fn(|k| tire[k].max(loaded[k]))]
    }

    /// The distance of a spot in its pose, at a backspacing, mm: attained there, so no gap is more. Heights of the
    /// wheels that the roll limit no longer allows are brought together.
    pub fn distance(&self, spot: &Spot, backspacing: f64) -> f64 {
        let (q, center_plane) = self.seen(spot, backspacing);
        self.distance_of(spot, q, center_plane)
    }

    /// The greater of a spot's distances at the two ends of a stretch of backspacings, its axle held in space. Where
    /// that is below something, so is the gap all along: the axle's places at the outboard end are among those of every
    /// narrower track, and the distance of a held point from a convex section that slides past it is a convex function.
    pub fn greatest_along(&self, spot: &Spot, [from, to]: [f64; 2]) -> f64 {
        let (q, center_plane) = self.seen(spot, from);
        let at_from = self.distance_of(spot, q, center_plane);
        at_from.max(self.distance_of(spot, q, self.track_width(to) / 2.0))
    }

    /// Where the axle's frame has a spot at a backspacing, and its tire's center plane.
    fn seen(&self, spot: &Spot, backspacing: f64) -> (Vec3, f64) {
        let (motion, domain) = self.moving(backspacing);
        let pose = together(spot.pose, domain.apart);
        let placement = motion.placement(pose.x, pose.y);
        (
            placement.axle_from_body(spot.point),
            motion.track_width / 2.0,
        )
    }

    fn distance_of(&self, spot: &Spot, q: Vec3, center_plane: f64) -> f64 {
        let solids = self.solids[usize::from(spot.at_ride)].get(spot.side);
        let chain = &all(solids)[spot.solid].chain;
        let place = vec2(
            spot.side.sign() * q.y - center_plane,
            vec2(q.x, q.z).length(),
        );
        chain.near(place).distance - spot.radius
    }
}

impl Placed {
    /// The solids of a side: those before the last count everywhere.
    pub fn solids(&self, side: Side, at_ride: bool) -> [&Revolved; 3] {
        all(self.0[usize::from(at_ride)].get(side))
    }
}

/// The solids in the order of their numbers.
fn all(solids: &Solids) -> [&Revolved; 3] {
    [&solids.tire, &solids.wheel, &solids.loaded]
}

/// Heights no further apart than that, about the same middle.
fn together(pose: Vec2, apart: f64) -> Vec2 {
    if (pose.x - pose.y).abs() <= apart {
        return pose;
    }
    let middle = f64::midpoint(pose.x, pose.y);
    let half = (apart / 2.0).copysign(pose.x - pose.y);
    vec2(middle + half, middle - half)
}
