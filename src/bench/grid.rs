//! A general collision library over a grid of poses: what is done where there is no bound.

use geometry::chain::Chain;
use geometry::gap::Face;
use geometry::model::Model;
use geometry::solid::Revolved;
use geometry::space::Vec3;
use geometry::travel::Pose;
use parry2d_f64::math::Vector;
use parry2d_f64::query::PointQuery as _;
use parry2d_f64::shape::ConvexPolygon;

use crate::pieces::{pieces, reach};

/// Poses along each wheel's travel.
const POSES: u32 = 21;
/// How near to each other the points of a surface are, mm: between two of them a tire of 300 mm radius comes nearer by
/// up to half a millimeter.
const SPACING: f64 = 30.0;
/// How far the polygon's chords stay inside the tire, mm.
const SAGITTA: f64 = 0.02;

/// The least gap that the grid finds on each surface.
pub fn gaps(model: &Model) -> Vec<f64> {
    let domain = model.pose_domain();
    let height =
        |k: u32| domain.low + (domain.high - domain.low) * f64::from(k) / f64::from(POSES - 1);
    pieces(model)
        .into_iter()
        .map(|piece| {
            let solids = [&piece.solids.tire, &piece.solids.wheel].map(Shape::new);
            let points = points(piece.faces);
            let mut least = f64::INFINITY;
            for (left, right) in
                (0..POSES).flat_map(|i| (0..POSES).map(move |j| (height(i), height(j))))
            {
                if (left - right).abs() > domain.apart {
                    continue;
                }
                let placement = model.motion.at(Pose {
                    left,
                    right,
                    give: 0.0,
                });
                for &(point, radius) in &points {
                    let q = placement.axle_from_body(point);
                    for solid in &solids {
                        least = least.min(solid.distance(q) - radius);
                    }
                }
            }
            least
        })
        .collect()
}

/// A revolved body as the library sees it: a polygon in the meridian plane.
struct Shape<'a> {
    body: &'a Revolved,
    polygon: Option<ConvexPolygon>,
}

impl<'a> Shape<'a> {
    fn new(body: &'a Revolved) -> Self {
        Self {
            body,
            polygon: polygon(&body.chain),
        }
    }

    fn distance(&self, q: Vec3) -> f64 {
        let (place, _) = self.body.meridian(q);
        let point = Vector::new(place.x, place.y);
        self.polygon.as_ref().map_or(f64::INFINITY, |polygon| {
            polygon.distance_to_local_point(point, false)
        })
    }
}

fn polygon(chain: &Chain) -> Option<ConvexPolygon> {
    let corners: Vec<Vector> = chain
        .outline(SAGITTA)
        .into_iter()
        .map(|p| Vector::new(p.x, p.y))
        .collect();
    ConvexPolygon::from_convex_hull(&corners)
}

/// Points all over the faces, each with the thickness of the metal there.
fn points(mut faces: Vec<Face>) -> Vec<(Vec3, f64)> {
    let mut points = Vec::new();
    while let Some(face) = faces.pop() {
        if reach(&face) > SPACING / 2.0 {
            faces.extend(face.halves());
        } else {
            points.push((face.middle(), face.radius));
        }
    }
    points
}
