//! The map: the gap through travel at nodes all over the sheet, at many angles and many places along it.

use super::{Wheel, angle_of, sectors};
use crate::body::{Station, StationTable, Surface};
use crate::gap::{Face, Gap};
use crate::math;
use crate::model::{Model, SurfaceFaces};
use crate::side::Side;
use crate::space::{Vec2, Vec3, vec3};

/// The widest step between two angles, radians: 5 degrees.
const TURN: f64 = std::f64::consts::PI / 36.0;
/// The longest step along the sheet, mm.
const PACE: f64 = 28.0;
/// How near two corners count as the same, mm.
const SAME: f64 = 1e-6;

/// A place along the sheet, the same at all angles: a share of a span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// The span, from the lip inward.
    pub span: usize,
    /// The share of it.
    pub share: f64,
    /// The surface that the span is.
    pub surface: Surface,
}

/// A spot of the sheet with its gap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Node {
    /// Where it is, car frame, mm.
    pub at: Vec3,
    /// How far along the sheet from the lip's edge, mm.
    pub along: f64,
    /// Its least gap over all poses.
    pub gap: Gap,
}

/// The sheet of one side, unrolled.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetMap {
    /// The side.
    pub side: Side,
    /// The angles of its columns, radians from straight up, rising.
    pub angles: Vec<f64>,
    /// Its rows, from the lip inward.
    pub rows: Vec<Row>,
    /// Its nodes, column by column.
    pub nodes: Vec<Node>,
    /// For each column how far along the sheet the outer half's seam lies, and that of the moved tub, mm: the fill strip
    /// is between them.
    pub seams: Vec<[f64; 2]>,
}

impl SheetMap {
    /// Begins the map of one side of a model.
    #[must_use]
    pub fn begin(model: &Model, side: Side) -> MapWork {
        let table = model.wheelhouses.get(side);
        let columns: Vec<Station> = angles(&table.stations)
            .into_iter()
            .filter_map(|angle| table.at(angle))
            .collect();
        let rows = rows(&columns);
        let seams = columns.iter().map(seams).collect();
        MapWork {
            wheel: Wheel::new(model, side),
            low: LowSpans::new(model, side, table),
            done: 0,
            map: SheetMap {
                side,
                angles: columns.iter().map(|station| station.angle).collect(),
                rows,
                nodes: Vec::new(),
                seams,
            },
            columns,
        }
    }

    /// The whole map at once.
    #[must_use]
    pub fn whole(model: &Model, side: Side) -> SheetMap {
        let mut work = Self::begin(model, side);
        loop {
            if let Some(map) = work.step(usize::MAX) {
                return map;
            }
        }
    }

    /// The node at a column and a row.
    #[must_use]
    pub fn node(&self, column: usize, row: usize) -> Option<&Node> {
        if row < self.rows.len() {
            self.nodes.get(self.index(column, row))
        } else {
            None
        }
    }

    /// The place of a column's and row's node in [`SheetMap::nodes`].
    #[must_use]
    pub fn index(&self, column: usize, row: usize) -> usize {
        column * self.rows.len() + row
    }

    /// The column and row of a node.
    #[must_use]
    pub fn place(&self, index: usize) -> (usize, usize) {
        let rows = self.rows.len().max(1);
        (index / rows, index % rows)
    }

    /// The node with the least gap.
    #[must_use]
    pub fn least(&self) -> Option<usize> {
        (0..self.nodes.len())
            .min_by(|&a, &b| self.nodes[a].gap.low.total_cmp(&self.nodes[b].gap.low))
    }

    /// Each surface with its first and its last row, from the lip inward.
    #[must_use]
    pub fn surfaces(&self) -> Vec<(Surface, usize, usize)> {
        let mut runs: Vec<(Surface, usize, usize)> = Vec::new();
        for (row, found) in self.rows.iter().enumerate() {
            match runs.last_mut() {
                Some((surface, _, last)) if *surface == found.surface => *last = row,
                _ => runs.push((found.surface, row.saturating_sub(1), row)),
            }
        }
        runs
    }
}

/// A map that is being computed.
#[derive(Debug, Clone)]
pub struct MapWork {
    wheel: Wheel,
    low: LowSpans,
    columns: Vec<Station>,
    map: SheetMap,
    done: usize,
}

impl MapWork {
    /// Computes so many nodes more; gives the map once all are done.
    pub fn step(&mut self, nodes: usize) -> Option<SheetMap> {
        let all = self.columns.len() * self.map.rows.len();
        let end = self.done.saturating_add(nodes).min(all);
        for index in self.done..end {
            let (column, row) = self.map.place(index);
            let node = self.node(column, row);
            // Where a spot has no gap, its column ends the map: no node may stand for another.
            let Some(node) = node else {
                self.columns.truncate(column);
                self.map.angles.truncate(column);
                self.map.seams.truncate(column);
                self.map.nodes.truncate(column * self.map.rows.len());
                return Some(self.map.clone());
            };
            self.map.nodes.push(node);
        }
        self.done = end;
        (end == all).then(|| self.map.clone())
    }

    /// How much of the work is done, as a share.
    #[must_use]
    pub fn share(&self) -> f64 {
        let all = self.columns.len() * self.map.rows.len();
        self.done as f64 / all.max(1) as f64
    }

    fn node(&mut self, column: usize, row: usize) -> Option<Node> {
        let station = self.columns.get(column)?;
        let Row {
            span,
            share,
            surface,
        } = *self.map.rows.get(row)?;
        let at = in_car(station.angle, self.map.side, on_span(station, span, share)?);
        let point = Face::point(at);
        let low = if self.low.holds(station.angle, span) {
            vec![point]
        } else {
            Vec::new()
        };
        let along = along(station, span, share);
        let gap = self.wheel.gap(&SurfaceFaces {
            id: surface.into(),
            faces: vec![point],
            low,
        })?;
        Some(Node { at, along, gap })
    }
}

