//! The ring: for each sector between two neighboring stations, the least gap of the sheet in it.

use super::{Wheel, angle_of, sectors};
use crate::body::Surface;
use crate::gap::Gap;
use crate::model::{Model, SurfaceFaces};
use crate::side::Side;

/// How far the middle of a face may lie beyond its sector for rounding, radians.
const SLACK: f64 = 1e-9;

/// The sheet between two neighboring stations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sector {
    /// From where to where, radians from straight up, rising.
    pub angles: [f64; 2],
    /// The least gap through travel of all sheet in it.
    pub gap: Gap,
    /// The surface where it is attained.
    pub surface: Surface,
}

/// One side's sectors, from the rearmost to the foremost.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// The side.
    pub side: Side,
    /// The sectors.
    pub sectors: Vec<Sector>,
}

impl Ring {
    /// Begins the ring of one side of a model.
    #[must_use]
    pub fn begin(model: &Model, side: Side) -> RingWork {
        let mut surfaces = model.faces(side);
        surfaces
            .retain(|faces| !matches!(faces.id.surface, Surface::FrameRail | Surface::Obstacle));
        RingWork {
            wheel: Wheel::new(model, side),
            surfaces,
            angles: sectors(&model.wheelhouses.get(side).stations),
            ring: Ring {
                side,
                sectors: Vec::new(),
            },
            done: 0,
        }
    }

    /// The whole ring at once.
    #[must_use]
    pub fn whole(model: &Model, side: Side) -> Ring {
        let mut work = Self::begin(model, side);
        loop {
            if let Some(ring) = work.step(usize::MAX) {
                return ring;
            }
        }
    }

    /// The sector with the least gap.
    #[must_use]
    pub fn least(&self) -> Option<&Sector> {
        self.sectors
            .iter()
            .min_by(|a, b| a.gap.low.total_cmp(&b.gap.low))
    }
}

/// A ring that is being computed.
#[derive(Debug, Clone)]
pub struct RingWork {
    wheel: Wheel,
    surfaces: Vec<SurfaceFaces>,
    angles: Vec<[f64; 2]>,
    ring: Ring,
    done: usize,
}

impl RingWork {
    /// Computes so many sectors more; gives the ring once all are done.
    pub fn step(&mut self, sectors: usize) -> Option<Ring> {
        let end = self.done.saturating_add(sectors).min(self.angles.len());
        for &angles in &self.angles[self.done..end] {
            let sector = sector(&mut self.wheel, &self.surfaces, angles);
            self.ring.sectors.extend(sector);
        }
        self.done = end;
        (end == self.angles.len()).then(|| self.ring.clone())
    }
}

fn sector(wheel: &mut Wheel, surfaces: &[SurfaceFaces], angles: [f64; 2]) -> Option<Sector> {
    let mut least: Option<Sector> = None;
    for faces in surfaces {
        let Some(gap) = wheel.gap(&within(faces, angles)) else {
            continue;
        };
        least = Some(match least {
            Some(found) if found.gap.high <= gap.high => Sector {
                gap: Gap {
                    low: found.gap.low.min(gap.low),
                    ..found.gap
                },
                ..found
            },
            found => Sector {
                angles,
                surface: faces.id.surface,
                gap: Gap {
                    low: found.map_or(gap.low, |found| found.gap.low.min(gap.low)),
                    ..gap
                },
            },
        });
    }
    least
}

/// The faces of a surface that lie between two angles.
fn within(surface: &SurfaceFaces, [from, to]: [f64; 2]) -> SurfaceFaces {
    let kept = |faces: &[crate::gap::Face]| {
        faces
            .iter()
            .filter(|face| {
                let angle = angle_of(face.middle());
                from - SLACK <= angle && angle <= to + SLACK
            })
            .copied()
            .collect()
    };
    SurfaceFaces {
        id: surface.id,
        faces: kept(&surface.faces),
        low: kept(&surface.low),
    }
}
