//! Branch and bound over faces and poses.

mod above;
mod task;

use std::collections::BinaryHeap;
use std::ops::Range;

use super::face::Face;
use super::plane::{Bound, Plane, within_reach};
use super::poses::{Poses, Region};
use super::stance::Stance;
use super::{Gap, ROUNDING, Witness};
use crate::motion::Motion;
use crate::normals::Normals;
use crate::solid::{Revolved, Support};
use crate::space::{Vec2, Vec3, vec3};
use crate::travel::Pose;

use task::{Discarded, Split, Task};

pub use above::{Above, Beside, certify_above};

/// How long a search goes on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// The widest interval asked for, mm.
    pub accuracy: f64,
    /// The most boxes examined; when it is reached the interval is as wide as it is then.
    pub boxes: usize,
}

impl Limits {
    /// Asks for this accuracy, mm, with a cap that takes some 50 ms to reach. Only a surface deep inside the tire comes
    /// near it, where crown and bead are equally near along a whole ridge.
    #[must_use]
    pub const fn accuracy(accuracy: f64) -> Self {
        Self {
            accuracy,
            boxes: 20_000,
        }
    }
}

/// Solids, and the faces that they may meet.
#[derive(Debug, Clone, Copy)]
pub struct Meeting<'a> {
    /// The solids.
    pub solids: &'a [&'a Revolved],
    /// The faces.
    pub faces: &'a [Face],
}

/// The least gap of `faces` to `solids` over all poses, or nothing where there is no face or no solid, or where a
/// corner or a pose is no finite number.
///
/// `give` tells how far the axle may slide along itself either way; the solids' sections must hold it
/// already ([`crate::chain::Chain::widened`]), here it only completes the witness's pose.
///
/// A tire that rises 60 mm straight up below a roof, which is 64.4 mm above it at rest:
///
/// ```
/// # use geometry::chain::Chain;
/// # use geometry::gap::{Face, Limits, Part, PoseDomain, Poses, certify};
/// # use geometry::locator::Locator;
/// # use geometry::motion::Motion;
/// # use geometry::side::Side;
/// # use geometry::solid::Revolved;
/// # use geometry::space::{vec2, vec3};
/// let tire = Revolved {
///     part: Part::Tire,
///     chain: Chain::rounded_rectangle(vec2(125.0, 355.6), 25.0).expect("it is convex"),
///     side: Side::Left,
///     center_plane: 740.0,
/// };
/// let roof = Face::triangle(
///     vec3(-300.0, 740.0, 420.0),
///     vec3(300.0, 600.0, 420.0),
///     vec3(300.0, 880.0, 420.0),
/// );
/// let springs = Locator::LeafSprings { height: 0.0 };
/// let motion = Motion::new(springs, 1480.0, 0.0, 0.0, 0.0);
/// // Both wheels rise together: they are never apart.
/// let domain = PoseDomain { low: 0.0, high: 60.0, apart: 0.0 };
/// let gap = certify(
///     &mut Poses::new(motion, domain),
///     &[&tire],
///     &[roof],
///     0.0,
///     Limits::accuracy(0.01),
/// )
/// .expect("a tire and a roof");
/// assert!(gap.low <= 4.4 && 4.4 - 1e-9 <= gap.high && gap.high - gap.low <= 0.011);
/// assert!((gap.witness.pose.left - 60.0).abs() < 0.1);
/// ```
#[must_use]
pub fn certify(
    poses: &mut Poses,
    solids: &[&Revolved],
    faces: &[Face],
    give: f64,
    limits: Limits,
) -> Option<Gap> {
    certify_least(poses, &[Meeting { solids, faces }], give, limits)
}

/// The least gap of several meetings, as [`certify`] finds that of one: what cannot be the least needs no certifying.
#[must_use]
pub fn certify_least(
    poses: &mut Poses,
    meetings: &[Meeting],
    give: f64,
    limits: Limits,
) -> Option<Gap> {
    certify_below(poses, meetings, give, limits, f64::INFINITY)
}

