//! Each surface of a side as faces for the gap.

use super::{Model, Solids};
use crate::body::{Surface, SurfaceId};
use crate::gap::Face;
use crate::side::Side;
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec3};

/// Below this direction from the wheel's center, as a share of the distance, the loaded section counts
/// as well: 60 degrees from straight down. The bulge has died away there (common practice, no source).
const LOADED_BELOW: f64 = -0.5;

/// One surface as faces, and whether it comes so low that the loaded section counts.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceFaces {
    /// Which surface.
    pub id: SurfaceId,
    /// Its faces, car frame.
    pub faces: Vec<Face>,
    /// Whether any of it comes near the ground side of the tire.
    pub low: bool,
}

impl SurfaceFaces {
    /// The solids of `solids` that this surface can meet.
    #[must_use]
    pub fn meets<'a>(&self, solids: &'a Solids) -> Vec<&'a Revolved> {
        let mut met = vec![&solids.tire, &solids.wheel];
        if self.low {
            met.push(&solids.loaded);
        }
        met
    }
}

impl Model {
    /// The surfaces of one side in the section straight up, from the lip inward, then the obstacles, whole.
    #[must_use]
    pub fn section_faces(&self, side: Side) -> Vec<SurfaceFaces> {
        let at = |p: Vec2| vec3(0.0, side.sign() * p.x, p.y);
        let station = self.moved.get(side);
        let rail = self.rails.get(side).section();
        let mut surfaces: Vec<SurfaceFaces> = Surface::FIXED
            .into_iter()
            .map(|surface| {
                let faces = if surface == Surface::FrameRail {
                    // Outboard face, top and bottom: the inboard face can never be nearest.
                    vec![
                        Face::segment(at(rail[0]), at(rail[1])),
                        Face::segment(at(rail[1]), at(rail[2])),
                        Face::segment(at(rail[3]), at(rail[0])),
                    ]
                } else {
                    let of_surface = station.segments().filter(|(of, ..)| *of == surface);
                    of_surface
                        .map(|(_, a, b)| Face::segment(at(a), at(b)))
                        .collect()
                };
                self.surface(surface.into(), faces)
            })
            .collect();
        for (index, obstacle) in self
            .car
            .obstacles
            .iter()
            .enumerate()
            .filter(|(_, obstacle)| obstacle.side == side)
        {
            let at = |p: Vec3| vec3(p.x, side.sign() * p.y, p.z);
            let face = Face::segment(at(obstacle.from), at(obstacle.to)).thick(obstacle.radius);
            surfaces.push(self.surface(
                SurfaceId {
                    surface: Surface::Obstacle,
                    index,
                },
                vec![face],
            ));
        }
        surfaces
    }

    fn surface(&self, id: SurfaceId, faces: Vec<Face>) -> SurfaceFaces {
        let highest = self.motion.ride + self.car.travel.bump;
        let is_low = |p: &Vec3, radius: f64| {
            let up = p.z - radius - highest;
            up < LOADED_BELOW * crate::math::hypot(p.x - self.motion.ahead, up)
        };
        let low = faces
            .iter()
            .any(|face| face.corners().iter().any(|p| is_low(p, face.radius)));
        SurfaceFaces { id, faces, low }
    }
}
