//! Sheet, plugs, the fill strip and the cut, against published values and against plainer ways to the same answer.

use carfile::{SCENARIOS, read};
use geometry::body::tape::HAND;
use geometry::body::{NoCutZone, StationTable, Surface};
use geometry::car::{Car, PlugPractice};
use geometry::check::{Check, Verdict, check};
use geometry::gap::{Face, Limits, Poses};
use geometry::metal::strip::SPARE;
use geometry::metal::weld::{REPAIR_PITCH, code_lap, current, plug_places};
use geometry::metal::{
    CutPlan, CutRow, EdgePoint, How, Plugs, Reset, Strip, gauge, plug_count, zone_rows,
};
use geometry::model::{Model, SurfaceFaces};
use geometry::side::Side;
use geometry::space::{Vec3, vec3};
use geometry::travel::Pose;
use geometry::units::MM_PER_INCH;
use proptest::prelude::*;

fn car(name: &str) -> Car {
    let scenario = SCENARIOS.iter().find(|scenario| scenario.name == name);
    read(scenario.expect("an invented car").text).expect("it reads")
}

fn inches(length: f64) -> f64 {
    length * MM_PER_INCH
}

/// P3: Manufacturers' Standard Gauge (seen).
#[test]
fn gauges_are_as_thick_as_published() {
    for (of, inches) in [
        (16.0, "0.0598"),
        (18.0, "0.0478"),
        (20.0, "0.0359"),
        (22.0, "0.0299"),
    ] {
        let thickness = gauge::thickness(of).expect("a gauge of the table");
        assert_eq!(format!("{:.4}", thickness / MM_PER_INCH), inches);
    }
    assert_eq!(gauge::thickness(9.0), None);
}

/// P4: 7850 kg a cubic meter (handbook value, from memory).
#[test]
fn a_strip_weighs_what_its_steel_weighs() {
    let thickness = gauge::thickness(18.0).expect("a gauge");
    let weight = gauge::weight(inches(3.0) * inches(48.0), thickness);
    assert_eq!(format!("{weight:.4}"), "0.8854");
}

/// P1: AWS D1.1, AISC 360 J2.3 (seen). P2: body-repair practice (common practice, seen in repair procedures).
#[test]
fn plugs_are_as_large_and_as_far_apart_as_published() {
    let sheet = gauge::thickness(18.0).expect("a gauge");
    let code = Plugs::new(PlugPractice::Code, sheet, None);
    assert!((code.hole - inches(0.375)).abs() < 1e-9);
    assert!((code.pitch - inches(1.5)).abs() < 1e-9);
    assert_eq!(plug_count(inches(36.0), code.pitch), 25);
    let repair = Plugs::new(PlugPractice::Repair, sheet, None);
    assert!((repair.hole - 8.0).abs() < 1e-9 && repair.hole < code.hole);
    assert!((REPAIR_PITCH[0]..=REPAIR_PITCH[1]).contains(&repair.pitch));
    assert!(code.keeps_to_practice() && repair.keeps_to_practice());
    assert!(!Plugs::new(PlugPractice::Code, sheet, Some(30.0)).keeps_to_practice());
}

/// P5: about an ampere for every thousandth of an inch (common practice, seen).
#[test]
fn a_thicker_sheet_wants_more_current() {
    assert!((current(inches(0.048)) - 48.0).abs() < 1e-9);
}

#[test]
fn plugs_stand_from_the_first_to_the_last_and_never_closer_than_asked() {
    for (length, pitch) in [(914.4, 38.1), (900.0, 38.1), (20.0, 38.1), (1234.5, 27.3)] {
        let places = plug_places(length, pitch);
        assert_eq!(places.len(), plug_count(length, pitch) as usize);
        assert!(places.first().is_some_and(|first| first.abs() < 1e-9));
        for pair in places.windows(2) {
            assert!(pair[1] - pair[0] >= pitch - 1e-6, "{length} {pitch}");
        }
        if places.len() > 1 {
            assert!((places[places.len() - 1] - length).abs() < 1e-9);
        }
    }
    assert_eq!(plug_count(0.0, 38.1) + plug_count(500.0, 0.0), 0);
}