/// The same for whoever cares only whether the gap lies `below` so much, mm: once it is proved not to, the search ends,
/// and the interval is as wide as it is then.
#[must_use]
pub fn certify_below(
    poses: &mut Poses,
    meetings: &[Meeting],
    give: f64,
    limits: Limits,
    below: f64,
) -> Option<Gap> {
    let mut corners = meetings
        .iter()
        .flat_map(|meeting| meeting.faces.iter().flat_map(Face::corners));
    if !corners.all(|corner| corner.is_finite()) || !poses.are_finite() {
        return None;
    }
    let mut solids = Vec::new();
    let mut search = Search {
        poses,
        faces: Vec::new(),
        found: Found {
            best: None,
            accuracy: limits.accuracy,
            below,
        },
        discarded: Discarded::NOTHING,
        limits,
        queue: BinaryHeap::new(),
        examined: 0,
    };
    let mut pairs = Vec::new();
    for meeting in meetings {
        let (first_solid, first_face) = (solids.len(), search.faces.len());
        solids.extend_from_slice(meeting.solids);
        search.faces.extend_from_slice(meeting.faces);
        let of = first_solid..solids.len();
        pairs.extend((first_face..search.faces.len()).map(|face| (face, of.clone())));
    }
    search.seed(&solids, pairs);
    while let Some(task) = search.queue.pop() {
        if task.bound >= search.found.enough() || search.examined >= limits.boxes {
            search.discarded.add(task.bound, task.normals);
            break;
        }
        search.branch(&solids, &task);
    }
    let best = search.found.best?;
    let low = search.discarded.least().min(best.distance) - ROUNDING;
    Some(best.gap(search.poses.motion(), solids[best.solid], low, give))
}

/// The least distance found so far.
#[derive(Debug, Clone, Copy)]
struct Best {
    distance: f64,
    solid: usize,
    point: Vec3,
    radius: f64,
    pose: Vec2,
}

impl Best {
    fn gap(&self, motion: &Motion, solid: &Revolved, low: f64, give: f64) -> Gap {
        let placement = motion.placement(self.pose.x, self.pose.y);
        let q = placement.axle_from_body(self.point);
        let (distance, support) = solid.near(q);
        let slide = motion.slide + slide(solid, q, distance, &support, give);
        let pose = Pose {
            left: self.pose.x,
            right: self.pose.y,
            give: slide,
        };
        let at_body = placement.body_from_axle(q - support.normal * self.radius);
        let at_tire = placement.body_from_axle(q - support.normal * distance);
        Gap {
            low,
            high: self.distance,
            witness: Witness {
                pose,
                at_body,
                at_tire,
                part: solid.part,
            },
        }
    }
}

/// How far the axle slides, positive to the left, to come nearest to `q` along this plane: all the way, but over the
/// crown or under the bead only as far as the point stands beside the center plane.
fn slide(solid: &Revolved, q: Vec3, distance: f64, support: &Support, give: f64) -> f64 {
    if support.normal.y.abs() > 0.0 {
        return give * support.normal.y.signum();
    }
    let beside = (q - support.normal * distance).y - solid.side.sign() * solid.center_plane;
    beside.clamp(-give, give)
}

/// The least distance found, and how near to it a bound must come.
struct Found {
    best: Option<Best>,
    accuracy: f64,
    /// From here up nobody cares.
    below: f64,
}

impl Found {
    /// Bounds from here up need no further look.
    fn enough(&self) -> f64 {
        self.best.map_or(f64::INFINITY, |best| {
            (best.distance - self.accuracy).min(self.below)
        })
    }

    fn offer(&mut self, distance: f64, (solid, radius): (usize, f64), place: &Place) {
        if self.best.is_none_or(|best| distance < best.distance) {
            let Place { point, pose, .. } = *place;
            self.best = Some(Best {
                distance,
                solid,
                point,
                radius,
                pose,
            });
        }
    }
}

struct Search<'a> {
    poses: &'a mut Poses,
    /// The faces, then the parts that they were halved to.
    faces: Vec<Face>,
    found: Found,
    discarded: Discarded,
    limits: Limits,
    queue: BinaryHeap<Task>,
    examined: usize,
}

