//! The fill strip: the new metal between the old seam and the new one, and what it looks like laid flat.
//!
//! The tub is re-set by a translation along the axle, so the strip between the old seam and its translate is a general
//! cylinder: straight along the axle everywhere, bent only round the wheel. Such a surface is laid flat without
//! stretching. Across the flat pattern stays what it is, the distance out from the car's center plane; along it runs
//! the length of the seam as it is seen from the side.
//!
//! Between two stations the seam runs evenly in `(out, radius)` with the angle `a`. Seen from the side it is the spiral
//! `r = r0 + r' a`, whose length is the integral of `sqrt(r^2 + r'^2)`: a smooth function over a few degrees, taken by
//! Gauss's rule, which leaves nothing that a double could tell.

use crate::body::StationTable;
use crate::math;
use crate::model::Model;
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec2, vec3};
use crate::units::MM_PER_INCH;

/// The widest step of the pattern's rows, radians: a degree. The chords of an edge then stay within a hundredth of a
/// millimeter of it.
const STEP: f64 = std::f64::consts::PI / 180.0;

/// How much longer than the seam the strip is cut at either end, mm: an inch that is trimmed on the car (common
/// practice, no source).
pub const SPARE: f64 = MM_PER_INCH;

/// A turn is rounded by less than this share of a step.
const WHOLE: f64 = 1e-9;

/// Gauss's rule of five points on [-1, 1]: places and weights (Abramowitz and Stegun, table 25.4; from memory, and held
/// by the test that a circle's length is its angle times its radius).
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// The old seam at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgePoint {
    /// Angle from straight up, radians, positive toward the front.
    pub angle: f64,
    /// Distance from the measured axle's line, mm.
    pub radius: f64,
    /// Out from the car's center plane, mm.
    pub out: f64,
}

/// The fill strip of one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// The side.
    pub side: Side,
    /// Its outboard edge, the old seam, at the stations from rear to front.
    pub edge: Vec<EdgePoint>,
    /// How far inboard its other edge lies, along the axle, mm.
    pub width: f64,
    /// How far along the flat pattern each station lies, mm from the rear end.
    along: Vec<f64>,
}

/// One row across the flat pattern.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatternRow {
    /// Angle round the wheel, radians.
    pub angle: f64,
    /// How far along, mm from the rear end.
    pub along: f64,
    /// The outboard edge: out from the car's center plane, mm.
    pub out: f64,
    /// How far the lap reaches beyond either edge, mm across: more than the lap where the edge runs aslant.
    pub lap: f64,
}

/// The flat pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// Its rows from rear to front.
    pub rows: Vec<PatternRow>,
    /// Width between the two edges, mm, the same in every row.
    pub width: f64,
}

impl Strip {
    /// The fill strip of one side as it is planned; nothing where the seam is not moved.
    #[must_use]
    pub fn of(model: &Model, side: Side) -> Option<Self> {
        let width = model.car.sides.get(side).seam_move;
        if width <= 0.0 {
            return None;
        }
        Self::new(side, seam(model.wheelhouses.get(side))?, width)
    }

    /// The strip along an edge told at stations of rising angles, at least two, `width` mm wide along the axle.
    #[must_use]
    pub fn new(side: Side, edge: Vec<EdgePoint>, width: f64) -> Option<Self> {
        let rises = edge.windows(2).all(|pair| pair[1].angle > pair[0].angle);
        if edge.len() < 2 || !rises {
            return None;
        }
        let mut along = vec![0.0];
        let mut reached = 0.0;
        for pair in edge.windows(2) {
            reached += Piece::new(pair[0], pair[1]).length(1.0);
            along.push(reached);
        }
        Some(Self {
            side,
            edge,
            width,
            along,
        })
    }

    /// Length of the flat pattern, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.along.last().copied().unwrap_or(0.0)
    }

    /// Length of either edge, mm: what is welded.
    #[must_use]
    pub fn edge_length(&self) -> f64 {
        self.pieces().map(|(_, piece)| piece.edge_length()).sum()
    }

    /// Area between the two edges, square mm: exact, for every row is equally wide.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.length() * self.width
    }

    /// The flat pattern with laps of `lap` mm, square to the edges.
    #[must_use]
    pub fn pattern(&self, lap: f64) -> Pattern {
        let mut rows: Vec<PatternRow> = Vec::new();
        for (start, piece) in self.pieces() {
            let steps = (piece.turn / STEP - WHOLE).ceil().max(1.0);
            let mut k = 0.0;
            while k <= steps {
                let share = k / steps;
                let row = PatternRow {
                    angle: piece.from.angle + share * piece.turn,
                    along: start + piece.length(share),
                    out: piece.from.out + share * piece.outward,
                    lap: lap * piece.aslant(share),
                };
                match rows.last_mut().filter(|_| k <= 0.0) {
                    // Two pieces meet at a station: the wider lap of the two.
                    Some(last) => last.lap = last.lap.max(row.lap),
                    None => rows.push(row),
                }
                k += 1.0;
            }
        }
        Pattern {
            rows,
            width: self.width,
        }
    }

    /// Where a spot of the flat pattern comes to lie in the car, bent round the wheel: `along` from the rear end, `out`
    /// from the center plane. Beyond its ends the end counts.
    #[must_use]
    pub fn fold(&self, along: f64, out: f64) -> Vec3 {
        let last = self.edge.len() - 2;
        let index = self.along[1..=last]
            .iter()
            .take_while(|&&end| end <= along)
            .count();
        let piece = Piece::new(self.edge[index], self.edge[index + 1]);
        let share = piece.share_at(along - self.along[index]);
        let (angle, radius) = (
            piece.from.angle + share * piece.turn,
            piece.from.radius + share * piece.growth,
        );
        vec3(
            radius * math::sin(angle),
            self.side.sign() * out,
            radius * math::cos(angle),
        )
    }

    /// Each piece between two stations with how far along it begins.
    fn pieces(&self) -> impl Iterator<Item = (f64, Piece)> + '_ {
        self.along
            .iter()
            .zip(self.edge.windows(2))
            .map(|(&start, pair)| (start, Piece::new(pair[0], pair[1])))
    }
}

