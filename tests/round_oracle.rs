//! The gaps all round the wheel against a general collision library: a grid of points and poses, then a local search
//! from the best of them.
//!
//! The library sees tire and wheel as polygons in the meridian plane. It knows nothing of support planes, power series
//! or branch and bound; what it finds is the gap at some point in some pose, so it may never be below the interval.

use geometry::check::check;
use geometry::gap::Face;
use geometry::model::{Model, Solids, SurfaceFaces};
use geometry::motion::Motion;
use geometry::order;
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{Vec3, vec3};
use geometry::travel::Pose;
use parry2d_f64::math::Vector;
use parry2d_f64::query::PointQuery as _;
use parry2d_f64::shape::ConvexPolygon;

/// The accuracy asked for, mm.
const ACCURACY: f64 = 0.01;
/// How far the polygon's chords stay inside the tire, mm.
const SAGITTA: f64 = 0.002;
/// How exact the library's own distance search is, mm: its relative tolerance is the square root of the rounding of
/// its numbers, 1.5e-8, on lengths below 1e3.
const SEARCH: f64 = 2e-5;
/// Poses along each wheel's travel.
const GRID: u32 = 6;
/// A surface's points are no further than this from the middle of the piece that they stand for, mm.
const REACH: f64 = 60.0;
/// From how many of the grid's best places the local search starts.
const STARTS: usize = 4;

#[test]
fn a_general_library_finds_nothing_nearer_all_round_the_wheel() {
    for scenario in carfile::SCENARIOS {
        let car = carfile::read(scenario.text).expect("an invented car reads");
        let model = Model::new(&car).expect("an invented car has a model");
        let found = check(&model, ACCURACY);
        for side in Side::BOTH {
            let solids = model.given.get(side);
            let library = Library::new(solids, model.motion);
            let surfaces = model.faces(side);
            for (faces, surface) in surfaces.iter().zip(&found.sides.get(side).surfaces) {
                let what = format!("{}, {side:?}, {}", scenario.name, surface.name);
                let gap = &surface.travel;
                let (brute, rough) = library.least(&model, faces);
                assert!(
                    brute >= gap.low - SEARCH,
                    "{what}: the library finds {brute}, below {}",
                    gap.low
                );
                // The grid's nearest place is no further from the true one than a piece reaches and half a step moves:
                // each wheel moves a point by no more than itself and a little roll.
                assert!(
                    brute <= gap.high + rough || !faces.low.is_empty(),
                    "{what}: {brute} is far above {}",
                    gap.high
                );

                let Pose { left, right, give } = gap.witness.pose;
                // The sections are widened by the sideways give, which is exact: in the witness it is taken up.
                let still = Library::new(model.solids.get(side), model.motion.sliding(give));
                let there = still.all(
                    gap.witness.at_body,
                    Pose {
                        left,
                        right,
                        give: 0.0,
                    },
                );
                let attained = there
                    .iter()
                    .any(|there| (there - gap.high).abs() <= SAGITTA + SEARCH);
                assert!(
                    attained,
                    "{what}: at the witness the library finds {there:?}, not {}",
                    gap.high
                );
            }
        }
    }
}

/// Tire, wheel and the tire at the ground, in the general library.
struct Library<'a> {
    shapes: [(&'a Revolved, ConvexPolygon); 3],
    motion: Motion,
}

impl<'a> Library<'a> {
    fn new(solids: &'a Solids, motion: Motion) -> Self {
        let shape = |body: &'a Revolved| {
            let corners: Vec<Vector> = body
                .chain
                .outline(SAGITTA)
                .into_iter()
                .map(|p| Vector::new(p.x, p.y))
                .collect();
            (
                body,
                ConvexPolygon::from_convex_hull(&corners).expect("a convex outline"),
            )
        };
        Self {
            shapes: [&solids.tire, &solids.wheel, &solids.loaded].map(shape),
            motion,
        }
    }

    /// How far tire, wheel and the tire at the ground are from a body point.
    fn all(&self, point: Vec3, pose: Pose) -> [f64; 3] {
        let q = self
            .motion
            .placement(pose.left, pose.right)
            .axle_from_body(point);
        self.shapes.each_ref().map(|(body, polygon)| {
            let (place, _) = body.meridian(q);
            polygon.distance_to_local_point(Vector::new(place.x, place.y), false)
        })
    }

    /// The nearer of tire and wheel.
    fn distance(&self, face: &Face, point: Vec3, pose: Pose) -> f64 {
        let [tire, wheel, _] = self.all(point, pose);
        tire.min(wheel) - face.radius
    }

    /// The least gap that grid and local search find, and how far the grid alone may be above the truth, mm.
    fn least(&self, model: &Model, surface: &SurfaceFaces) -> (f64, f64) {
        let domain = model.pose_domain();
        let step = (domain.high - domain.low) / f64::from(GRID);
        let height = |k: u32| domain.low + step * f64::from(k);
        let mut pieces = surface.faces.clone();
        let mut places = Vec::new();
        while let Some(face) = pieces.pop() {
            if reach(&face) > REACH {
                pieces.extend(face.halves());
                continue;
            }
            for (left, right) in
                (0..=GRID).flat_map(|i| (0..=GRID).map(move |j| (height(i), height(j))))
            {
                let pose = Pose {
                    left,
                    right,
                    give: 0.0,
                };
                if (left - right).abs() <= domain.apart {
                    places.push((self.distance(&face, face.middle(), pose), face, pose));
                }
            }
        }
        order::sort_by(&mut places, |a, b| a.0.total_cmp(&b.0));
        let refined = places.iter().take(STARTS).map(|&(distance, face, pose)| {
            self.refined(model, (distance, face.middle(), pose), &face, step)
        });
        (refined.fold(f64::INFINITY, f64::min), REACH + 1.5 * step)
    }

    /// A compass search over the face and the poses, its steps halved where none leads down.
    fn refined(
        &self,
        model: &Model,
        (mut least, mut point, mut pose): (f64, Vec3, Pose),
        face: &Face,
        step: f64,
    ) -> f64 {
        let domain = model.pose_domain();
        let mut size = 1.0;
        while size > 1e-4 {
            let far = REACH * size;
            let moves = [
                vec3(far, 0.0, 0.0),
                vec3(0.0, far, 0.0),
                vec3(0.0, 0.0, far),
            ];
            let points = moves
                .iter()
                .flat_map(|&by| [point + by, point - by])
                .map(|p| (face.nearest(p), pose));
            let turn = step * size;
            let poses =
                [(turn, 0.0), (-turn, 0.0), (0.0, turn), (0.0, -turn)].map(|(left, right)| {
                    let within = |height: f64| height.clamp(domain.low, domain.high);
                    (
                        point,
                        Pose {
                            left: within(pose.left + left),
                            right: within(pose.right + right),
                            give: 0.0,
                        },
                    )
                });
            let allowed =
                |&(_, pose): &(Vec3, Pose)| (pose.left - pose.right).abs() <= domain.apart;
            let better = points
                .chain(poses)
                .filter(allowed)
                .map(|(p, at)| (self.distance(face, p, at), p, at))
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .filter(|found| found.0 < least);
            match better {
                Some(found) => (least, point, pose) = found,
                None => size /= 2.0,
            }
        }
        least
    }
}

/// The most by which a point of a face stands away from its middle, mm.
fn reach(face: &Face) -> f64 {
    let away = |&corner: &Vec3| (corner - face.middle()).length();
    face.corners().iter().map(away).fold(0.0, f64::max) + face.bend
}