impl Search<'_> {
    /// Looks at every face once, the nearest first: the least distance is then nearly known before most are looked at,
    /// and its pose is a good first guess for all that follow. Those that even the whole travel cannot bring as near
    /// need no look.
    fn seed(&mut self, solids: &[&Revolved], pairs: Vec<(usize, Range<usize>)>) {
        let middle = self.poses.region(0).middle;
        let placement = self.poses.motion().placement(middle.x, middle.y);
        let travel = travel_of(self.poses.region(0), &self.faces);
        let mut order = Vec::with_capacity(2 * pairs.len());
        for (i, of) in pairs {
            let face = &self.faces[i];
            let middle = placement.axle_from_body(face.middle());
            for solid in of {
                order.push((solids[solid].distance(middle) - face.radius, solid, i));
            }
        }
        order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        let Some(&(_, solid, nearest)) = order.first() else {
            return;
        };
        let mut guess = self.least_corner(solids[solid], &self.faces[nearest]);
        for (distance, solid, face) in order {
            let reach = distance - self.faces[face].reach() - travel;
            if reach >= self.found.enough() {
                self.discarded.add(reach, Normals::ANY);
                continue;
            }
            self.examine(solids, Task::whole(face, solid, guess));
            guess = self
                .found
                .best
                .map_or(guess, |best| (best.point, best.pose));
        }
    }

    /// The corner of the face and the corner of the pose box that are nearest to each other.
    fn least_corner(&self, body: &Revolved, face: &Face) -> (Vec3, Vec2) {
        let mut least = (f64::INFINITY, face.middle(), self.poses.region(0).middle);
        for pose in self.poses.corners() {
            let placement = self.poses.motion().placement(pose.x, pose.y);
            for &point in face.corners() {
                let distance = body.distance(placement.axle_from_body(point));
                if distance < least.0 {
                    least = (distance, point, pose);
                }
            }
        }
        (least.1, least.2)
    }

    fn branch(&mut self, solids: &[&Revolved], task: &Task) {
        match task.split {
            Split::Face => {
                for half in self.faces[task.face].halves() {
                    let face = self.faces.len();
                    self.faces.push(half);
                    self.examine(solids, Task { face, ..*task });
                }
            }
            Split::Poses { axis } => {
                for region in self.poses.split(task.region, axis) {
                    self.examine(solids, Task { region, ..*task });
                }
            }
        }
    }

    /// Bounds a task from below, improves the best distance on the way, and queues it if it is still open.
    fn examine(&mut self, solids: &[&Revolved], mut task: Task) {
        /// Planes mixed a box: few while halving is quick to help, more where it is not, deep inside the tire.
        const PLANES: [usize; 2] = [2, 6];
        /// From so many boxes on a search counts as one of the latter.
        const HARD: usize = 400;
        /// The share of the accuracy that a further plane must gain to be worth its time.
        const WORTH: f64 = 1.0 / 2.0;
        self.examined += 1;
        if self.poses.region(task.region).is_empty() {
            return;
        }
        let body = solids[task.solid];
        let face = &self.faces[task.face];
        let pose = self
            .poses
            .region(task.region)
            .clamp(task.pose, self.poses.apart());
        let slack = face.radius;
        let mut here = self.near(body, face.nearest(task.point), pose);
        self.found
            .offer(here.distance - slack, (task.solid, slack), &here);
        let region = self.poses.region(task.region);
        let stance = Stance::new(region, face);
        let mut plane = here.plane(face);
        let mut bound = plane.bound(&stance, here.pose);
        for left in (0..PLANES[usize::from(self.examined > HARD)]).rev() {
            task.raise(bound.least - slack, plane.normals);
            if task.bound >= self.found.enough() || left == 0 {
                break;
            }
            let trial = self.trial(body, face, &here, &bound);
            if trial.distance < here.distance {
                here = trial;
                self.found
                    .offer(here.distance - slack, (task.solid, slack), &here);
            }
            let (before, worth) = (bound.least, self.limits.accuracy * WORTH);
            let place = (&stance, here.pose);
            (plane, bound) = plane.best_with(bound, &trial.plane(face), place, worth);
            if bound.least - before < worth && trial.distance > here.distance {
                break;
            }
        }
        if bound.hoop.is_infinite() {
            let reach = within_reach(&stance, body, here.pose) - slack;
            task.raise(reach, Normals::ANY);
            // Where only a floor is asked, a metal wall beside the wheel's middle is told by the wheel's side.
            if self.found.below.is_finite() {
                let sideways = Plane::sideways(body, &here.support);
                let bound = sideways.bound(&stance, here.pose);
                task.raise(bound.least - slack, sideways.normals);
            }
        }
        (task.point, task.pose) = (here.point, here.pose);
        if task.bound < self.found.enough() {
            // The plane that touches in the nearest place may bound better than the mixtures found on the way to it.
            let plane = here.plane(face);
            bound = plane.bound(&stance, here.pose);
            task.raise(bound.least - slack, plane.normals);
            task.split = split(&stance, &here, &plane, &bound);
        }
        if task.bound >= self.found.enough() {
            self.discarded.add(task.bound, task.normals);
        } else {
            self.queue.push(task);
        }
    }

    fn near(&self, body: &Revolved, point: Vec3, pose: Vec2) -> Place {
        let (distance, support) = body.near(
            self.poses
                .motion()
                .placement(pose.x, pose.y)
                .axle_from_body(point),
        );
        Place {
            point,
            pose,
            distance,
            support,
        }
    }

    /// A place on the way from here to where the plane was lowest: the first lower one, else the far end.
    fn trial(&self, body: &Revolved, face: &Face, here: &Place, bound: &Bound) -> Place {
        const HALVINGS: usize = 5;
        let far = self.near(body, bound.corner, bound.pose);
        if far.distance < here.distance {
            return far;
        }
        let mut share = 0.5;
        for _ in 0..HALVINGS {
            let trial = self.near(
                body,
                face.settle(here.point.lerp(bound.corner, share)),
                here.pose.lerp(bound.pose, share),
            );
            if trial.distance < here.distance {
                return trial;
            }
            share *= 0.5;
        }
        far
    }
}