impl Pattern {
    /// The two edges, outboard first: `(along, out)`, from rear to front, mm.
    #[must_use]
    pub fn edges(&self) -> [Vec<Vec2>; 2] {
        [0.0, self.width].map(|inboard| {
            self.rows
                .iter()
                .map(|row| vec2(row.along, row.out - inboard))
                .collect()
        })
    }

    /// What is cut out of the sheet, laps and spare ends included: a closed outline, `(along, out)`, mm.
    #[must_use]
    pub fn outline(&self) -> Vec<Vec2> {
        let side = |of: &dyn Fn(&PatternRow) -> f64| {
            let mut line: Vec<Vec2> = self
                .rows
                .iter()
                .map(|row| vec2(row.along, of(row)))
                .collect();
            if let (Some(&first), Some(&last)) = (line.first(), line.last()) {
                line.insert(0, first - vec2(SPARE, 0.0));
                line.push(last + vec2(SPARE, 0.0));
            }
            line
        };
        let mut outline = side(&|row| row.out + row.lap);
        let inner = side(&|row| row.out - self.width - row.lap);
        outline.extend(inner.into_iter().rev());
        outline
    }

    /// Area of what is cut out, laps and spare ends included, square mm.
    #[must_use]
    pub fn area(&self) -> f64 {
        let outline = self.outline();
        let next = outline.iter().skip(1).chain(outline.first());
        let twice: f64 = outline.iter().zip(next).map(|(a, b)| a.cross(*b)).sum();
        twice.abs() / 2.0
    }

    /// The smallest upright rectangle of sheet that it is cut from: length and width, mm.
    #[must_use]
    pub fn blank(&self) -> [f64; 2] {
        let outline = self.outline();
        let span = |of: fn(&Vec2) -> f64| {
            let low = outline.iter().map(of).fold(f64::INFINITY, f64::min);
            let high = outline.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
            high - low
        };
        [span(|p| p.x), span(|p| p.y)]
    }
}

/// The seam that the fill strip begins at, station by station.
fn seam(table: &StationTable) -> Option<Vec<EdgePoint>> {
    let points = table.stations.iter().map(|station| {
        let seam = station.points.get(station.fill?)?;
        Some(EdgePoint {
            angle: station.angle,
            radius: seam.y,
            out: seam.x,
        })
    });
    points.collect()
}

/// The seam between two stations.
struct Piece {
    from: EdgePoint,
    /// How far it turns, radians.
    turn: f64,
    /// How much the radius grows over it, mm.
    growth: f64,
    /// How much farther out it ends, mm.
    outward: f64,
}

impl Piece {
    fn new(from: EdgePoint, to: EdgePoint) -> Self {
        Self {
            from,
            turn: to.angle - from.angle,
            growth: to.radius - from.radius,
            outward: to.out - from.out,
        }
    }

    /// Length a share of the piece, seen from the side, mm.
    fn speed(&self, share: f64) -> f64 {
        let radius = self.from.radius + share * self.growth;
        math::hypot(radius * self.turn, self.growth)
    }

    /// Length from its beginning to a share of it, seen from the side, mm.
    fn length(&self, share: f64) -> f64 {
        self.integral(share, |at| self.speed(at))
    }

    /// Length of the edge itself, mm.
    fn edge_length(&self) -> f64 {
        self.integral(1.0, |at| math::hypot(self.speed(at), self.outward))
    }

    fn integral(&self, share: f64, value: impl Fn(f64) -> f64) -> f64 {
        let steps = (self.turn * share / STEP).ceil().max(1.0);
        let half = share / steps / 2.0;
        let (mut sum, mut k) = (0.0, 0.0);
        while k < steps {
            let middle = (2.0 * k + 1.0) * half;
            sum += GAUSS
                .iter()
                .map(|(place, weight)| weight * value(middle + place * half))
                .sum::<f64>();
            k += 1.0;
        }
        sum * half
    }

    /// How much longer the edge is than its view from the side, which is how much farther across a lap must reach.
    fn aslant(&self, share: f64) -> f64 {
        let speed = self.speed(share);
        math::hypot(speed, self.outward) / speed
    }

    /// The share at which so much of its length is behind, mm: Newton's steps, which settle at once on a length that
    /// grows almost evenly.
    fn share_at(&self, length: f64) -> f64 {
        const STEPS: u32 = 8;
        let whole = self.length(1.0);
        let length = length.clamp(0.0, whole);
        let mut share = length / whole;
        for _ in 0..STEPS {
            share = (share + (length - self.length(share)) / self.speed(share)).clamp(0.0, 1.0);
        }
        share
    }
}
