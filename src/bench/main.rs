//! Times the cases natively, a line each: name, milliseconds, and the numbers that came out.

use std::hint::black_box;
use std::time::Instant;

use bench::{cars, plain_bound, pose_grid, room, whole_model};

/// How often a quick case is run; the least time counts.
const RUNS: u32 = 40;
/// The same of a room chart.
const ROOM_RUNS: u32 = 10;

fn main() {
    let all = std::env::args().nth(1).as_deref() == Some("all");
    let runs = if all { RUNS } else { 1 };
    for (car, name) in cars().into_iter().enumerate() {
        for accuracy in [0.1, 0.01] {
            let case = format!("model {name} {accuracy}");
            time(&case, runs, || {
                whole_model(black_box(car), black_box(accuracy))
            });
        }
    }
    for (car, name) in cars().into_iter().enumerate() {
        time(&format!("room {name}"), runs.min(ROOM_RUNS), || {
            room(black_box(car))
        });
    }
    // The two plainer ways take their time.
    if !all {
        return;
    }
    time("grid", 1, || pose_grid(black_box(0)));
    time("plain", 1, || plain_bound(black_box(0), 0.1, 200_000));
}

fn time(case: &str, runs: u32, work: impl Fn() -> Vec<f64>) {
    let mut least = f64::INFINITY;
    let mut found = Vec::new();
    for _ in 0..runs {
        let start = Instant::now();
        found = work();
        least = least.min(start.elapsed().as_secs_f64() * 1e3);
    }
    let numbers: Vec<String> = found.iter().map(f64::to_string).collect();
    println!("{case}\t{least}\t{}", numbers.join(" "));
}
