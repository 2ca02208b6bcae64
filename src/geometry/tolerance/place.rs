//! A place on the body that can be found again after a reading has changed.

use super::planes::{is_free, turn};
use crate::body::rail::Rail;
use crate::body::{StationTable, Surface, SurfaceId};
use crate::math;
use crate::sheet::angle_of;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};

/// One side's sheet metal and rail.
#[derive(Debug, Clone)]
pub(super) struct Body {
    /// The wheelhouse as it is planned.
    pub table: StationTable,
    /// The frame rail.
    pub rail: Rail,
}

/// A place on one side of a body.
#[derive(Debug, Clone, Copy)]
pub(super) enum Place {
    /// On the sheet: the angle round the wheel, the span, and the share across it.
    Sheet { angle: f64, span: usize, share: f64 },
    /// On the rail: the part of its length, the share along it, the share of its height, and how far inboard.
    Rail {
        part: usize,
        along: f64,
        up: f64,
        inboard: f64,
    },
    /// Fixed to the car.
    Fixed(Vec3),
}

impl Place {
    /// The place of `at`, which lies on the surface `id`.
    pub fn of(body: &Body, side: Side, id: SurfaceId, at: Vec3) -> Option<Self> {
        match id.surface {
            Surface::Obstacle => Some(Self::Fixed(at)),
            Surface::FrameRail => Self::on_rail(&body.rail, side, at),
            surface => Self::on_sheet(&body.table, side, surface, at),
        }
    }

    fn on_sheet(table: &StationTable, side: Side, surface: Surface, at: Vec3) -> Option<Self> {
        let (first, last) = (table.stations.first()?, table.stations.last()?);
        let angle = angle_of(at).clamp(first.angle, last.angle);
        let station = table.at(angle)?;
        let point = vec2(side.sign() * at.y, math::hypot(at.x, at.z));
        let (mut nearest, mut place) = (f64::INFINITY, None);
        for (span, (of, a, b)) in station.segments().enumerate() {
            let share = share_along(a, b, point);
            let distance = (a.lerp(b, share) - point).length();
            if of == surface && distance < nearest {
                nearest = distance;
                place = Some(Self::Sheet { angle, span, share });
            }
        }
        place
    }

    fn on_rail(rail: &Rail, side: Side, at: Vec3) -> Option<Self> {
        let (edge, height) = rail.profile();
        let parts = || edge.windows(2).enumerate();
        // From front to rear; beyond its ends the end counts.
        let (part, ends) = parts()
            .find(|(_, ends)| at.x >= ends[1].x)
            .or_else(|| parts().next_back())?;
        let length = ends[0].x - ends[1].x;
        let along = if length > 0.0 {
            ((ends[0].x - at.x) / length).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let low = ends[0].lerp(ends[1], along);
        Some(Self::Rail {
            part,
            along,
            up: if height > 0.0 {
                (at.z - low.z) / height
            } else {
                0.0
            },
            inboard: low.y - side.sign() * at.y,
        })
    }

    /// The place a step of about `step` mm to either side, for each way in which it may move without meeting an edge or
    /// a crease.
    pub fn neighbors(&self, body: &Body, step: f64) -> Vec<[Self; 2]> {
        let mut pairs = Vec::new();
        match *self {
            Self::Fixed(_) => {}
            Self::Sheet { angle, span, share } => {
                let station = body.table.at(angle);
                let ends = station
                    .as_ref()
                    .and_then(|station| station.points.get(span).zip(station.points.get(span + 1)));
                let Some((&a, &b)) = ends else { return pairs };
                let at = |angle, share| Self::Sheet { angle, span, share };
                let length = (b - a).length();
                if length > step && is_free(share, [0.0, 1.0]) {
                    pairs.push([-step, step].map(|by| at(angle, share + by / length)));
                }
                if is_free(angle, body.table.stations.iter().map(|one| one.angle)) {
                    let by = turn(step, a.lerp(b, share).y);
                    pairs.push([-by, by].map(|by| at(angle + by, share)));
                }
            }
            Self::Rail {
                part,
                along,
                up,
                inboard,
            } => {
                let (edge, height) = body.rail.profile();
                let length = edge
                    .windows(2)
                    .nth(part)
                    .map_or(0.0, |ends| (ends[1] - ends[0]).length());
                let at = |along, up| Self::Rail {
                    part,
                    along,
                    up,
                    inboard,
                };
                if length > step && is_free(along, [0.0, 1.0]) {
                    pairs.push([-step, step].map(|by| at(along + by / length, up)));
                }
                if height > step && is_free(up, [0.0, 1.0]) {
                    pairs.push([-step, step].map(|by| at(along, up + by / height)));
                }
            }
        }
        pairs
    }

    /// Where the place is on a body, car frame.
    pub fn on(&self, body: &Body, side: Side) -> Option<Vec3> {
        match *self {
            Self::Fixed(at) => Some(at),
            Self::Sheet { angle, span, share } => {
                let station = body.table.at(angle)?;
                let p = station
                    .points
                    .get(span)?
                    .lerp(*station.points.get(span + 1)?, share);
                Some(vec3(
                    p.y * math::sin(angle),
                    side.sign() * p.x,
                    p.y * math::cos(angle),
                ))
            }
            Self::Rail {
                part,
                along,
                up,
                inboard,
            } => {
                let (edge, height) = body.rail.profile();
                let low = edge.get(part)?.lerp(*edge.get(part + 1)?, along);
                Some(vec3(
                    low.x,
                    side.sign() * (low.y - inboard),
                    low.z + up * height,
                ))
            }
        }
    }
}

fn share_along(a: Vec2, b: Vec2, point: Vec2) -> f64 {
    let span = b - a;
    let square = span.dot(span);
    if square > 0.0 {
        ((point - a).dot(span) / square).clamp(0.0, 1.0)
    } else {
        0.0
    }
}
