//! The room chart against the certified gap: in random places, along its limits, and what vouches for it on random cars.

use carfile::{SCENARIOS, read};
use geometry::car::{Car, Lever};
use geometry::check::{Check, Verdict, check};
use geometry::model::Model;
use geometry::room::{ACCURACY, RoomChart, RoomOptions, RowRoom};

/// How closely the gaps are certified here, mm.
const CERTIFIED: f64 = 0.01;

fn car(name: &str) -> Car {
    let scenario = SCENARIOS.iter().find(|scenario| scenario.name == name);
    read(scenario.expect("a scenario of that name").text).expect("it reads")
}

fn chart(car: &Car, rows: u32) -> RoomChart {
    let model = Model::new(car).expect("it has a model");
    RoomChart::whole(&model, RoomOptions::around(&model, rows))
}

/// The gap list with this seam move, section width and backspacing, mm.
fn gaps(car: &Car, seam: f64, width: f64, backspacing: f64) -> Check {
    let mut car = car.clone();
    Lever::SeamMove.set(&mut car, seam);
    Lever::SectionWidth.set(&mut car, width);
    Lever::Backspacing.set(&mut car, backspacing);
    check(&Model::new(&car).expect("it has a model"), CERTIFIED)
}

/// The least of all gaps, mm, and the least of what they are over their targets: each as the interval it is certified in.
fn least(gaps: &Check) -> [[f64; 2]; 2] {
    let surfaces = || gaps.sides.iter().flat_map(|(_, side)| &side.surfaces);
    let of = |each: &dyn Fn(&geometry::check::SurfaceCheck) -> [f64; 2]| {
        surfaces()
            .map(each)
            .fold([f64::INFINITY; 2], |least, found| {
                [least[0].min(found[0]), least[1].min(found[1])]
            })
    };
    [
        of(&|surface| [surface.travel.low, surface.travel.high]),
        of(&|surface| {
            let over = |ride: f64, travel: f64| {
                (ride - surface.ride_target).min(travel - surface.travel_target)
            };
            [
                over(surface.ride.low, surface.travel.low),
                over(surface.ride.high, surface.travel.high),
            ]
        }),
    ]
}

/// Each row's room with its width and its seam move.
fn rows(chart: &RoomChart) -> impl Iterator<Item = (f64, f64, &RowRoom)> {
    chart.rows.iter().flat_map(|row| {
        let both = [(0.0, &row.stock), (chart.options.seam, &row.moved)];
        both.into_iter()
            .filter_map(|(seam, room)| Some((row.width, seam, room.as_ref()?)))
    })
}

/// The chart and the certified gap agree in a place: where there is room by the one, the other has none too little for it,
/// and where there is none, it has. Each interval is as wide as it is certified, so either end may say it.
#[track_caller]
fn agree(room: &RowRoom, at: f64, gaps: &Check, what: &str) {
    let ranges = [&room.free, &room.clear];
    for (ranges, [low, high]) in ranges.into_iter().zip(least(gaps)) {
        let inside = ranges.iter().any(|[from, to]| (*from..=*to).contains(&at));
        // A range ends on the side with room: what is beyond its end by less than the accuracy may be room as well.
        let beyond = ranges
            .iter()
            .any(|[from, to]| (from - ACCURACY..=to + ACCURACY).contains(&at));
        if inside {
            assert!(high >= 0.0, "{what}: no room, {high} mm, in {ranges:?}");
        } else if !beyond {
            assert!(low < 0.0, "{what}: room, {low} mm, beside {ranges:?}");
        }
    }
}

#[test]
fn cells_are_what_the_certified_gap_says() {
    // The same places each time, spread evenly by the golden ratio.
    let mut share = 0.5_f64;
    let mut held = [0_u32; 3];
    for scenario in SCENARIOS {
        let car = car(scenario.name);
        let chart = chart(&car, 12);
        let [from, to] = chart.options.backspacings;
        for (width, seam, room) in rows(&chart) {
            for _ in 0..6 {
                share = (share + 0.618_033_988_749_895).fract();
                let at = from + (to - from) * share;
                let found = gaps(&car, seam, width, at);
                let what = format!(
                    "{} {width} wide, {at} of backspacing, seam {seam}",
                    scenario.name
                );
                agree(room, at, &found, &what);
                held[room.verdict(at) as usize] += 1;
            }
        }
    }
    assert!(held.iter().all(|&held| held > 20), "{held:?}");
}

#[test]
fn a_limit_has_room_on_its_own_side_and_none_within_the_accuracy_beyond() {
    /// Beyond rounding, mm: a search takes off its own, and the chart's spots are told by other roundings.
    const ROUNDING: f64 = 1e-6;
    let mut held = 0;
    for scenario in SCENARIOS {
        let car = car(scenario.name);
        let chart = chart(&car, 7);
        let [from, to] = chart.options.backspacings;
        for (width, seam, room) in rows(&chart) {
            for (level, ranges) in [&room.free, &room.clear].into_iter().enumerate() {
                let limits = ranges
                    .iter()
                    .flat_map(|[first, last]| [(*first, -1.0), (*last, 1.0)]);
                for (limit, way) in limits.filter(|(limit, _)| *limit > from && *limit < to) {
                    let over = |at: f64| least(&gaps(&car, seam, width, at))[level];
                    let what =
                        format!("{} {width} wide, limit {limit}, seam {seam}", scenario.name);
                    let [_, high] = over(limit);
                    assert!(high >= -ROUNDING, "{what}: no room, {high}");
                    // Somewhere within the accuracy beyond it: the reserve falls that way, so at its end.
                    let beyond = over(limit + way * ACCURACY);
                    assert!(
                        beyond[0] < ROUNDING,
                        "{what}: still room beyond, {beyond:?}"
                    );
                    held += 1;
                }
            }
        }
    }
    assert!(held > 60, "{held}");
}

#[test]
fn no_room_and_no_stop_wider_than_the_accuracy_is_passed_over() {
    // A row combed in steps of the accuracy: what a step finds, the chart has.
    let car = car("coupe");
    let chart = chart(&car, 3);
    let (width, seam, room) = rows(&chart)
        .nth(1)
        .expect("the narrowest with the moved tub");
    let [from, to] = chart.options.backspacings;
    let mut steps = 0.0;
    let mut seen = [false; 3];
    while from + steps * ACCURACY * 3.0 <= to {
        let at = from + steps * ACCURACY * 3.0;
        agree(room, at, &gaps(&car, seam, width, at), &format!("{at}"));
        seen[room.verdict(at) as usize] = true;
        steps += 1.0;
    }
    assert!(
        seen[Verdict::Hits as usize] && seen[Verdict::Tight as usize],
        "{seen:?}"
    );
}

#[test]
fn a_moved_seam_makes_room_and_no_row_is_made_of_a_tire_that_cannot_be() {
    let car = car("coupe");
    let chart = chart(&car, 5);
    assert_eq!(chart.rows.len(), 5);
    assert!(chart.options.seam > 80.0, "as far as the rail lets it");
    let length = |ranges: &[[f64; 2]]| ranges.iter().map(|[from, to]| to - from).sum::<f64>();
    for row in &chart.rows {
        let (Some(stock), Some(moved)) = (&row.stock, &row.moved) else {
            let mut car = car.clone();
            Lever::SectionWidth.set(&mut car, row.width);
            assert!(Model::new(&car).is_err());
            continue;
        };
        // Each end of a range is known to the accuracy.
        assert!(length(&moved.free) >= length(&stock.free) - 2.0 * ACCURACY);
        assert!(length(&stock.free) >= length(&stock.clear) - 2.0 * ACCURACY);
    }
}