/// Which spans of which sectors come so low that the tire's section at the ground counts for them.
#[derive(Debug, Clone)]
struct LowSpans {
    sectors: Vec<[f64; 2]>,
    low: Vec<Vec<bool>>,
}

impl LowSpans {
    fn new(model: &Model, side: Side, table: &StationTable) -> Self {
        let sectors = sectors(&table.stations);
        let faces: Vec<Face> = model
            .faces(side)
            .into_iter()
            .flat_map(|faces| faces.low)
            .collect();
        let corner = |station: &Station, k: usize| {
            station
                .points
                .get(k)
                .map(|&p| in_car(station.angle, side, p))
        };
        let holds = |face: &Face, p: Option<Vec3>| {
            p.is_some_and(|p| face.corners().iter().any(|&q| (q - p).length() < SAME))
        };
        let low = sectors.iter().enumerate().map(|(s, &[from, to])| {
            let (Some(rear), Some(front)) = (
                table.stations.get(s),
                table.stations.get((s + 1).min(table.stations.len() - 1)),
            ) else {
                return Vec::new();
            };
            let near: Vec<&Face> = faces
                .iter()
                .filter(|face| (from..=to).contains(&angle_of(face.middle())))
                .collect();
            (0..rear.spans.len())
                .map(|k| {
                    near.iter().any(|face| {
                        holds(face, corner(rear, k))
                            && holds(face, corner(rear, k + 1))
                            && holds(face, corner(front, k))
                    })
                })
                .collect()
        });
        Self {
            low: low.collect(),
            sectors,
        }
    }

    fn holds(&self, angle: f64, span: usize) -> bool {
        self.sectors
            .iter()
            .zip(&self.low)
            .filter(|([from, to], _)| (*from..=*to).contains(&angle))
            .any(|(_, spans)| spans.get(span).copied().unwrap_or(false))
    }
}

/// The angles of the columns: every station's, and even steps between.
fn angles(stations: &[Station]) -> Vec<f64> {
    let mut angles: Vec<f64> = stations
        .first()
        .map(|first| first.angle)
        .into_iter()
        .collect();
    for pair in stations.windows(2) {
        let (from, turn) = (pair[0].angle, pair[1].angle - pair[0].angle);
        let pieces = (turn / TURN - 1e-6).ceil().max(1.0);
        let mut k = 1.0;
        while k < pieces {
            angles.push(from + turn * k / pieces);
            k += 1.0;
        }
        angles.push(pair[1].angle);
    }
    angles
}

/// The rows: each surface from its first to its last point in even steps, as long as the longest of all columns asks.
fn rows(columns: &[Station]) -> Vec<Row> {
    let Some(first) = columns.first() else {
        return Vec::new();
    };
    // The mean length of each span over the columns.
    let length = |k: usize| {
        let lengths = columns.iter().map(|station| {
            station
                .points
                .get(k..=k + 1)
                .map_or(0.0, |ends| (ends[1] - ends[0]).length())
        });
        lengths.sum::<f64>() / columns.len() as f64
    };
    let mut rows = Vec::new();
    let mut from = 0;
    while from < first.spans.len() {
        let surface = first.spans[from];
        let run = first.spans[from..]
            .iter()
            .take_while(|&&other| other == surface)
            .count();
        let lengths: Vec<f64> = (from..from + run).map(length).collect();
        let whole: f64 = lengths.iter().sum();
        if rows.is_empty() {
            rows.push(Row {
                span: from,
                share: 0.0,
                surface,
            });
        }
        let pieces = (whole / PACE).ceil().max(1.0);
        let mut k = 1.0;
        while k <= pieces {
            let (span, share) = at_length(&lengths, whole * k / pieces);
            rows.push(Row {
                span: from + span,
                share,
                surface,
            });
            k += 1.0;
        }
        from += run;
    }
    rows
}

/// The span and the share of it at a length along a row of spans.
fn at_length(lengths: &[f64], mut left: f64) -> (usize, f64) {
    for (k, &length) in lengths.iter().enumerate() {
        if left <= length || k + 1 == lengths.len() {
            let share = if length > 0.0 { left / length } else { 1.0 };
            return (k, share.clamp(0.0, 1.0));
        }
        left -= length;
    }
    (0, 0.0)
}

fn on_span(station: &Station, span: usize, share: f64) -> Option<Vec2> {
    Some(
        station
            .points
            .get(span)?
            .lerp(*station.points.get(span + 1)?, share),
    )
}

/// A point of a station's half-plane, `(out, radius)`, in the car's frame.
fn in_car(angle: f64, side: Side, p: Vec2) -> Vec3 {
    vec3(
        p.y * math::sin(angle),
        side.sign() * p.x,
        p.y * math::cos(angle),
    )
}

/// How far along the sheet from the lip's edge, mm.
fn along(station: &Station, span: usize, share: f64) -> f64 {
    let whole = station
        .points
        .windows(2)
        .map(|ends| (ends[1] - ends[0]).length());
    let part = whole.clone().nth(span).unwrap_or(0.0) * share;
    whole.take(span).sum::<f64>() + part
}

fn seams(station: &Station) -> [f64; 2] {
    let moved = station.fill.map_or(station.seam, |fill| fill + 1);
    [
        along(station, station.seam, 0.0),
        along(station, moved, 0.0),
    ]
}