/// The most by which any pose moves any point of the faces away from where the middle of the region has it, mm: it is a
/// convex function of the point, so the corners of a box round them tell.
fn travel_of(region: &Region, faces: &[Face]) -> f64 {
    if region.half == Vec2::default() {
        return 0.0;
    }
    let points = || {
        faces
            .iter()
            .flat_map(|face| face.corners().iter().map(move |&p| (p, face.bend)))
    };
    let ends = |coordinate: fn(Vec3) -> f64| {
        let start = (f64::INFINITY, f64::NEG_INFINITY);
        points().fold(start, |(low, high), (p, bend)| {
            (
                low.min(coordinate(p) - bend),
                high.max(coordinate(p) + bend),
            )
        })
    };
    let (x, y, z) = (ends(|p| p.x), ends(|p| p.y), ends(|p| p.z));
    let [near, far] = [x.0, x.1].map(|x| {
        let corners = [(y.0, z.0), (y.1, z.0), (y.1, z.1), (y.0, z.1)];
        let face = Face::quadrangle(corners.map(|(y, z)| vec3(x, y, z)));
        Stance::new(region, &face).travel()
    });
    near.max(far)
}

/// What to halve: whatever loses more of `plane`, which touches in `here`, the face in this pose or the poses after it. A loss by the hoop term comes from whatever is larger in space.
fn split(stance: &Stance, here: &Place, plane: &Plane, bound: &Bound) -> Split {
    let least_here = plane.least_at(stance, here.pose);
    let of_face = here.distance - least_here + bound.stray;
    let of_poses = least_here - (bound.least + bound.hoop + bound.stray);
    let (of_face, of_poses, axis) = if bound.hoop <= of_face.max(of_poses) {
        (of_face, of_poses, bound.axis)
    } else {
        let half = stance.region.half;
        (
            stance.face.extent(),
            2.0 * half.x.max(half.y),
            stance.region.longer_axis(),
        )
    };
    if of_face > of_poses && stance.face.corners().len() > 1 {
        Split::Face
    } else {
        Split::Poses { axis }
    }
}

/// A point of the body in a pose, with its distance.
#[derive(Debug, Clone, Copy)]
struct Place {
    point: Vec3,
    pose: Vec2,
    distance: f64,
    support: Support,
}

impl Place {
    /// The plane that touches the solid where this place is nearest to it.
    fn plane(&self, face: &Face) -> Plane {
        Plane::of(&self.support, face, self.point)
    }
}
