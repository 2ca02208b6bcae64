//! Wheelhouse stations: for each angle round the wheel, the sheet metal as a polyline.

use super::surface::Surface;
use super::tape::{HAND, Tape};
use crate::field::Fault;
use crate::math;
use crate::space::{Vec2, vec2};
use crate::units::in_both;

/// Steps in which a rounded corner is drawn.
const CORNER_STEPS: u32 = 12;

/// The sheet metal in the half-plane at one angle round the wheel.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Angle from straight up, radians, positive toward the front.
    pub angle: f64,
    /// From the quarter lip inward: `x` is out from the car's center plane, `y` the radius from the
    /// measured axle's line, mm.
    pub points: Vec<Vec2>,
    /// The surface of each span; one fewer than the points.
    pub spans: Vec<Surface>,
    /// Index of the point where the outer half's seam flange is.
    pub seam: usize,
    /// Index of the span that is the fill strip, once the seam has moved.
    pub fill: Option<usize>,
}

/// The stations of one side, in rising order of their angles, all with the same spans.
#[derive(Debug, Clone, PartialEq)]
pub struct StationTable {
    /// The stations.
    pub stations: Vec<Station>,
}

/// Stations of a tape-measured wheelhouse: from rear to front at axle height, 15 degrees apart.
const TAPE_STATIONS: u32 = 13;

impl StationTable {
    /// The stations that the tape readings stand for, from a right angle behind straight up to one ahead of it.
    ///
    /// # Errors
    /// Readings that leave no room for roof, corner or seam at some angle.
    pub fn from_tape(tape: &Tape, face: f64) -> Result<Self, Fault> {
        let step = std::f64::consts::PI / f64::from(TAPE_STATIONS - 1);
        let middle = f64::from(TAPE_STATIONS / 2);
        let station = |k: u32| Station::from_tape(tape, face, (f64::from(k) - middle) * step);
        Ok(Self {
            stations: (0..TAPE_STATIONS).map(station).collect::<Result<_, _>>()?,
        })
    }

    /// The section at `angle`, between its two neighbors; nothing where the table does not reach it.
    #[must_use]
    pub fn at(&self, angle: f64) -> Option<Station> {
        let after = self
            .stations
            .iter()
            .position(|station| station.angle >= angle)?;
        let next = &self.stations[after];
        let before = &self.stations[after.saturating_sub(1)];
        if before.angle > angle {
            return None;
        }
        let turn = next.angle - before.angle;
        let share = if turn > 0.0 {
            (angle - before.angle) / turn
        } else {
            0.0
        };
        let points = before
            .points
            .iter()
            .zip(&next.points)
            .map(|(&a, &b)| a.lerp(b, share))
            .collect();
        Some(Station {
            angle,
            points,
            ..before.clone()
        })
    }

    /// The table after the tub is re-set and the roof raised, as [`Station::moved`] does each.
    #[must_use]
    pub fn moved(&self, seam_move: f64, roof_raise: f64) -> Self {
        Self {
            stations: self
                .stations
                .iter()
                .map(|station| station.moved(seam_move, roof_raise))
                .collect(),
        }
    }
}

