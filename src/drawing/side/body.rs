//! The body in the side view: the wheel opening, the wheelhouse's arc and seam, the frame rail behind.

use geometry::body::{Station, StationTable, Surface};
use geometry::space::{Vec2, vec2};

use super::{Draft, on_sheet};
use crate::role::Role;
use crate::scene::{Group, Shape};

/// Steps of an arc between two stations.
const PIECES: u8 = 5;

/// The frame rail with its kick-up, hidden behind the wheelhouse.
pub fn rail(draft: &Draft) -> Group {
    let mut group = Group::new(
        "rail",
        Some("The frame rail with its kick-up, dashed, behind the wheel"),
    );
    let (edge, height) = draft.model.rails.get(draft.side()).profile();
    let reach = draft.frame.ring[0];
    let key = draft.key(Surface::FrameRail.into());
    let raised = |up: f64| -> Vec<Vec2> {
        clipped(edge.iter().map(|p| vec2(p.x, p.z + up)), reach)
            .into_iter()
            .map(|p| on_sheet(draft.side(), p))
            .collect()
    };
    group.add_keyed(
        Role::Hidden,
        Shape::Lines(vec![raised(0.0), raised(height)]),
        key,
    );
    group
}

/// What changes: the wheelhouse's arc as the factory made it, and its seam.
pub fn stock(draft: &Draft) -> Group {
    let mut group = Group::new(
        "stock",
        Some("Roof and seam as the factory made them, dashed"),
    );
    let table = draft.model.stock_wheelhouses.get(draft.side());
    let changed = table != draft.model.wheelhouses.get(draft.side());
    let mut lines = arcs(draft, table, |station| {
        station.points.get(station.seam).map(|p| p.y)
    });
    if changed {
        lines.extend(arcs(draft, table, highest));
    }
    group.add(Role::Stock, Shape::Lines(lines));
    group
}

/// The wheel opening, the wheelhouse's arc and the moved seam.
pub fn body(draft: &Draft) -> Group {
    let mut group = Group::new(
        "body",
        Some("The wheel opening, the wheelhouse's roof and the moved seam"),
    );
    let table = draft.model.wheelhouses.get(draft.side());
    let lip = arcs(draft, table, |station| station.points.first().map(|p| p.y));
    group.add_keyed(
        Role::Cut,
        Shape::Lines(lip),
        draft.key(Surface::QuarterLip.into()),
    );
    let seam = arcs(draft, table, |station| {
        Some(station.points.get(station.fill? + 1)?.y)
    });
    group.add(Role::Moved, Shape::Lines(seam));
    let roof = arcs(draft, table, highest);
    group.add_keyed(
        Role::Cut,
        Shape::Lines(roof),
        draft.key(Surface::Roof.into()),
    );
    group
}

fn highest(station: &Station) -> Option<f64> {
    station.points.iter().map(|p| p.y).reduce(f64::max)
}

/// The way round the axle of a point of each station; with gaps where there is none.
fn arcs(
    draft: &Draft,
    table: &StationTable,
    radius: impl Fn(&Station) -> Option<f64>,
) -> Vec<Vec<Vec2>> {
    let ends = |pair: &[Station]| Some([radius(pair.first()?)?, radius(pair.last()?)?]);
    let mut lines: Vec<Vec<Vec2>> = Vec::new();
    let mut line = Vec::new();
    for pair in table.stations.windows(2) {
        let Some([from, to]) = ends(pair) else {
            lines.push(std::mem::take(&mut line));
            continue;
        };
        let first = usize::from(!line.is_empty());
        line.extend((0..=PIECES).skip(first).map(|k| {
            let share = f64::from(k) / f64::from(PIECES);
            let angle = pair[0].angle + (pair[1].angle - pair[0].angle) * share;
            draft.polar(angle, from + (to - from) * share)
        }));
    }
    lines.push(line);
    lines.retain(|line| line.len() > 1);
    lines
}

/// The part of a line within `reach` mm of the axle; it leaves that disc at most once at either end.
fn clipped(line: impl Iterator<Item = Vec2>, reach: f64) -> Vec<Vec2> {
    let points: Vec<Vec2> = line.collect();
    let mut kept = Vec::new();
    for pair in points.windows(2) {
        let (a, d) = (pair[0], pair[1] - pair[0]);
        // |a + t d| = reach
        let (square, half, rest) = (d.dot(d), a.dot(d), a.dot(a) - reach * reach);
        let root = (half * half - square * rest).max(0.0).sqrt();
        let (from, to) = ((-half - root) / square, (-half + root) / square);
        let (from, to) = (from.max(0.0), to.min(1.0));
        if from < to {
            for p in [a + d * from, a + d * to] {
                if kept.last().is_none_or(|&last| (p - last).length() > 1e-9) {
                    kept.push(p);
                }
            }
        }
    }
    kept
}
