//! What of the factory's wheelhouse stands in the tire's room, by angle round the wheel, and how it is taken away.
//!
//! Each row stands for the sheet from halfway to the station before to halfway to the next, so that nothing between
//! two rows is missed. Along the row the sheet is cut into shorter and shorter pieces until each is certified to have
//! its target, at ride height and through travel, or is shown to lack it, or is no longer than [`FINE`]: what is told
//! to stand in the way is never too short, and too long by that much at most.

use crate::body::{NoCutZone, Station, StationTable, Surface, SurfaceId};
use crate::gap::{Face, Limits, Patch, Poses};
use crate::model::{Model, Solids};
use crate::order;
use crate::side::Side;
use crate::space::Vec2;
use crate::travel::Pose;
use crate::units::MM_PER_INCH;

/// The shortest piece of sheet that is told apart, mm: finer than a marker's line.
pub const FINE: f64 = 1.0;
/// How closely a piece's gap is certified, mm.
const ACCURACY: f64 = 0.1;

/// How a piece of sheet is taken out of the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum How {
    /// The quarter lip: rolled or trimmed, which is body work of its own.
    Lip,
    /// Pushed back with hammer and dolly.
    Dolly,
    /// Cut out.
    Saw,
    /// Left alone, though it stands in the way: a no-cut zone reaches into it.
    Stop,
}

/// A piece of sheet that stands in the way. Distances run along the factory's sheet from its seam, mm, positive inboard.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSpan {
    /// The final trim, from outboard to inboard.
    pub trim: [f64; 2],
    /// The first cut, short of the final trim at both ends; nothing where the piece is too short for that.
    pub first: Option<[f64; 2]>,
    /// How much room is missing where most is, mm.
    pub short: f64,
    /// The surface where most is missing.
    pub surface: Surface,
    /// How it is taken out of the way.
    pub how: How,
    /// Whether the seam's flange is in it.
    pub flange: bool,
    /// The no-cut zones that it lies in, by their places in the car's list; only where it is left alone.
    pub no_cut: Vec<usize>,
}

impl CutSpan {
    /// Whether less is missing than one mark of a tape, a sixteenth of an inch: no tape tells it, the mock-up may.
    #[must_use]
    pub fn is_slight(&self) -> bool {
        self.short < MM_PER_INCH / 16.0
    }
}

/// One angle round the wheel.
#[derive(Debug, Clone, PartialEq)]
pub struct CutRow {
    /// From straight up, radians, positive toward the front.
    pub angle: f64,
    /// From where to where the row stands for the sheet, radians.
    pub sector: [f64; 2],
    /// From the lip's edge to the seam along the sheet, mm.
    pub lip_to_seam: f64,
    /// What stands in the way even when all is done as planned, from outboard to inboard.
    pub spans: Vec<CutSpan>,
    /// Whether sheet that stands in the way goes with the tub, or with the roof, as planned.
    pub goes_along: bool,
}

/// One side's rows, from rear to front.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPlan {
    /// The side.
    pub side: Side,
    /// How far inboard its tub is re-set, mm.
    pub seam_move: f64,
    /// The rows.
    pub rows: Vec<CutRow>,
}

impl CutPlan {
    /// Begins the plan of one side.
    #[must_use]
    pub fn begin(model: &Model, side: Side) -> CutWork {
        CutWork {
            sheet: Sheet::new(model, side),
            rows: Vec::new(),
        }
    }

    /// The whole plan at once.
    #[must_use]
    pub fn whole(model: &Model, side: Side) -> Self {
        let mut work = Self::begin(model, side);
        loop {
            if let Some(plan) = work.step(usize::MAX) {
                return plan;
            }
        }
    }

    /// What stands in the way, row by row.
    pub fn spans(&self) -> impl Iterator<Item = &CutSpan> {
        self.rows.iter().flat_map(|row| &row.spans)
    }