impl Station {
    /// The section that the tape readings stand for at `angle`: the roof on the arc through front, roof and
    /// rear point, the lip on the arc of the opening, the tub wall as the plane through its two readings.
    ///
    /// `face` is the measured axle's flange face, out from the center plane. The tub ends an arch of a
    /// hand round the axle.
    ///
    /// # Errors
    /// Readings that leave no room for roof, corner or seam.
    pub fn from_tape(tape: &Tape, face: f64, angle: f64) -> Result<Self, Fault> {
        let upright = math::cos(angle);
        let roof = arc_radius(
            tape.wall_ahead.value,
            tape.roof_up.value,
            tape.wall_behind.value,
            angle,
        );
        let lip = arc_radius(
            tape.opening_ahead.value,
            tape.lip_up.value,
            tape.opening_behind.value,
            angle,
        );
        let lip_out = face + tape.to_lip.value;
        let lean = (tape.to_tub_low.value - tape.to_tub_high.value) / (tape.roof_up.value - HAND);
        let wall = |radius: f64| {
            vec2(
                face - tape.to_tub_low.value + lean * radius * upright,
                radius,
            )
        };

        let inner = wall(roof);
        let outer = vec2(lip_out, roof - tape.roof_fall.value * upright);
        // The flange was measured over the axle; toward front and rear the wall leaves it less room.
        let room_for_lip = if angle == 0.0 {
            f64::INFINITY
        } else {
            (outer.y - lip) / 2.0
        };
        let lip_top = lip + tape.lip_depth.value.min(room_for_lip);
        let room = outer.y - lip_top;
        if room <= 1.0 || outer.x - inner.x <= 1.0 || roof <= HAND + 1.0 {
            return Err(Fault::new(
                "tape.roof_up",
                format!(
                    "at {:.0} degrees the roof ({} at the lip) leaves {} above the quarter lip's flange and {} beside the tub wall",
                    angle.to_degrees(),
                    in_both(outer.y),
                    in_both(room),
                    in_both(outer.x - inner.x)
                ),
                "a roof above the lip's flange and a tub wall inboard of the lip would be accepted",
            ));
        }

        let radius = tape.corner_radius.value;
        let outer_radius = radius.min(0.9 * room).min(0.4 * (outer.x - inner.x));
        let outer_corner = fillet(vec2(outer.x, lip_top), outer, inner, outer_radius);
        let inner_corner = fillet(outer, inner, wall(HAND), radius);
        let (Some(outer_corner), Some(inner_corner)) = (outer_corner, inner_corner) else {
            return Err(Fault::new(
                "tape.corner_radius",
                format!(
                    "at {:.0} degrees a corner of {} radius does not fit between roof and tub wall",
                    angle.to_degrees(),
                    in_both(radius)
                ),
                "a smaller corner radius would be accepted",
            ));
        };
        let roof_from = outer_corner[outer_corner.len() - 1];
        let roof_to = inner_corner[0];
        let seam_out = face - tape.to_seam.value;
        if roof_from.x <= roof_to.x
            || (angle == 0.0 && !(roof_to.x..=roof_from.x).contains(&seam_out))
        {
            return Err(Fault::new(
                "tape.to_seam",
                format!("{} puts the seam off the roof", in_both(tape.to_seam.value)),
                format!(
                    "where the roof is level enough for a seam, it reads {} to {}, which would be accepted",
                    in_both(face - roof_from.x),
                    in_both(face - roof_to.x)
                ),
            ));
        }
        // Toward front and rear the roof narrows; the seam then runs along its edge.
        let share = ((roof_from.x - seam_out) / (roof_from.x - roof_to.x)).clamp(0.0, 1.0);

        let mut builder = Builder::default();
        builder.to(
            vec2(lip_out + tape.lip_thickness.value, lip),
            Surface::QuarterLip,
        );
        builder.to(vec2(lip_out, lip), Surface::QuarterLip);
        builder.to(vec2(lip_out, lip_top), Surface::QuarterLip);
        builder.through(&outer_corner, Surface::OuterHalf);
        let seam = builder.to(roof_from.lerp(roof_to, share), Surface::Roof);
        builder.to(roof_to, Surface::Roof);
        builder.through(&inner_corner[1..], Surface::TubCorner);
        builder.to(wall(HAND), Surface::TubWall);
        Ok(Self {
            angle,
            points: builder.points,
            spans: builder.spans,
            seam,
            fill: None,
        })
    }

    /// The section after the tub is re-set `seam_move` mm inboard and the roof raised `roof_raise` mm.
    /// Between the old seam and the new one lies the fill strip.
    #[must_use]
    pub fn moved(&self, seam_move: f64, roof_raise: f64) -> Self {
        let lip_ends = self
            .spans
            .iter()
            .take_while(|&&surface| surface == Surface::QuarterLip)
            .count();
        let raised = |(i, &p): (usize, &Vec2)| {
            let keeps = i <= lip_ends || i + 1 == self.points.len();
            vec2(p.x, if keeps { p.y } else { p.y + roof_raise })
        };
        let mut station = Self {
            points: self.points.iter().enumerate().map(raised).collect(),
            ..self.clone()
        };
        if seam_move > 0.0 {
            let seam = station.points[self.seam];
            for point in &mut station.points[self.seam + 1..] {
                point.x -= seam_move;
            }
            station
                .points
                .insert(self.seam + 1, vec2(seam.x - seam_move, seam.y));
            station.spans.insert(self.seam, Surface::Roof);
            station.fill = Some(self.seam);
        }
        station
    }