/// A seam's first and last plug keep an edge's distance from its ends, and its table counts what its strip shows.
#[test]
fn plugs_of_a_seam_keep_off_its_ends() {
    let sheet = gauge::thickness(18.0).expect("a gauge");
    for practice in [PlugPractice::Code, PlugPractice::Repair] {
        let plugs = Plugs::new(practice, sheet, None);
        for seam in [inches(36.0), inches(56.1875), 300.0] {
            let places = plugs.along(seam);
            assert_eq!(places.len(), plugs.count(seam) as usize);
            assert!((places[0] - plugs.hole).abs() < 1e-9);
            assert!((seam - places[places.len() - 1] - plugs.hole).abs() < 1e-9);
            assert!(
                places
                    .windows(2)
                    .all(|pair| pair[1] - pair[0] >= plugs.pitch - 1e-6)
            );
        }
        assert!(plugs.along(plugs.hole).is_empty() && plugs.count(plugs.hole) == 0);
    }
    // AISC 360 J2.2b (from memory).
    assert!((code_lap(sheet) - inches(1.0)).abs() < 1e-9);
    assert!((code_lap(10.0) - 50.0).abs() < 1e-9);
}

#[test]
fn a_round_seam_is_laid_flat_to_its_angle_times_its_radius() {
    let edge = [-1.2, -0.3, 0.9].map(|angle| EdgePoint {
        angle,
        radius: 420.0,
        out: 700.0,
    });
    let strip = Strip::new(Side::Left, edge.to_vec(), 50.0).expect("a strip");
    assert!((strip.length() - 2.1 * 420.0).abs() < 1e-9);
    assert!((strip.edge_length() - strip.length()).abs() < 1e-9);
    let pattern = strip.pattern(20.0);
    assert!((strip.area() - 2.1 * 420.0 * 50.0).abs() < 1e-6);
    assert!((pattern.area() - (2.1 * 420.0 + 2.0 * SPARE) * 90.0).abs() < 1e-6);
    assert!((pattern.blank()[0] - strip.length() - 2.0 * SPARE).abs() < 1e-9);
    assert!(Strip::new(Side::Left, edge[..1].to_vec(), 50.0).is_none());
}

/// A seam of a few stations, as crooked as sheet may be, and how far it is moved.
fn seams() -> impl Strategy<Value = (Vec<EdgePoint>, f64)> {
    let station = (0.08..0.4_f64, 250.0..800.0_f64, -60.0..60.0_f64);
    (
        proptest::collection::vec(station, 2..9),
        -1.6..-0.8_f64,
        1.0..300.0_f64,
    )
        .prop_map(|(stations, first, width)| {
            let (mut angle, mut radius) = (first, stations[0].1);
            let edge = stations.iter().map(|&(turn, next, out)| {
                angle += turn;
                // A station a decimeter nearer or farther than the last is as crooked as it gets.
                radius += (next - radius).clamp(-100.0, 100.0);
                EdgePoint {
                    angle,
                    radius,
                    out: 700.0 + out,
                }
            });
            (edge.collect(), width)
        })
}

