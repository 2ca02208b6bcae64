//! Whether a station table makes sense: what must hold before it is taken for sheet metal.

use super::station::{Station, StationTable};
use super::surface::Surface;

/// The least radius of a point, mm: far below what anyone measures, and above what a car file rounds to nothing.
const LEAST_RADIUS: f64 = 1e-6;

/// Where in a station table something is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// A station's angle.
    Angle {
        /// Which station.
        station: usize,
    },
    /// A point of one station.
    Point {
        /// Which station.
        station: usize,
        /// Which of its points.
        point: usize,
    },
    /// The surface of a span, the same in every station.
    Span {
        /// Which span.
        span: usize,
    },
    /// The seam, the same in every station.
    Seam,
    /// A station that is not made like the first one.
    Station {
        /// Which station.
        station: usize,
    },
}

/// One thing that makes no sense.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nonsense {
    /// Where.
    pub place: Place,
    /// What was found, as a clause.
    pub found: &'static str,
    /// What would be accepted, as a noun.
    pub accepted: &'static str,
}

impl StationTable {
    /// Everything that makes no sense, station by station; nothing in a sound table. Whether the stations
    /// reach straight up is told by [`StationTable::at`].
    #[must_use]
    pub fn nonsense(&self) -> Vec<Nonsense> {
        let mut list = Vec::new();
        let mut tell = |place, found, accepted| {
            list.push(Nonsense {
                place,
                found,
                accepted,
            });
        };
        let Some(first) = self.stations.first() else {
            return list;
        };
        let mut before = f64::NEG_INFINITY;
        for (station, one) in self.stations.iter().enumerate() {
            if !one.is_made_like(first) {
                tell(
                    Place::Station { station },
                    "has other points, spans or another seam than the first station",
                    "the same number of points, the same spans and the same seam in every station of a side",
                );
            }
            // Not `<=`: an angle that is no number rises above nothing.
            if !(one.angle > before && one.angle.is_finite()) {
                tell(
                    Place::Angle { station },
                    "does not lie ahead of the station before it",
                    "angles that rise from rear to front",
                );
            }
            before = one.angle;
            for (point, at) in one.points.iter().enumerate() {
                if !(at.y >= LEAST_RADIUS && at.is_finite()) {
                    tell(
                        Place::Point { station, point },
                        "has no radius",
                        "a radius of more than nothing",
                    );
                }
            }
        }
        if first.spans.first() != Some(&Surface::QuarterLip) {
            tell(
                Place::Span { span: 0 },
                "is not the quarter lip",
                "a station that begins at the quarter lip",
            );
        }
        for (k, pair) in first.spans.windows(2).enumerate() {
            if pair[1] < pair[0] {
                tell(
                    Place::Span { span: k + 1 },
                    "lies farther out than the surface before it",
                    "surfaces from the lip inward: quarter lip, outer half, roof, tub corner, tub wall",
                );
            }
        }
        let around = first.seam.saturating_sub(1)..=first.seam;
        if !around
            .filter_map(|span| first.spans.get(span))
            .any(|&surface| surface == Surface::Roof)
        {
            tell(Place::Seam, "is not on the roof", "a point of the roof");
        }
        list
    }
}

impl Station {
    fn is_made_like(&self, first: &Self) -> bool {
        self.points.len() == self.spans.len() + 1
            && self.spans == first.spans
            && self.seam == first.seam
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::space::vec2;

    fn sound() -> StationTable {
        let station = |angle: f64| Station {
            angle,
            points: vec![
                vec2(900.0, 320.0),
                vec2(900.0, 340.0),
                vec2(900.0, 440.0),
                vec2(700.0, 470.0),
                vec2(600.0, 475.0),
                vec2(600.0, 100.0),
            ],
            spans: vec![
                Surface::QuarterLip,
                Surface::OuterHalf,
                Surface::Roof,
                Surface::Roof,
                Surface::TubWall,
            ],
            seam: 3,
            fill: None,
        };
        StationTable {
            stations: vec![station(-1.0), station(0.0), station(1.0)],
        }
    }

    #[track_caller]
    fn check(spoil: impl Fn(&mut StationTable), expected: &[Place]) {
        let mut table = sound();
        spoil(&mut table);
        let places: Vec<Place> = table.nonsense().iter().map(|one| one.place).collect();
        assert_eq!(places, expected);
    }

    #[test]
    fn a_sound_table_has_no_nonsense() {
        check(|_| (), &[]);
        check(|table| table.stations.clear(), &[]);
        check(|table| table.stations.truncate(1), &[]);
    }

    #[test]
    fn each_kind_of_nonsense_has_its_place() {
        let set_all = |table: &mut StationTable, set: &dyn Fn(&mut Station)| {
            table.stations.iter_mut().for_each(set);
        };
        check(
            |table| table.stations[2].angle = 0.0,
            &[Place::Angle { station: 2 }],
        );
        check(
            |table| table.stations[0].angle = f64::NAN,
            &[Place::Angle { station: 0 }, Place::Angle { station: 1 }],
        );
        check(
            |table| table.stations[1].points[4].y = 0.0,
            &[Place::Point {
                station: 1,
                point: 4,
            }],
        );
        check(
            |table| table.stations[1].points[4].y = 1e-12,
            &[Place::Point {
                station: 1,
                point: 4,
            }],
        );
        check(
            |table| table.stations[1].points[0].x = f64::INFINITY,
            &[Place::Point {
                station: 1,
                point: 0,
            }],
        );
        check(
            |table| set_all(table, &|station| station.spans[0] = Surface::OuterHalf),
            &[Place::Span { span: 0 }],
        );
        check(
            |table| set_all(table, &|station| station.spans[4] = Surface::OuterHalf),
            &[Place::Span { span: 4 }],
        );
        check(
            |table| set_all(table, &|station| station.seam = 5),
            &[Place::Seam],
        );
        check(
            |table| table.stations[1].seam = 2,
            &[Place::Station { station: 1 }],
        );
        check(
            |table| {
                table.stations[2].points.pop();
            },
            &[Place::Station { station: 2 }],
        );
    }
}