    /// Whether nothing is left to be cut, pushed or rolled.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.spans().next().is_none()
    }

    /// Whether it can be worked by: not where a no-cut zone stands in the way, nor where the saw would have to make
    /// inboard of a seam that stays the room that moving the seam is there to make.
    #[must_use]
    pub fn is_plan(&self) -> bool {
        self.spans().all(|span| match span.how {
            How::Stop => false,
            How::Saw => self.seam_move > 0.0 || span.trim[1] <= 0.0,
            How::Lip | How::Dolly => true,
        })
    }

    /// What is missing at the first and the last angle, most of all, mm, where anything is: the sheet goes on beyond
    /// them, the list does not.
    #[must_use]
    pub fn short_at_ends(&self) -> [Option<(f64, f64)>; 2] {
        [self.rows.first(), self.rows.last()].map(|row| {
            let row = row?;
            let shorts = row.spans.iter().map(|span| span.short);
            Some((row.angle, shorts.reduce(f64::max)?))
        })
    }
}

/// A plan that is being worked out. It keeps what it needs of the model, so that no slice can be of another state.
#[derive(Debug, Clone)]
pub struct CutWork {
    sheet: Sheet,
    rows: Vec<CutRow>,
}

impl CutWork {
    /// Works out so many rows more; gives the plan once all are done.
    pub fn step(&mut self, rows: usize) -> Option<CutPlan> {
        let all = self.sheet.stock.stations.len();
        let end = self.rows.len().saturating_add(rows).min(all);
        for index in self.rows.len()..end {
            let row = self.sheet.row(index);
            self.rows.push(row);
        }
        (end == all).then(|| CutPlan {
            side: self.sheet.side,
            seam_move: self.sheet.model.car.sides.get(self.sheet.side).seam_move,
            rows: self.rows.clone(),
        })
    }
}

/// One side's sheet before and after, and what moves under it.
#[derive(Debug, Clone)]
struct Sheet {
    model: Model,
    side: Side,
    stock: StationTable,
    planned: StationTable,
    travel: Poses,
    rest: Poses,
}

/// What a piece of sheet does.
#[derive(Debug, Clone, Copy, PartialEq)]
enum State {
    Clear,
    /// It stands in the way as it is, and goes along with what is moved.
    GoesAlong,
    /// It stands in the way; how much room is missing, mm.
    InTheWay(f64),
}

/// A piece of a span between two shares of it, with its state.
#[derive(Debug, Clone, Copy)]
struct Cell {
    from: f64,
    to: f64,
    surface: Surface,
    state: State,
}

impl Sheet {
    fn new(model: &Model, side: Side) -> Self {
        Self {
            side,
            stock: model.stock_wheelhouses.get(side).clone(),
            planned: model.wheelhouses.get(side).clone(),
            travel: Poses::new(model.motion, model.pose_domain()),
            rest: Poses::at(model.motion, Pose::RIDE),
            model: model.clone(),
        }
    }

    fn row(&mut self, index: usize) -> CutRow {
        let angles = |k: usize| self.stock.stations[k].angle;
        let here = angles(index);
        let before = angles(index.saturating_sub(1));
        let after = angles((index + 1).min(self.stock.stations.len() - 1));
        let sector = [f64::midpoint(before, here), f64::midpoint(here, after)];
        let station = self.stock.stations[index].clone();
        let lip_to_seam = station.lip_to_seam();

        let mut cells = Vec::new();
        let mut reached = -lip_to_seam;
        for (span, length) in station.lengths().enumerate() {
            let end = reached + length;
            let share = |along: f64| {
                if along < end {
                    (along - reached) / length
                } else {
                    1.0
                }
            };
            // No piece reaches over the edge of a no-cut zone, so that each is in it or out of it.
            let mut from = reached;
            for to in self.edges(sector, [reached, end]) {
                let piece = Piece {
                    span,
                    shares: [share(from), share(to)],
                    along: [from, to],
                };
                self.sort(&[sector[0], here, sector[1]], &piece, &mut cells);
                from = to;
            }
            reached = end;
        }
        let goes_along = cells.iter().any(|cell| cell.state == State::GoesAlong);
        CutRow {
            angle: here,
            sector,
            lip_to_seam,
            spans: self.spans(sector, &cells),
            goes_along,
        }
    }