/// The outboard edge walked in steps so small that a chord's error does not count, as the car's model has it: evenly in
/// `(out, radius)` with the angle. Gives each spot with how far along it lies, seen from the side.
fn walked(edge: &[EdgePoint]) -> Vec<(f64, Vec3)> {
    const STEPS: u32 = 2000;
    let mut spots: Vec<(f64, Vec3)> = Vec::new();
    for pair in edge.windows(2) {
        for k in 0..=STEPS {
            let share = f64::from(k) / f64::from(STEPS);
            let at = |from: f64, to: f64| from + (to - from) * share;
            let (angle, radius) = (
                at(pair[0].angle, pair[1].angle),
                at(pair[0].radius, pair[1].radius),
            );
            let (sin, cos) = (geometry::math::sin(angle), geometry::math::cos(angle));
            let spot = vec3(radius * sin, at(pair[0].out, pair[1].out), radius * cos);
            let along = spots.last().map_or(0.0, |(along, last)| {
                let step = spot - *last;
                along + vec3(step.x, 0.0, step.z).length()
            });
            spots.push((along, spot));
        }
    }
    spots
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The printed outline, bent round by the walked lengths, lies on the old seam and on the new one.
    #[test]
    fn the_flat_pattern_folds_back_onto_both_edges((edge, width) in seams()) {
        const NEAR: f64 = 0.1;
        let strip = Strip::new(Side::Left, edge.clone(), width).expect("a strip");
        let spots = walked(&edge);
        let folded = |along: f64, out: f64| {
            let after = spots.partition_point(|(at, _)| *at < along).clamp(1, spots.len() - 1);
            let ((a, from), (b, to)) = (spots[after - 1], spots[after]);
            let share = if b > a { (along - a) / (b - a) } else { 0.0 };
            let spot = from.lerp(to, share);
            (vec3(spot.x, out, spot.z), after)
        };
        let [outer, inner] = strip.pattern(20.0).edges();
        prop_assert!((strip.length() - spots[spots.len() - 1].0).abs() < 0.01);
        for (line, inboard) in [(outer, 0.0), (inner, width)] {
            for pair in line.windows(2) {
                for share in [0.0, 0.37, 0.5, 1.0] {
                    let flat = pair[0].lerp(pair[1], share);
                    let (spot, after) = folded(flat.x, flat.y);
                    let near = after.saturating_sub(40)..(after + 40).min(spots.len());
                    let away = spots[near]
                        .iter()
                        .map(|(_, at)| (vec3(at.x, at.y - inboard, at.z) - spot).length())
                        .fold(f64::INFINITY, f64::min);
                    prop_assert!(away < NEAR, "{away} mm off at {flat:?}");
                    let told = strip.fold(flat.x, flat.y);
                    prop_assert!((told - spot).length() < NEAR, "{told:?} {spot:?}");
                }
            }
        }
        let outline = strip.pattern(20.0);
        prop_assert!(outline.rows.windows(2).all(|pair| pair[1].along > pair[0].along));
        prop_assert!(outline.rows.iter().all(|row| row.lap >= 20.0));
        prop_assert!(outline.area() >= strip.area() + 40.0 * strip.length() - 1e-6);
    }
}

#[test]
fn the_strip_lies_where_the_model_has_it() {
    let mut car = car("coupe");
    car.sides.left.seam_move = 45.0;
    car.sides.left.roof_raise = 12.0;
    let model = Model::new(&car).expect("a model");
    let strip = Strip::of(&model, Side::Left).expect("the seam moves");
    assert!(Strip::of(&model, Side::Right).is_none());
    let table: &StationTable = &model.wheelhouses.left;
    for row in strip.pattern(0.0).rows {
        let station = table.at(row.angle.clamp(
            table.stations[0].angle,
            table.stations[table.stations.len() - 1].angle,
        ));
        let station = station.expect("within the stations");
        let fill = station.fill.expect("a strip");
        for (point, inboard) in [(fill, 0.0), (fill + 1, 45.0)] {
            let of_model = station.points[point];
            assert!((of_model.x - (row.out - inboard)).abs() < 1e-9);
            let spot = strip.fold(row.along, row.out - inboard);
            assert!((spot.y - of_model.x).abs() < 1e-9);
            assert!((geometry::math::hypot(spot.x, spot.z) - of_model.y).abs() < 1e-6);
        }
    }
}

/// How much room is missing to a spot of the factory's sheet, mm; negative where there is room to spare.
fn missing(model: &Model, side: Side, surface: Surface, spot: Vec3) -> f64 {
    let faces = SurfaceFaces {
        id: surface.into(),
        faces: vec![Face::point(spot)],
        low: Vec::new(),
    };
    let targets = &model.car.targets;
    let mut travel = Poses::new(model.motion, model.pose_domain());
    let mut rest = Poses::at(model.motion, Pose::RIDE);
    let limits = Limits::accuracy(0.01);
    let moving = faces.gap(
        &mut travel,
        model.given.get(side),
        model.car.travel.give,
        limits,
    );
    let still = faces.gap(&mut rest, model.solids.get(side), 0.0, limits);
    let [moving, still] = [moving, still].map(|gap| gap.expect("a point has a gap").high);
    (targets.through_travel(surface) - moving).max(targets.at_ride(surface) - still)
}

