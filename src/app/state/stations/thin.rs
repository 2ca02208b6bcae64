//! Fewer points: what a rounded corner can do without before anyone edits it by hand.

use geometry::body::{Station, StationTable};
use geometry::space::Vec2;

use crate::state::settings::Choice;

/// How far a thinned table may stray from the full one, mm.
pub const CHOICES: [Choice<f64>; 3] = [
    ("1", "within 1 mm", 1.0),
    ("3", "within 1/8 in, as near as a tape reads", 3.175),
    ("0", "every point", 0.0),
];

/// The table with as few points as keep every section within `tolerance` mm; ends of surfaces and the
/// seam stay. Where the corner is hollow, as seen from the tire, the straight runs lie on the tire's side.
pub fn thinned(table: &StationTable, tolerance: f64) -> StationTable {
    let Some(first) = table.stations.first().filter(|_| tolerance > 0.0) else {
        return table.clone();
    };
    let kept = kept(table, first, tolerance);
    let station = |station: &Station| Station {
        points: kept
            .iter()
            .filter_map(|&k| station.points.get(k).copied())
            .collect(),
        spans: kept
            .iter()
            .filter_map(|&k| station.spans.get(k).copied())
            .collect(),
        seam: kept.iter().position(|&k| k == station.seam).unwrap_or(0),
        ..station.clone()
    };
    StationTable {
        stations: table.stations.iter().map(station).collect(),
    }
}

/// The points that stay: of all ways with the fewest, the one that strays least.
fn kept(table: &StationTable, first: &Station, tolerance: f64) -> Vec<usize> {
    /// What straying counts against a point more: all of it together is less than one.
    const STRAYING: f64 = 1e-3;
    let end = first.points.len().saturating_sub(1);
    // For each point, the cost of the best way to it and the point before it.
    let mut ways = vec![(0.0, 0)];
    for to in 1..=end {
        let mut best = (f64::INFINITY, to - 1);
        for from in (0..to).rev() {
            // A point in between that must stay ends the search.
            let inner = from + 1;
            if inner < to
                && (inner == first.seam || first.spans.get(from) != first.spans.get(inner))
            {
                break;
            }
            let strays = straying(table, from, to) / tolerance;
            let Some((before, _)) = ways.get(from).filter(|_| strays <= 1.0) else {
                continue;
            };
            let cost = before + 1.0 + STRAYING * strays * strays;
            if cost < best.0 {
                best = (cost, from);
            }
        }
        ways.push(best);
    }
    let mut kept = vec![end];
    while let Some(&last) = kept.last().filter(|&&last| last > 0) {
        kept.push(ways.get(last).map_or(0, |way| way.1));
    }
    kept.reverse();
    kept
}

/// How far any point between two lies from the straight run that would replace it, mm.
fn straying(table: &StationTable, from: usize, to: usize) -> f64 {
    let of = |station: &Station| {
        let (Some(&a), Some(&b)) = (station.points.get(from), station.points.get(to)) else {
            return 0.0;
        };
        let between = station.points.get(from + 1..to).unwrap_or_default();
        between.iter().map(|&p| to_run(p, a, b)).fold(0.0, f64::max)
    };
    table.stations.iter().map(of).fold(0.0, f64::max)
}

fn to_run(p: Vec2, a: Vec2, b: Vec2) -> f64 {
    let run = b - a;
    let share = (p - a).dot(run) / run.dot(run).max(f64::MIN_POSITIVE);
    (p - a.lerp(b, share.clamp(0.0, 1.0))).length()
}

#[cfg(test)]
mod tests {
    use geometry::side::Side;

    use super::*;
    use crate::state::{opening, stations};

    fn tables() -> impl Iterator<Item = StationTable> {
        (0..carfile::SCENARIOS.len()).map(|index| {
            let work = opening::invented(index).expect("an invented car opens");
            stations::of_tape(&work, Side::Right).expect("it has stations")
        })
    }

    #[test]
    fn a_thinned_table_stays_within_what_was_asked() {
        for table in tables() {
            for tolerance in [0.2, 1.0, 3.175, 10.0] {
                let thin = thinned(&table, tolerance);
                assert!(thin.nonsense().is_empty());
                for (full, thin) in table.stations.iter().zip(&thin.stations) {
                    assert!(thin.points.len() <= full.points.len());
                    assert_eq!(thin.points[thin.seam], full.points[full.seam]);
                    for &p in &full.points {
                        let runs = thin.points.windows(2).map(|run| to_run(p, run[0], run[1]));
                        let strays = runs.fold(f64::INFINITY, f64::min);
                        assert!(strays <= tolerance + 1e-9, "{strays} over {tolerance}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_tape_table_becomes_short_enough_to_edit() {
        for table in tables() {
            let points = |tolerance| thinned(&table, tolerance).stations[0].points.len();
            assert!(points(1.0) <= 19, "{}", points(1.0));
            assert!(points(3.175) <= 12, "{}", points(3.175));
            assert_eq!(thinned(&table, 0.0), table);
        }
    }
}
