//! Branch and bound over faces and poses.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::face::Face;
use super::poses::{Poses, Region};
use super::{Gap, ROUNDING, Witness};
use crate::motion::{Motion, Placement};
use crate::solid::{Revolved, Support};
use crate::space::{Vec2, Vec3, vec2, vec3};
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
    /// Asks for this accuracy, mm, with a cap that no car in the tests comes near.
    #[must_use]
    pub const fn accuracy(accuracy: f64) -> Self {
        Self {
            accuracy,
            boxes: 200_000,
        }
    }
}

/// The least gap of `faces` to `solids` over all poses, or nothing where there is no face or no solid.
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
        search.branch(solids, task);
    }
    let best = search.best?;
    let low = search.discarded.min(best.distance) - ROUNDING;
    Some(best.gap(search.poses.motion(), solids[best.solid], low, give))
}

/// The gap of `faces` to `solids` in one pose whose give is zero.
#[must_use]
pub fn at_pose(
    motion: Motion,
    pose: Pose,
    solids: &[&Revolved],
    faces: &[Face],
    limits: Limits,
) -> Option<Gap> {
    certify(&mut Poses::at(motion, pose), solids, faces, 0.0, limits)
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
        let slide = give * outboard_sign(&support);
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

/// Toward which side (+1 left, -1 right) the axle slides to come nearer along this plane.
fn outboard_sign(support: &Support) -> f64 {
    if support.normal.y > 0.0 {
        1.0
    } else if support.normal.y < 0.0 {
        -1.0
    } else {
        0.0
    }
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

    fn seed(&mut self, solids: &[&Revolved], faces: &[Face]) {
        let corners: Vec<(Vec2, Placement<f64>)> = self
            .poses
            .corners()
            .into_iter()
            .map(|pose| (pose, self.poses.motion().placement(pose.x, pose.y)))
            .collect();
        let mut seeds = Vec::with_capacity(faces.len() * solids.len());
        for (solid, body) in solids.iter().enumerate() {
            for face in faces {
                let mut seed = (f64::INFINITY, face.middle(), Vec2::default());
                for &(pose, placement) in &corners {
                    for &point in face.corners() {
                        let distance = body.distance(placement.axle_from_body(point)) - face.radius;
                        if distance < seed.0 {
                            seed = (distance, point, pose);
                        }
                    }
                }
                self.offer(seed.0, solid, (seed.1, face.radius), seed.2);
                seeds.push((seed.0, solid, *face, seed.1, seed.2));
            }
        }
        // Nearest first: the least distance is then known before most faces are looked at.
        seeds.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, solid, face, point, pose) in seeds {
            let task = Task {
                bound: f64::NEG_INFINITY,
                face,
                solid,
                region: 0,
                point,
                pose,
                split: Split::Face,
            };
            self.examine(solids, task);
        }
    }

    fn offer(&mut self, distance: f64, solid: usize, (point, radius): (Vec3, f64), pose: Vec2) {
        if self.best.is_none_or(|best| distance < best.distance) {
            self.best = Some(Best {
                distance,
                solid,
                point,
                radius,
                pose,
            });
        }
    }

    fn branch(&mut self, solids: &[&Revolved], task: Task) {
        match task.split {
            Split::Face => {
                for face in task.face.halves() {
                    self.examine(solids, Task { face, ..task });
                }
            }
            Split::Poses { axis } => {
                for region in self.poses.split(task.region, axis) {
                    self.examine(solids, Task { region, ..task });
                }
            }
        }
    }

    /// Bounds a task from below, improves the best distance on the way, and queues it if it is still open.
    fn examine(&mut self, solids: &[&Revolved], mut task: Task) {
        /// Planes tried a box; each further one starts from the pose where the last plane was lowest.
        const PLANES: usize = 4;
        self.examined += 1;
        if self.poses.region(task.region).is_empty() {
            return;
        }
        let apart = self.poses.apart();
        let body = solids[task.solid];
        let radius = task.face.radius;
        let mut pose = self.poses.region(task.region).clamp(task.pose, apart);
        let mut point = task.face.nearest(task.point);
        let mut here = self.near(body, point, pose);
        self.offer(here.0 - radius, task.solid, (point, radius), pose);
        for _ in 0..PLANES {
            let region = self.poses.region(task.region);
            let plane = bound(region, body, &task.face, here.1, pose);
            task.bound = task.bound.max(plane.least - radius);
            let loss_of_face = here.0 - plane.at_pose;
            let loss_of_poses = plane.at_pose - plane.least;
            task.split = if loss_of_face > loss_of_poses && task.face.corners().len() > 1 {
                Split::Face
            } else {
                Split::Poses {
                    axis: wider_axis(region, plane.pose - pose),
                }
            };
            if task.bound >= self.enough() {
                break;
            }
            let Some(next) = self.step_toward(
                body,
                (point, pose, here.0),
                (plane.corner, plane.pose),
                apart,
            ) else {
                break;
            };
            (point, pose) = (next.0, next.1);
            here = next.2;
            self.offer(here.0 - radius, task.solid, (point, radius), pose);
        }
        (task.point, task.pose) = (point, pose);
        if task.bound >= self.enough() {
            self.discarded = self.discarded.min(task.bound);
        } else {
            self.queue.push(task);
        }
    }

    fn near(&self, body: &Revolved, point: Vec3, pose: Vec2) -> (f64, Support) {
        body.near(
            self.poses
                .motion()
                .placement(pose.x, pose.y)
                .axle_from_body(point),
        )
    }

    /// A lower distance on the way from here to where the plane was lowest, if there is one.
    fn step_toward(
        &self,
        body: &Revolved,
        (point, pose, distance): (Vec3, Vec2, f64),
        (to_point, to_pose): (Vec3, Vec2),
        apart: f64,
    ) -> Option<(Vec3, Vec2, (f64, Support))> {
        const HALVINGS: usize = 8;
        let mut share = 1.0;
        let mut found: Option<(Vec3, Vec2, (f64, Support))> = None;
        for _ in 0..HALVINGS {
            let trial = (point.lerp(to_point, share), pose.lerp(to_pose, share));
            if (trial.1.x - trial.1.y).abs() <= apart {
                let near = self.near(body, trial.0, trial.1);
                match &found {
                    Some(best) if near.0 >= best.2.0 => break,
                    _ if near.0 < distance => found = Some((trial.0, trial.1, near)),
                    _ => {}
                }
            }
            share *= 0.5;
        }
        found
    }
}

