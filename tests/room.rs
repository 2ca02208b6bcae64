//! The room chart against the certified gap, at random places and along its limits.

use carfile::{SCENARIOS, read};
use geometry::car::{Car, Lever};
use geometry::check::{Verdict, check};
use geometry::model::Model;
use geometry::room::{ACCURACY, RoomChart, RoomOptions, RowRoom};

/// How closely the gaps are certified here, mm.
const CERTIFIED: f64 = 0.02;

fn car(name: &str) -> Car {
    let scenario = SCENARIOS.iter().find(|scenario| scenario.name == name);
    read(scenario.expect("a scenario of that name").text).expect("it reads")
}

fn chart(car: &Car, rows: u32) -> RoomChart {
    let model = Model::new(car).expect("it has a model");
    RoomChart::whole(&model, RoomOptions::around(&model, rows))
}

/// The verdict with this seam move, section width and backspacing, mm.
fn verdict(car: &Car, seam: f64, width: f64, backspacing: f64) -> Verdict {
    let mut car = car.clone();
    Lever::SeamMove.set(&mut car, seam);
    Lever::SectionWidth.set(&mut car, width);
    Lever::Backspacing.set(&mut car, backspacing);
    check(&Model::new(&car).expect("it has a model"), CERTIFIED).verdict()
}

/// Each row's room with its width and its seam move.
fn rows(chart: &RoomChart) -> impl Iterator<Item = (f64, f64, &RowRoom)> {
    chart.rows.iter().flat_map(|row| {
        let both = [(0.0, &row.stock), (chart.options.seam, &row.moved)];
        both.into_iter()
            .filter_map(|(seam, room)| Some((row.width, seam, room.as_ref()?)))
    })
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
            for _ in 0..3 {
                share = (share + 0.618_033_988_749_895).fract();
                let at = from + (to - from) * share;
                let limits = room.free.iter().chain(&room.clear).flatten();
                // Within a limit's accuracy either verdict is right; a slope of a tenth leaves ten times that.
                if limits
                    .clone()
                    .any(|limit| (limit - at).abs() < 10.0 * ACCURACY)
                {
                    continue;
                }
                let found = verdict(&car, seam, width, at);
                assert_eq!(
                    room.verdict(at),
                    found,
                    "{} {width} wide, {at} of backspacing, seam {seam}: {room:?}",
                    scenario.name
                );
                held[found as usize] += 1;
            }
        }
    }
    assert!(held.iter().all(|&held| held > 10), "{held:?}");
}

#[test]
fn a_limit_is_where_the_verdict_changes() {
    // The reserve rises and falls at a slope of a quarter and more here, so that a limit is this near to where the
    // verdict changes, mm.
    const NEAR: f64 = 4.0 * ACCURACY;
    let car = car("coupe");
    let chart = chart(&car, 7);
    let [from, to] = chart.options.backspacings;
    let mut held = 0;
    for (width, seam, room) in rows(&chart) {
        for range in room.free.iter().chain(&room.clear) {
            if range[1] - range[0] < 3.0 * NEAR {
                continue;
            }
            for limit in range.iter().filter(|&&limit| limit > from && limit < to) {
                let [below, above] = [-NEAR, NEAR].map(|by| verdict(&car, seam, width, limit + by));
                assert_ne!(
                    below, above,
                    "{width} wide, {limit} of backspacing, seam {seam}"
                );
                held += 1;
            }
        }
    }
    assert!(held > 15, "{held}");
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
        assert!(length(&moved.free) >= length(&stock.free) - 1.0);
        assert!(length(&stock.free) >= length(&stock.clear) - 1.0);
    }
}