    /// Sorts a piece of one span into cells.
    fn sort(&mut self, angles: &[f64; 3], piece: &Piece, cells: &mut Vec<Cell>) {
        let surface = self.stock.stations[0].spans[piece.span];
        let [from, to] = piece.along;
        let length = to - from;
        let mut put = |state| {
            cells.push(Cell {
                from,
                to,
                surface,
                state,
            });
        };
        let stock = faces(&self.stock, self.side, angles, piece);
        let Some(stock) = stock.map(|faces| self.missing(surface, faces)) else {
            return put(State::Clear);
        };
        if stock.at_most <= 0.0 {
            return put(State::Clear);
        }
        let planned = faces(&self.planned, self.side, angles, &self.planned_piece(piece));
        let Some(planned) = planned.map(|faces| self.missing(surface, faces)) else {
            return put(State::Clear);
        };
        if planned.at_most <= 0.0 {
            return put(State::GoesAlong);
        }
        // Where a gap is short by more than the piece is long, it is short all along the piece: no gap changes faster
        // than the spot moves.
        if length <= FINE || planned.at_least > self.longest(angles, piece) {
            return put(State::InTheWay(planned.at_most));
        }
        let middle = f64::midpoint(from, to);
        let share = f64::midpoint(piece.shares[0], piece.shares[1]);
        for (shares, along) in [
            ([piece.shares[0], share], [from, middle]),
            ([share, piece.shares[1]], [middle, to]),
        ] {
            let half = Piece {
                span: piece.span,
                shares,
                along,
            };
            self.sort(angles, &half, cells);
        }
    }

    /// The same piece in the wheelhouse as it is planned: the fill strip comes in between.
    fn planned_piece(&self, piece: &Piece) -> Piece {
        let fill = self.planned.stations[0].fill;
        let added = self.planned.stations[0].spans.len() - self.stock.stations[0].spans.len();
        let behind = fill.is_some_and(|fill| piece.span >= fill);
        Piece {
            span: piece.span + if behind { added } else { 0 },
            ..*piece
        }
    }

    /// The longest way across a piece at any angle of its row, mm.
    fn longest(&self, angles: &[f64; 3], piece: &Piece) -> f64 {
        let across = |&angle: &f64| {
            let station = self.planned.at(angle)?;
            let ends = ends(&station, &self.planned_piece(piece))?;
            Some((ends[1] - ends[0]).length())
        };
        angles.iter().filter_map(across).fold(0.0, f64::max)
    }

    fn missing(&mut self, surface: Surface, faces: Vec<Face>) -> Missing {
        let id = SurfaceId::from(surface);
        let faces = self.model.surface(id, faces);
        let limits = Limits::accuracy(ACCURACY);
        let targets = &self.model.car.targets;
        let mut missing = Missing {
            at_least: f64::NEG_INFINITY,
            at_most: f64::NEG_INFINITY,
        };
        let given: &Solids = self.model.given.get(self.side);
        let rigid: &Solids = self.model.solids.get(self.side);
        let give = self.model.car.travel.give;
        for (poses, solids, give, target) in [
            (
                &mut self.travel,
                given,
                give,
                targets.through_travel(surface),
            ),
            (&mut self.rest, rigid, 0.0, targets.at_ride(surface)),
        ] {
            if let Some(gap) = faces.gap(poses, solids, give, limits) {
                missing.at_least = missing.at_least.max(target - gap.high);
                missing.at_most = missing.at_most.max(target - gap.low);
            }
        }
        missing
    }

    /// The no-cut zones that reach into a row's sector, with their places in the car's list.
    fn zones(&self, sector: [f64; 2]) -> impl Iterator<Item = (usize, &NoCutZone)> {
        let zones = self.model.car.no_cut.iter().enumerate();
        zones.filter(move |(_, zone)| {
            let [rear, front] = zone.angles;
            zone.side == self.side && rear < sector[1] && sector[0] < front
        })
    }

