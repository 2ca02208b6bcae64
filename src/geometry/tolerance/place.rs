//! A place on the body that can be found again after a reading has changed.

use super::planes::turn;
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

/// A station this near is the one that the place is on, radians.
const CREASE: f64 = 1e-6;

/// A way in which a place may move on its surface.
#[derive(Debug, Clone, Copy)]
pub(super) struct Way {
    kind: Kind,
    /// How much of its own measure a millimeter is.
    unit: f64,
    /// How far it may move to either side before it meets an edge or a crease, mm.
    pub room: [f64; 2],
}

/// What a way goes along.
#[derive(Debug, Clone, Copy)]
enum Kind {
    /// Across the sheet, or along the rail.
    Across,
    /// Round the wheel, or up the rail.
    Round,
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

    /// The ways in which it may move on its surface.
    pub fn ways(&self, body: &Body) -> Vec<Way> {
        let way = |kind: Kind, at: f64, ends: [f64; 2], unit: f64| {
            (unit.is_finite() && unit > 0.0).then_some(Way {
                kind,
                unit,
                room: ends.map(|end| (end - at) / unit),
            })
        };
        let ways = match *self {
            Self::Fixed(_) => [None, None],
            Self::Sheet { angle, span, share } => {
                let station = body.table.at(angle);
                let ends = station
                    .as_ref()
                    .and_then(|station| station.points.get(span).zip(station.points.get(span + 1)));
                let Some((&a, &b)) = ends else {
                    return Vec::new();
                };
                // From one station to the next the sheet is smooth.
                let angles = || body.table.stations.iter().map(|one| one.angle);
                let before = angles().filter(|&at| at <= angle + CREASE).reduce(f64::max);
                let after = angles().find(|&at| at > angle + CREASE);
                let [before, after] = [before, after].map(|end| end.unwrap_or(angle));
                [
                    way(Kind::Across, share, [0.0, 1.0], 1.0 / (b - a).length()),
                    way(
                        Kind::Round,
                        angle,
                        [before, after],
                        turn(1.0, a.lerp(b, share).y),
                    ),
                ]
            }
            Self::Rail {
                part, along, up, ..
            } => {
                let (edge, height) = body.rail.profile();
                let length = edge
                    .windows(2)
                    .nth(part)
                    .map_or(0.0, |ends| (ends[1] - ends[0]).length());
                [
                    way(Kind::Across, along, [0.0, 1.0], 1.0 / length),
                    way(Kind::Round, up, [0.0, 1.0], 1.0 / height),
                ]
            }
        };
        ways.into_iter().flatten().collect()
    }

    /// The place moved in one of its ways by so many millimeters.
    pub fn moved(mut self, way: Way, by: f64) -> Self {
        let by = by * way.unit;
        match (&mut self, way.kind) {
            (Self::Sheet { share: at, .. } | Self::Rail { along: at, .. }, Kind::Across)
            | (Self::Sheet { angle: at, .. } | Self::Rail { up: at, .. }, Kind::Round) => *at += by,
            (Self::Fixed(_), _) => {}
        }
        self
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