/// Walks the factory's sheet at an angle of a row: where nothing is told to stand in the way there is room; gives the
/// missing room at each spot with how far along the row it lies.
fn hold_row(model: &Model, side: Side, row: &CutRow, angle: f64) -> Vec<(f64, f64)> {
    let table = model.stock_wheelhouses.get(side);
    let told = table.at(row.angle).expect("a row is at a station");
    let here = table.at(angle).expect("within the stations");
    let mut along = -row.lip_to_seam;
    let mut found = Vec::new();
    for (span, (surface, from, to)) in here.segments().enumerate() {
        let length = (told.points[span + 1] - told.points[span]).length();
        for share in [0.0, 0.2, 0.5, 0.8] {
            let p = from.lerp(to, share);
            let spot = vec3(
                p.y * geometry::math::sin(angle),
                side.sign() * p.x,
                p.y * geometry::math::cos(angle),
            );
            let at = along + share * length;
            let short = missing(model, side, surface, spot);
            let in_span = row
                .spans
                .iter()
                .any(|span| (span.trim[0] - 1e-9..=span.trim[1] + 1e-9).contains(&at));
            assert!(
                in_span || short <= 1e-6,
                "{short} mm are missing at {at} mm, {angle} rad, and the row says nothing"
            );
            found.push((at, short));
        }
        along += length;
    }
    found
}

#[test]
fn what_the_cut_leaves_alone_has_its_room() {
    for name in ["coupe", "sedan"] {
        let model = Model::new(&car(name)).expect("a model");
        let plan = CutPlan::whole(&model, Side::Left);
        assert!(!plan.is_clear(), "{name} is cut");
        for row in &plan.rows {
            let [from, to] = row.sector;
            let mut found = Vec::new();
            for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                found.extend(hold_row(
                    &model,
                    Side::Left,
                    row,
                    from + (to - from) * share,
                ));
            }
            for span in &row.spans {
                // What is told to be missing is missing somewhere: the spots are centimeters apart, so that the worst
                // of them may lack a little less than the worst of all; it never lacks more.
                let inside = found
                    .iter()
                    .filter(|(at, _)| (span.trim[0]..=span.trim[1]).contains(at));
                let worst = inside
                    .map(|(_, short)| *short)
                    .fold(f64::NEG_INFINITY, f64::max);
                assert!(worst <= span.short + 1e-6, "{worst} {span:?}");
            }
        }
    }
}

#[test]
fn first_cuts_stay_short_and_small_ones_are_left_to_the_dolly() {
    let mut seen = [false; 3];
    for scenario in SCENARIOS {
        let mut car = read(scenario.text).expect("it reads");
        car.metal.dolly = 6.0;
        car.metal.first_cut = 10.0;
        let model = Model::new(&car).expect("a model");
        let plan = CutPlan::whole(&model, Side::Left);
        for span in plan.rows.iter().flat_map(|row| &row.spans) {
            let [from, to] = span.trim;
            assert!(to > from && span.short > 0.0);
            match span.how {
                How::Lip => assert_eq!(span.surface, Surface::QuarterLip),
                How::Stop => assert!(!span.no_cut.is_empty() && span.first.is_none()),
                How::Dolly => {
                    seen[0] = true;
                    assert!(span.short <= 6.0 && span.first.is_none());
                }
                How::Saw => {
                    seen[1] = true;
                    assert!(span.short > 6.0);
                    if let Some([a, b]) = span.first {
                        seen[2] = true;
                        assert!((a - from - 10.0).abs() < 1e-9 && (to - b - 10.0).abs() < 1e-9);
                    }
                }
            }
        }
    }
    assert_eq!(seen, [true; 3], "dolly, saw, first cut");
}