    /// Where a stretch of the sheet is parted by the edges of no-cut zones, and its end.
    fn edges(&self, sector: [f64; 2], [from, to]: [f64; 2]) -> Vec<f64> {
        let edges = self.zones(sector).flat_map(|(_, zone)| zone.along);
        let mut edges: Vec<f64> = edges
            .filter(|&edge| from < edge && edge < to)
            .chain([to])
            .collect();
        order::sort_by(&mut edges, f64::total_cmp);
        edges.dedup();
        edges
    }

    /// Neighboring cells that stand in the way, as spans.
    fn spans(&self, sector: [f64; 2], cells: &[Cell]) -> Vec<CutSpan> {
        let mut spans: Vec<CutSpan> = Vec::new();
        let mut open = false;
        for cell in cells {
            let State::InTheWay(short) = cell.state else {
                open = false;
                continue;
            };
            let middle = f64::midpoint(cell.from, cell.to);
            let no_cut: Vec<usize> = self
                .zones(sector)
                .filter(|(_, zone)| zone.along[0] < middle && middle < zone.along[1])
                .map(|(index, _)| index)
                .collect();
            let how = if !no_cut.is_empty() {
                How::Stop
            } else if cell.surface == Surface::QuarterLip {
                How::Lip
            } else {
                How::Saw
            };
            match spans.last_mut() {
                Some(span) if open && how == span.how && no_cut == span.no_cut => {
                    span.trim[1] = cell.to;
                    if short > span.short {
                        (span.short, span.surface) = (short, cell.surface);
                    }
                }
                _ => spans.push(CutSpan {
                    trim: [cell.from, cell.to],
                    first: None,
                    short,
                    surface: cell.surface,
                    how,
                    flange: false,
                    no_cut,
                }),
            }
            open = true;
        }
        for span in &mut spans {
            self.settle(span);
        }
        spans
    }

    /// What follows from where a span lies and how much is missing.
    fn settle(&self, span: &mut CutSpan) {
        let metal = &self.model.car.metal;
        let [from, to] = span.trim;
        if span.how == How::Saw && span.short <= metal.dolly {
            span.how = How::Dolly;
        }
        if span.how == How::Saw {
            let inside = [from + metal.first_cut, to - metal.first_cut];
            span.first = (inside[0] < inside[1]).then_some(inside);
        }
        span.flange = span.how != How::Stop && from < metal.lap && to > -metal.lap;
    }
}

/// How much room is missing to a piece of sheet where most is, mm: between these two.
struct Missing {
    at_least: f64,
    at_most: f64,
}

/// A piece of one span: from one share of it to another, and where that is along the sheet from the seam, mm.
#[derive(Debug, Clone, Copy)]
struct Piece {
    span: usize,
    shares: [f64; 2],
    along: [f64; 2],
}

/// The piece as curved sheet between the row's angles; nothing where the stations do not reach.
fn faces(table: &StationTable, side: Side, angles: &[f64; 3], piece: &Piece) -> Option<Vec<Face>> {
    let mut faces = Vec::new();
    for pair in angles.windows(2) {
        let [rear, front] = [pair[0], pair[1]];
        // The first and the last row reach to one side only; a lone station is no wider than itself.
        if rear >= front && angles[0] < angles[2] {
            continue;
        }
        let [a, b] = [rear, front].map(|angle| ends(&table.at(angle)?, piece));
        let (a, b) = (a?, b?);
        faces.push(Face::from(Patch::new(
            side,
            [rear, front],
            [a[0], b[0]],
            [a[1], b[1]],
        )));
    }
    Some(faces)
}

/// The two ends of a piece in one section.
fn ends(station: &Station, piece: &Piece) -> Option<[Vec2; 2]> {
    let from = *station.points.get(piece.span)?;
    let to = *station.points.get(piece.span + 1)?;
    Some(piece.shares.map(|share| from.lerp(to, share)))
}