/// What one frozen plane says of a face over a region.
struct PlaneBound {
    /// Never above the distance of any point of the face in any pose of the region.
    least: f64,
    /// The plane's least over the face at the reference pose.
    at_pose: f64,
    /// The corner and pose where it is least.
    corner: Vec3,
    pose: Vec2,
}

fn bound(
    region: &Region,
    body: &Revolved,
    face: &Face,
    support: Support,
    pose: Vec2,
) -> PlaneBound {
    let form = region.affine(support.normal);
    let mut plane = PlaneBound {
        least: f64::INFINITY,
        at_pose: f64::INFINITY,
        corner: face.middle(),
        pose,
    };
    for &corner in face.corners() {
        let (quadratic, remainder) = form.of(corner, region.half);
        let (least, at) = quadratic.least_over(&region.polygon);
        let least = least - remainder - support.offset;
        plane.at_pose = plane
            .at_pose
            .min(quadratic.at(pose - region.middle) - support.offset);
        if least < plane.least {
            plane = PlaneBound {
                least,
                corner,
                pose: region.middle + at,
                ..plane
            };
        }
    }
    if support.radial < 0.0 {
        plane.least -= support.radial.abs() * hoop(region, face, support);
        if !plane.least.is_finite() {
            plane.least = within_reach(region, body, face, pose);
        }
    }
    plane
}

/// The most by which the radius exceeds its component along the frozen meridian: `b^2 / 2a`, mm;
/// infinite where that component can vanish.
fn hoop(region: &Region, face: &Face, support: Support) -> f64 {
    let along = region.affine(vec3(support.meridian.x, 0.0, support.meridian.y));
    let across = region.affine(vec3(support.meridian.y, 0.0, -support.meridian.x));
    let (mut least_along, mut most_across) = (f64::INFINITY, 0.0_f64);
    for &corner in face.corners() {
        let (a, a_spread) = spread(&along.of(corner, region.half), region.half);
        let (b, b_spread) = spread(&across.of(corner, region.half), region.half);
        least_along = least_along.min(a - a_spread);
        most_across = most_across.max(b.abs() + b_spread);
    }
    if least_along > 0.0 {
        most_across * most_across / (2.0 * least_along)
    } else {
        f64::INFINITY
    }
}

/// A bound by the distance alone: it changes by no more than a point moves.
fn within_reach(region: &Region, body: &Revolved, face: &Face, pose: Vec2) -> f64 {
    let axes = [
        vec3(1.0, 0.0, 0.0),
        vec3(0.0, 1.0, 0.0),
        vec3(0.0, 0.0, 1.0),
    ]
    .map(|axis| region.affine(axis));
    let at = |point: Vec3| axes.map(|axis| axis.of(point, region.half).0.at(pose - region.middle));
    let reference = at(face.middle());
    let distance = body.distance(vec3(reference[0], reference[1], reference[2]));
    let mut reach = 0.0_f64;
    for &corner in face.corners() {
        let square: f64 = (0..3)
            .map(|i| {
                let (value, around) = spread(&axes[i].of(corner, region.half), region.half);
                let most = (value - reference[i]).abs() + around;
                most * most
            })
            .sum();
        reach = reach.max(square.sqrt());
    }
    distance - reach
}

/// A function's value in the middle of its region, and the most by which it differs anywhere in it.
fn spread(
    &(ref quadratic, remainder): &(super::quadratic::Quadratic, f64),
    half: Vec2,
) -> (f64, f64) {
    let [c0, cu, cv, cuu, cuv, cvv] = quadratic.0;
    let (a, b) = (half.x, half.y);
    (
        c0,
        cu.abs() * a
            + cv.abs() * b
            + cuu.abs() * a * a
            + cuv.abs() * a * b
            + cvv.abs() * b * b
            + remainder,
    )
}

/// The axis along which the plane's lowest pose lies further, in shares of the region; the wider one where neither does.
fn wider_axis(region: &Region, toward: Vec2) -> usize {
    let half = region.half;
    let share = vec2(toward.x.abs(), toward.y.abs());
    let first = if share.x == 0.0 && share.y == 0.0 {
        half.x >= half.y
    } else {
        share.x >= share.y
    };
    match (first, half.x > 0.0, half.y > 0.0) {
        (true, true, _) | (false, true, false) => 0,
        _ => 1,
    }
}
