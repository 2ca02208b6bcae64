//! The gaps through travel in words: the finding, and the rows of a table.

use geometry::car::Targets;
use geometry::sweep::TravelCurve;
use geometry::units::{Notation, format_length};

/// Heights in the table at most.
const MOST_ROWS: usize = 9;

/// The chart's data, written out.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TravelTable {
    /// The heads of the columns: travel, then the surfaces.
    pub heads: Vec<String>,
    /// A row for each height.
    pub rows: Vec<Vec<String>>,
}

/// The gaps at some of the heights, written out; the curves are taken to be over the same heights.
#[must_use]
pub fn travel_rows(curves: &[TravelCurve], notation: Notation) -> TravelTable {
    let count = curves.first().map_or(0, |curve| curve.points.len());
    let step = count.saturating_sub(1).div_ceil(MOST_ROWS - 1).max(1);
    let heads = std::iter::once("travel".to_owned())
        .chain(curves.iter().map(|curve| curve.name.clone()))
        .collect();
    let rows = (0..count)
        .filter(|i| i % step == 0 || i + 1 == count)
        .map(|i| {
            let length = |value: Option<f64>| {
                value.map_or_else(String::new, |mm| format_length(mm, notation))
            };
            let point = |curve: &TravelCurve| curve.points.get(i).copied();
            std::iter::once(length(curves.first().and_then(point).map(|point| point.0)))
                .chain(
                    curves
                        .iter()
                        .map(|curve| length(point(curve).map(|point| point.1))),
                )
                .collect()
        })
        .collect();
    TravelTable { heads, rows }
}

/// The finding in one sentence. It says what the wheels do: one wheel alone, or sideways give, may bring
/// the tire nearer than any of these curves.
pub fn finding(curves: &[TravelCurve], targets: &Targets, notation: Notation) -> String {
    let length = |mm: f64| format_length(mm.abs(), notation);
    let Some((worst, travel, gap)) = worst(curves, targets) else {
        return "There is no travel to show.".to_owned();
    };
    let name = &worst.name;
    let target = targets.through_travel(worst.id.surface);
    if gap < 0.0 {
        match first_hit(worst) {
            Some(first) if first.abs() > 0.5 => {
                format!(
                    "With both wheels moving together the tire hits the {name} from {} on, by {} at most.",
                    height(first, notation),
                    length(gap)
                )
            }
            _ => format!(
                "With both wheels moving together the tire hits the {name} at ride height already, by {} at most.",
                length(gap)
            ),
        }
    } else if gap < target {
        format!(
            "With both wheels moving together the tire touches nothing but comes within {} of the {name} at {}; {} is asked for.",
            length(gap),
            height(travel, notation),
            length(target)
        )
    } else {
        format!(
            "With both wheels moving together the tire clears everything; the {name} comes nearest to its target, with {} left at {}.",
            length(gap),
            height(travel, notation)
        )
    }
}

/// The curve that comes lowest against its target, with where and how low.
fn worst<'a>(curves: &'a [TravelCurve], targets: &Targets) -> Option<(&'a TravelCurve, f64, f64)> {
    curves
        .iter()
        .flat_map(|curve| {
            curve
                .points
                .iter()
                .map(move |&(travel, gap)| (curve, travel, gap))
        })
        .filter(|(_, travel, gap)| travel.is_finite() && gap.is_finite())
        .min_by(|a, b| {
            let reserve = |(curve, _, gap): &(&TravelCurve, f64, f64)| {
                gap - targets.through_travel(curve.id.surface)
            };
            // A hit is worse than any gap that is merely too small.
            (a.2 >= 0.0)
                .cmp(&(b.2 >= 0.0))
                .then(reserve(a).total_cmp(&reserve(b)))
        })
}

/// The height nearest to ride height at which a curve is below zero.
fn first_hit(curve: &TravelCurve) -> Option<f64> {
    let crossing = curve
        .points
        .windows(2)
        .filter(|pair| (pair[0].1 < 0.0) != (pair[1].1 < 0.0))
        .map(|pair| {
            let [a, b] = [pair[0], pair[1]];
            a.0 + (b.0 - a.0) * a.1 / (a.1 - b.1)
        });
    let at_ride = curve
        .points
        .iter()
        .min_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))
        .is_some_and(|point| point.1 < 0.0);
    if at_ride {
        None
    } else {
        crossing.min_by(|a, b| a.abs().total_cmp(&b.abs()))
    }
}

fn height(travel: f64, notation: Notation) -> String {
    let length = format_length(travel.abs(), notation);
    match travel {
        t if t.abs() < 0.5 => "ride height".to_owned(),
        t if t > 0.0 => format!("{length} of bump"),
        _ => format!("{length} of droop"),
    }
}

#[cfg(test)]
mod tests {
    use geometry::body::Surface;

    use super::*;

    fn curve(surface: Surface, points: &[(f64, f64)]) -> TravelCurve {
        TravelCurve {
            id: surface.into(),
            name: surface.label().to_owned(),
            points: points.to_vec(),
        }
    }

    #[track_caller]
    fn check(gaps: [f64; 3], sentence: &str) {
        let roof = curve(
            Surface::Roof,
            &[(-50.8, gaps[0]), (0.0, gaps[1]), (50.8, gaps[2])],
        );
        let far = curve(
            Surface::TubWall,
            &[(-50.8, 90.0), (0.0, 90.0), (50.8, 90.0)],
        );
        assert_eq!(
            finding(&[far, roof], &Targets::default(), Notation::InchFractions),
            sentence
        );
    }

    #[test]
    fn the_finding_names_the_surface_and_the_height() {
        check(
            [76.2, 12.7, -12.7],
            "With both wheels moving together the tire hits the roof from 1 in of bump on, by 1/2 in at most.",
        );
        check(
            [10.0, -1.6, -12.7],
            "With both wheels moving together the tire hits the roof at ride height already, by 1/2 in at most.",
        );
        check(
            [76.2, 38.1, 6.35],
            "With both wheels moving together the tire touches nothing but comes within 1/4 in of the roof at 2 in of bump; 1/2 in is asked for.",
        );
        check(
            [76.2, 50.8, 25.4],
            "With both wheels moving together the tire clears everything; the roof comes nearest to its target, with 1 in left at 2 in of bump.",
        );
    }

    #[test]
    fn no_curve_is_said_so() {
        assert_eq!(
            finding(&[], &Targets::default(), Notation::default()),
            "There is no travel to show."
        );
        assert_eq!(travel_rows(&[], Notation::default()).rows.len(), 0);
    }

    #[test]
    fn the_table_has_few_rows_with_both_ends() {
        let points: Vec<(f64, f64)> = (0..=40).map(|i| (f64::from(i) * 25.4, 25.4)).collect();
        let table = travel_rows(&[curve(Surface::Roof, &points)], Notation::InchFractions);
        assert_eq!(table.heads, ["travel", "roof"]);
        assert!(table.rows.len() <= MOST_ROWS);
        assert_eq!(table.rows[0], ["0 in", "1 in"]);
        assert_eq!(table.rows[table.rows.len() - 1], ["40 in", "1 in"]);
    }
}