#[test]
fn a_car_that_clears_is_not_cut_and_a_moved_tub_takes_its_sheet_along() {
    let verdict = |gaps: &Check, side: Side| {
        gaps.sides
            .get(side)
            .surfaces
            .iter()
            .filter(|surface| !matches!(surface.id.surface, Surface::FrameRail | Surface::Obstacle))
            .map(|surface| surface.verdict)
            .min()
    };
    let mut held = 0;
    for scenario in SCENARIOS {
        let mut car = read(scenario.text).expect("it reads");
        for by in [0.0, 30.0, 50.0] {
            car.sides.left.seam_move = by;
            let Ok(model) = Model::new(&car) else {
                continue;
            };
            let gaps = check(&model, 0.1);
            let plan = CutPlan::whole(&model, Side::Left);
            if verdict(&gaps, Side::Left) == Some(Verdict::Clears) {
                held += 1;
                assert!(plan.is_clear(), "{} {by}: {plan:?}", scenario.name);
            } else {
                assert!(!plan.is_clear(), "{} {by}", scenario.name);
            }
            assert!(by > 0.0 || plan.rows.iter().all(|row| !row.goes_along));
        }
    }
    assert!(held > 0, "some car clears");
}

#[test]
fn no_cut_and_no_first_cut_reaches_into_a_no_cut_zone() {
    let meets = |a: [f64; 2], b: [f64; 2]| a[0] < b[1] && b[0] < a[1];
    let mut stopped = 0;
    for scenario in SCENARIOS {
        let car = read(scenario.text).expect("it reads");
        let model = Model::new(&car).expect("a model");
        for side in Side::BOTH {
            let plan = CutPlan::whole(&model, side);
            for (row, span) in plan
                .rows
                .iter()
                .flat_map(|row| row.spans.iter().map(move |span| (row, span)))
            {
                let reached = |zone: &&NoCutZone| {
                    zone.side == side
                        && meets(zone.angles, row.sector)
                        && meets(zone.along, span.trim)
                };
                let zone = car.no_cut.iter().find(reached);
                assert_eq!(zone.is_some(), span.how == How::Stop, "{span:?}");
                if let Some(zone) = zone {
                    stopped += 1;
                    assert!(span.trim[0] >= zone.along[0] && span.trim[1] <= zone.along[1]);
                    assert!(!plan.is_plan(), "a zone in the way is no plan");
                }
            }
            for row in zone_rows(&model, side) {
                let zone = &car.no_cut[row.zone];
                assert!((zone.angles[0]..=zone.angles[1]).contains(&row.angle));
                let lip_to_seam = row.from_lip[0] - row.from_seam[0];
                let told = plan
                    .rows
                    .iter()
                    .find(|told| told.angle.to_bits() == row.angle.to_bits());
                assert!(told.is_none_or(|told| (told.lip_to_seam - lip_to_seam).abs() < 1e-9));
            }
        }
    }
    assert!(stopped > 0, "some zone stands in the way");
}

#[test]
fn the_saw_inboard_of_a_seam_that_stays_is_no_plan() {
    let mut car = car("coupe");
    let plan = |car: &Car| CutPlan::whole(&Model::new(car).expect("a model"), Side::Left);
    assert!(!plan(&car).is_plan() && !plan(&car).is_clear());
    car.sides.left.seam_move = 60.0;
    assert!(plan(&car).is_plan());
}

#[test]
fn a_tub_that_was_re_set_reads_as_the_model_has_it() {
    let mut car = car("coupe");
    assert_eq!(
        Reset::of(&Model::new(&car).expect("a model"), Side::Left),
        None
    );
    car.sides.left.seam_move = 45.0;
    let model = Model::new(&car).expect("a model");
    let told = Reset::of(&model, Side::Left).expect("it moves");
    let face = car.axle.measured_face();
    let station = model.wheelhouses.left.at(0.0).expect("straight up");
    let seam = station.points[station.fill.expect("a strip") + 1];
    assert!((face - seam.x - told.seam).abs() < 1e-9);
    // The wall is the plane through its two readings: low at the axle's height, high a hand below the roof.
    let high = car.sides.left.tape.roof_up.value - HAND;
    let end = station.points[station.points.len() - 1];
    let wall = face - told.low + (told.low - told.high) * end.y / high;
    assert!((wall - end.x).abs() < 1e-9);
}
