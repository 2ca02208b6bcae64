//! Branch and bound over faces and poses.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::face::Face;
use super::plane::{Bound, Plane, within_reach};
use super::poses::{Poses, Region};
use super::{Gap, ROUNDING, Witness};
use crate::motion::Motion;
use crate::solid::{Revolved, Support};
use crate::space::{Vec2, Vec3};
use crate::travel::Pose;

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

/// The least gap of `faces` to `solids` over all poses, or nothing where there is no face or no solid, or where a
/// corner or a pose is no finite number.
///
/// `give` tells how far the axle may slide along itself either way; the solids' sections must hold it
/// already ([`crate::chain::Chain::widened`]), here it only completes the witness's pose.
#[must_use]
pub fn certify(
    poses: &mut Poses,
    solids: &[&Revolved],
    faces: &[Face],
    give: f64,
    limits: Limits,
) -> Option<Gap> {
    let finite = faces
        .iter()
        .flat_map(Face::corners)
        .all(|corner| corner.is_finite())
        && poses.are_finite();
    if !finite {
        return None;
    }
    let mut search = Search {
        poses,
        best: None,
        discarded: f64::INFINITY,
        limits,
        queue: BinaryHeap::new(),
        examined: 0,
    };
    search.seed(solids, faces);
    while let Some(task) = search.queue.pop() {
        if task.bound >= search.enough() || search.examined >= limits.boxes {
            search.discarded = search.discarded.min(task.bound);
            break;
        }
        search.branch(solids, &task);
    }
    let best = search.best?;
    let low = search.discarded.min(best.distance) - ROUNDING;
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

/// A face, a solid and a part of the poses that may still hold the least gap.
#[derive(Debug, Clone, Copy)]
struct Task {
    bound: f64,
    face: Face,
    solid: usize,
    region: usize,
    point: Vec3,
    pose: Vec2,
    split: Split,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Split {
    Face,
    Poses { axis: usize },
}

impl PartialEq for Task {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Task {}

impl PartialOrd for Task {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Task {
    /// The least bound comes first out of the queue.
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.total_cmp(&self.bound)
    }
}

struct Search<'a> {
    poses: &'a mut Poses,
    best: Option<Best>,
    discarded: f64,
    limits: Limits,
    queue: BinaryHeap<Task>,
    examined: usize,
}

impl Search<'_> {
    /// Bounds from here up need no further look.
    fn enough(&self) -> f64 {
        self.best
            .map_or(f64::INFINITY, |best| best.distance - self.limits.accuracy)
    }

    /// Looks at every face once, the nearest first: the least distance is then nearly known before most are looked at,
    /// and its pose is a good first guess for all that follow.
    fn seed(&mut self, solids: &[&Revolved], faces: &[Face]) {
        let middle = self.poses.region(0).middle;
        let placement = self.poses.motion().placement(middle.x, middle.y);
        let away = |solid: usize, face: &Face| {
            solids[solid].distance(placement.axle_from_body(face.middle())) - face.radius
        };
        let mut order: Vec<(f64, usize, usize)> = (0..solids.len())
            .flat_map(|solid| {
                faces
                    .iter()
                    .enumerate()
                    .map(move |(i, face)| (away(solid, face), solid, i))
            })
            .collect();
        order.sort_by(|a, b| a.0.total_cmp(&b.0));
        let Some(&(_, solid, nearest)) = order.first() else {
            return;
        };
        let mut guess = self.least_corner(solids[solid], &faces[nearest]);
        let still = self.poses.region(0).half == Vec2::default();
        for (distance, solid, i) in order {
            // In one pose no distance changes by more than its point moves over the face.
            let reach = distance - faces[i].extent() - faces[i].bend;
            if still && reach >= self.enough() {
                self.discarded = self.discarded.min(reach);
                continue;
            }
            let task = Task {
                bound: f64::NEG_INFINITY,
                face: faces[i],
                solid,
                region: 0,
                point: guess.0,
                pose: guess.1,
                split: Split::Face,
            };
            self.examine(solids, task);
            guess = self.best.map_or(guess, |best| (best.point, best.pose));
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

    fn offer(&mut self, distance: f64, task: &Task, place: &Place) {
        if self.best.is_none_or(|best| distance < best.distance) {
            let Place { point, pose, .. } = *place;
            self.best = Some(Best {
                distance,
                solid: task.solid,
                point,
                radius: task.face.radius,
                pose,
            });
        }
    }

    fn branch(&mut self, solids: &[&Revolved], task: &Task) {
        match task.split {
            Split::Face => {
                for face in task.face.halves() {
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
        /// Planes mixed a box.
        const PLANES: usize = 6;
        /// The share of the accuracy that a further plane must gain to be worth its time.
        const WORTH: f64 = 1.0 / 16.0;
        self.examined += 1;
        if self.poses.region(task.region).is_empty() {
            return;
        }
        let body = solids[task.solid];
        let pose = self
            .poses
            .region(task.region)
            .clamp(task.pose, self.poses.apart());
        let slack = task.face.radius + task.face.bend;
        let mut here = self.near(body, task.face.nearest(task.point), pose);
        self.offer(here.distance - task.face.radius, &task, &here);
        let mut plane = Plane::from(here.support);
        let mut bound = plane.bound(self.poses.region(task.region), &task.face, here.pose);
        for left in (0..PLANES).rev() {
            task.bound = task.bound.max(bound.least - slack);
            if task.bound >= self.enough() || left == 0 {
                break;
            }
            let trial = self.trial(body, &task.face, &here, &bound);
            if trial.distance < here.distance {
                here = trial;
                self.offer(here.distance - task.face.radius, &task, &here);
            }
            let (before, worth) = (bound.least, self.limits.accuracy * WORTH);
            let place = (self.poses.region(task.region), &task.face);
            (plane, bound) = plane.best_with(bound, &Plane::from(trial.support), place, worth);
            if bound.least - before < worth && trial.distance > here.distance {
                break;
            }
        }
        let region = self.poses.region(task.region);
        if !bound.least.is_finite() {
            let reach = within_reach(region, body, &task.face, here.pose) - slack;
            task.bound = task.bound.max(reach);
        }
        (task.point, task.pose) = (here.point, here.pose);
        if task.bound >= self.enough() {
            self.discarded = self.discarded.min(task.bound);
        } else {
            task.split = self.split(region, &task.face, &here);
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

    /// What to halve: whatever loses more of the plane that touches in `here`, the face in this pose or the poses after
    /// it. A loss by the hoop term comes from whatever is larger in space.
    fn split(&self, region: &Region, face: &Face, here: &Place) -> Split {
        let plane = Plane::from(here.support);
        let bound = plane.bound(region, face, here.pose);
        let least_here = plane.least_at(
            &self.poses.motion().placement(here.pose.x, here.pose.y),
            face,
        );
        let of_face = here.distance - least_here + face.bend;
        let of_poses = least_here - bound.flat;
        let by_hoop = bound.flat - bound.least > of_face.max(of_poses);
        let (of_face, of_poses, axis) = if by_hoop {
            (
                face.extent(),
                2.0 * region.half.x.max(region.half.y),
                region.longer_axis(),
            )
        } else {
            (of_face, of_poses, bound.axis)
        };
        if of_face > of_poses && face.corners().len() > 1 {
            Split::Face
        } else {
            Split::Poses { axis }
        }
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
