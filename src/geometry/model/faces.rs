//! Each surface of a side as faces for the gap.

use super::{Model, Solids};
use crate::body::rail::{RAIL_WIDTH, Rail};
use crate::body::{Station, Surface, SurfaceId};
use crate::gap::{self, Face, Gap, Limits, Meeting, Patch, Poses};
use crate::math;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec3};

/// Below this direction from the wheel's center, as a share of the distance, the loaded section counts
/// as well: 60 degrees from straight down. The bulge has died away there (common practice, no source).
const LOADED_BELOW: f64 = -0.5;

/// One surface as faces.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceFaces {
    /// Which surface.
    pub id: SurfaceId,
    /// Its faces, car frame.
    pub faces: Vec<Face>,
    /// Those that come so low that the tire's section at the ground counts for them as well.
    pub low: Vec<Face>,
}

impl SurfaceFaces {
    /// The least gap to `solids` over all of `poses`; `give` as [`gap::certify`] takes it.
    #[must_use]
    pub fn gap(
        &self,
        poses: &mut Poses,
        solids: &Solids,
        give: f64,
        limits: Limits,
    ) -> Option<Gap> {
        self.gap_below(poses, solids, give, limits, f64::INFINITY)
    }

    /// The same for whoever cares only whether it lies `below` so much, mm; see [`gap::certify_below`].
    #[must_use]
    pub fn gap_below(
        &self,
        poses: &mut Poses,
        solids: &Solids,
        give: f64,
        limits: Limits,
        below: f64,
    ) -> Option<Gap> {
        let away = Meeting {
            solids: &[&solids.tire, &solids.wheel],
            faces: &self.faces,
        };
        let at_the_ground = Meeting {
            solids: &[&solids.loaded],
            faces: &self.low,
        };
        gap::certify_below(poses, &[away, at_the_ground], give, limits, below)
    }
}

impl Model {
    /// The surfaces of one side, from the lip inward, then the obstacles, whole.
    #[must_use]
    pub fn faces(&self, side: Side) -> Vec<SurfaceFaces> {
        let sheet = Surface::FIXED.into_iter().map(|surface| {
            let faces = match surface {
                Surface::FrameRail => rail_faces(self.rails.get(side), side),
                _ => wheelhouse_faces(&self.wheelhouses.get(side).stations, side, surface),
            };
            self.surface(surface.into(), faces)
        });
        let mut surfaces: Vec<SurfaceFaces> =
            sheet.filter(|surface| !surface.faces.is_empty()).collect();
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

    /// Faces as one surface, with those among them that come near the ground.
    pub(crate) fn surface(&self, id: SurfaceId, faces: Vec<Face>) -> SurfaceFaces {
        let highest = self.motion.ride + self.car.travel.bump;
        let is_low = |p: &Vec3, radius: f64| {
            let up = p.z - radius - highest;
            up < LOADED_BELOW * math::hypot(p.x - self.motion.ahead, up)
        };
        let low = |face: &&Face| face.corners().iter().any(|p| is_low(p, face.radius));
        SurfaceFaces {
            id,
            low: faces.iter().filter(low).copied().collect(),
            faces,
        }
    }
}

/// One surface in one station's half-plane.
fn section_faces(station: &Station, side: Side, surface: Surface) -> Vec<Face> {
    let angles = [station.angle; 2];
    let span = |a: Vec2, b: Vec2| Face::from(Patch::new(side, angles, [a; 2], [b; 2]));
    station
        .segments()
        .filter(|(of, ..)| *of == surface)
        .map(|(_, a, b)| span(a, b))
        .collect()
}

/// The sheet of one surface: a patch between each two stations for each of its spans.
fn wheelhouse_faces(stations: &[Station], side: Side, surface: Surface) -> Vec<Face> {
    let between = |pair: &[Station]| -> Vec<Face> {
        let [rear, front] = pair else {
            return Vec::new();
        };
        let ends = |k: usize| [rear.points[k], front.points[k]];
        let angles = [rear.angle, front.angle];
        let patch = |k: usize| Patch::new(side, angles, ends(k), ends(k + 1));
        let of_surface = rear
            .spans
            .iter()
            .enumerate()
            .filter(|&(_, &span)| span == surface);
        of_surface.map(|(k, _)| Face::from(patch(k))).collect()
    };
    match stations {
        [only] => section_faces(only, side, surface),
        stations => stations.windows(2).flat_map(between).collect(),
    }
}

/// The rail's outboard face, top and bottom; its inboard face can never be nearest.
fn rail_faces(rail: &Rail, side: Side) -> Vec<Face> {
    let (edge, height) = rail.profile();
    let corner =
        |p: Vec3, inboard: f64, up: f64| vec3(p.x, side.sign() * (p.y - inboard), p.z + up);
    let quad = |[a, b, c, d]: [Vec3; 4]| [Face::triangle(a, b, c), Face::triangle(a, c, d)];
    let strip = |from: (f64, f64), to: (f64, f64), a: Vec3, b: Vec3| {
        quad([
            corner(a, from.0, from.1),
            corner(b, from.0, from.1),
            corner(b, to.0, to.1),
            corner(a, to.0, to.1),
        ])
    };
    let sides = [
        ((0.0, 0.0), (0.0, height)),
        ((0.0, height), (RAIL_WIDTH, height)),
        ((0.0, 0.0), (RAIL_WIDTH, 0.0)),
    ];
    edge.windows(2)
        .flat_map(|ends| sides.map(|(from, to)| strip(from, to, ends[0], ends[1])))
        .flatten()
        .collect()
}