    /// The lengths of the spans, from the lip inward, mm.
    pub fn lengths(&self) -> impl Iterator<Item = f64> + '_ {
        let ends = self.points.windows(2);
        ends.map(|ends| (ends[1] - ends[0]).length())
    }

    /// From the lip's edge to the factory's seam along the sheet, mm.
    #[must_use]
    pub fn lip_to_seam(&self) -> f64 {
        self.lengths().take(self.seam).sum()
    }

    /// Each span with its surface, from the lip inward.
    pub fn segments(&self) -> impl Iterator<Item = (Surface, Vec2, Vec2)> {
        self.spans
            .iter()
            .zip(self.points.windows(2))
            .map(|(&surface, ends)| (surface, ends[0], ends[1]))
    }

    /// How far out the tub wall stands at `radius`, mm; `None` where the wall does not reach.
    #[must_use]
    pub fn wall_at(&self, radius: f64) -> Option<f64> {
        self.segments()
            .filter(|(surface, ..)| matches!(surface, Surface::TubWall | Surface::TubCorner))
            .find(|(_, a, b)| {
                (a.y.min(b.y)..=a.y.max(b.y)).contains(&radius) && (a.y - b.y).abs() > 0.0
            })
            .map(|(_, a, b)| a.lerp(b, (radius - a.y) / (b.y - a.y)).x)
    }
}

#[derive(Default)]
struct Builder {
    points: Vec<Vec2>,
    spans: Vec<Surface>,
}

impl Builder {
    /// Goes on to `point` along `surface`; gives the point's index.
    fn to(&mut self, point: Vec2, surface: Surface) -> usize {
        if !self.points.is_empty() {
            self.spans.push(surface);
        }
        self.points.push(point);
        self.points.len() - 1
    }

    fn through(&mut self, points: &[Vec2], surface: Surface) {
        for &point in points {
            self.to(point, surface);
        }
    }
}

/// Distance from the axle, at `angle` from straight up, of the circle through a point ahead, one above and
/// one behind the axle.
fn arc_radius(ahead: f64, above: f64, behind: f64, angle: f64) -> f64 {
    let middle = (ahead - behind) / 2.0;
    let half = f64::midpoint(ahead, behind);
    let up = (middle * middle + above * above - half * half) / (2.0 * above);
    let along = math::sin(angle) * middle + math::cos(angle) * up;
    along
        + (along * along - middle * middle + half * half)
            .max(0.0)
            .sqrt()
}

/// The rounded corner at `corner` between the lines from `before` and to `after`; nothing where it does not fit.
fn fillet(before: Vec2, corner: Vec2, after: Vec2, radius: f64) -> Option<Vec<Vec2>> {
    let (to_before, to_after) = (before - corner, after - corner);
    let (a, b) = (
        to_before * (1.0 / to_before.length()),
        to_after * (1.0 / to_after.length()),
    );
    let half_angle = math::acos(a.dot(b)) / 2.0;
    let (sin, cos) = (math::sin(half_angle), math::cos(half_angle));
    if sin < 1e-6 || cos < 1e-6 {
        return None;
    }
    let back = radius * cos / sin;
    if back > to_before.length() || back > to_after.length() {
        return None;
    }
    let bisector = a + b;
    let center = corner + bisector * (radius / sin / bisector.length());
    let (start, end) = (corner + a * back - center, corner + b * back - center);
    let turn = math::atan2(start.cross(end), start.dot(end));
    let from = start.angle();
    let step = |k: u32| {
        center + Vec2::at_angle(from + turn * f64::from(k) / f64::from(CORNER_STEPS)) * radius
    };
    Some((0..=CORNER_STEPS).map(step).collect())
}
