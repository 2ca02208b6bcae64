//! The mock-up, and what is found with it: it stands in for the tire, and a reading that is wrong is found out.

use carfile::{SCENARIOS, read};
use geometry::body::tape::TAPE_FIELDS;
use geometry::body::{Reading, Surface, SurfaceId};
use geometry::car::{Car, FoundGap};
use geometry::check::at_pose;
use geometry::metal::fit::GAP_ERROR;
use geometry::metal::mock_up::{MockUp, SHORT, poses};
use geometry::metal::{Order, fit};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::tolerance::Measurement;
use geometry::units::MM_PER_INCH;

fn car(name: &str) -> Car {
    let scenario = SCENARIOS.iter().find(|scenario| scenario.name == name);
    read(scenario.expect("an invented car").text).expect("it reads")
}

#[test]
fn the_discs_lie_inside_the_tire_and_the_tire_hardly_stands_out() {
    for scenario in SCENARIOS {
        let car = read(scenario.text).expect("it reads");
        let mock_up = MockUp::of(&car).expect("a mock-up");
        let tire = &mock_up.tire;
        assert!((mock_up.width - tire.inputs.section_width).abs() < 1e-6);
        // The middle disc touches the crown at its two edges: the crown's own arc over half a board is all it lacks.
        assert!(mock_up.diameter <= tire.inputs.diameter + 1e-9);
        assert!(tire.inputs.diameter - mock_up.diameter < 0.5);
        for disc in &mock_up.discs {
            assert!((disc.faces[1] - disc.faces[0] - mock_up.board).abs() < 1e-9);
            for face in disc.faces {
                let rim = vec2(face, disc.diameter / 2.0);
                // The outline was walked in chords of a hundredth of a millimeter.
                assert!(tire.chain.near(rim).distance < 0.02, "{}", scenario.name);
            }
        }
        for pair in mock_up.discs.windows(2) {
            assert!(pair[1].faces[0] >= pair[0].faces[1] - 1e-9, "discs overlap");
        }
        for p in tire.chain.outline(0.1) {
            if p.y >= tire.widest_radius {
                let out = mock_up.stand_in().near(p).distance;
                assert!(out <= mock_up.short + 0.02, "{} {out}", scenario.name);
            }
        }
        // Where board lies on board, all that is left is how far the outline bends over one board beside the widest
        // point, where it bends most.
        let half = mock_up.width / 2.0;
        let outline = tire.chain.outline(1e-4);
        let beside: Vec<_> = outline
            .iter()
            .filter(|p| p.y >= tire.widest_radius && p.x >= half - mock_up.board)
            .collect();
        let by_radius = |a: &&&Vec2, b: &&&Vec2| a.y.total_cmp(&b.y);
        let ends = beside
            .iter()
            .max_by(by_radius)
            .zip(beside.iter().min_by(by_radius));
        let (from, to) = ends.expect("an outline beside the widest point");
        let chord = **to - **from;
        let bends = beside
            .iter()
            .map(|&p| chord.cross(*p - **from).abs() / chord.length())
            .fold(0.0, f64::max);
        // A tenth for the step of the walk, which begins a little beside the board's edge.
        assert!(
            mock_up.short <= SHORT.max(bends) + 0.1,
            "{}: {} {bends}",
            scenario.name,
            mock_up.short
        );
    }
}

#[test]
fn thick_boards_say_how_much_they_lack() {
    let mut car = car("coupe");
    car.metal.board = 50.0;
    let mock_up = MockUp::of(&car).expect("a mock-up");
    let thin = MockUp::of(&self::car("coupe")).expect("a mock-up");
    assert!(mock_up.discs.len() <= thin.discs.len() && mock_up.short >= thin.short);
}

/// Everything that a mock-up finds on a car: every surface, both sides, in every pose that it is tried in.
fn found_on(car: &Car) -> Vec<FoundGap> {
    let model = MockUp::of(car)
        .expect("a mock-up")
        .under(&Model::new(car).expect("a model"));
    let mut found = Vec::new();
    for (_, pose) in poses(&model) {
        for (side, list) in at_pose(&model, pose, 0.01).iter() {
            found.extend(list.iter().map(|(id, gap)| FoundGap {
                side,
                id: *id,
                pose,
                gap: gap.high,
            }));
        }
    }
    found
}

#[test]
fn what_is_predicted_is_left_alone() {
    let car = car("coupe");
    let fit = fit(&car, &found_on(&car)).expect("a fit");
    assert!(fit.misfit[0] < 1e-9);
    assert_eq!(fit.likeliest, None);
    assert!(fit.together.is_empty());
}

#[test]
fn nothing_found_says_nothing_and_neither_does_a_surface_that_is_not_there() {
    let car = car("coupe");
    assert_eq!(fit(&car, &[]).expect("a fit").likeliest, None);
    let nowhere = FoundGap {
        id: SurfaceId {
            surface: Surface::Obstacle,
            index: 7,
        },
        ..found_on(&car)[0]
    };
    let fit = fit(&car, &[nowhere]).expect("a fit");
    assert!(fit.rows.is_empty() && fit.together.is_empty());
}

/// A reading off by half an inch, four times its error, is found out from the gaps on the mock-up, each read to a tape's
/// mark.
#[test]
fn a_reading_that_is_wrong_is_found_out() {
    let wrong = 0.5 * MM_PER_INCH;
    for (name, side, key) in [
        ("coupe", Side::Left, "to_lip"),
        ("coupe", Side::Right, "to_rail"),
        ("fastback", Side::Left, "roof_up"),
        ("sedan", Side::Right, "to_tub_high"),
        ("pickup", Side::Left, "to_tub_low"),
        ("coupe", Side::Left, "wall_behind"),
    ] {
        let truth = car(name);
        let mut measured = truth.clone();
        let field = TAPE_FIELDS
            .iter()
            .find(|field| field.field.bound.key == key)
            .expect("a reading");
        let tape = &mut measured.sides.get_mut(side).tape;
        let value = (field.reading)(tape).value - wrong;
        (field.set_reading)(tape, Reading::measured(value));
        let mark = MM_PER_INCH / 16.0;
        let found: Vec<FoundGap> = found_on(&truth)
            .into_iter()
            .map(|found| FoundGap {
                gap: (found.gap / mark).round() * mark,
                ..found
            })
            .collect();
        let fit = fit(&measured, &found).expect("a fit");
        let likeliest = fit.likeliest.expect("something is wrong");
        assert_eq!(
            likeliest.measurement,
            Measurement::Reading(side, key),
            "{name}: {likeliest:?} {:?}",
            fit.together
        );
        // Even where one gap alone speaks of the reading, the tape error as the prior holds back no more than this.
        let error = measured.tape_error.measured;
        let held_back = GAP_ERROR * GAP_ERROR / (GAP_ERROR * GAP_ERROR + error * error);
        assert!(
            likeliest.by >= wrong * (1.0 - held_back) - mark && likeliest.by <= wrong + mark,
            "{name} {key}: {}",
            likeliest.by
        );
        assert!(fit.misfit[1] < fit.misfit[0] && fit.misfit[1] < GAP_ERROR + wrong * held_back);
        let corrected = fit.corrected.expect("a car to take over");
        let now = (field.reading)(&corrected.sides.get(side).tape).value;
        assert!((now - value - likeliest.by).abs() < 1e-9);
        assert!(
            fit.together
                .iter()
                .any(|change| change.measurement == likeliest.measurement)
        );
    }
}

#[test]
fn an_order_says_what_a_seller_needs() {
    let mut car = car("coupe");
    car.axle.width = car.axle.measured_width - 2.0 * MM_PER_INCH;
    car.stock.bump = Some(car.travel.bump + 10.0);
    let order = Order::of(&car);
    assert!((order.backspacing + order.front_space - order.overall_width).abs() < 1e-9);
    assert!((order.axle_change + MM_PER_INCH).abs() < 1e-9);
    assert!((order.offset - (order.backspacing - order.overall_width / 2.0)).abs() < 1e-9);
    assert_eq!(order.bump_taken, Some(10.0));
    assert!(order.largest_width > order.section_width && order.largest_diameter > order.diameter);
}

#[test]
fn the_mounting_board_stands_in_no_disc_that_is_not_cut_out_round_it() {
    let mut met = 0;
    for scenario in SCENARIOS {
        let car = read(scenario.text).expect("it reads");
        let mock_up = MockUp::of(&car).expect("a mock-up");
        let board = [mock_up.mounting_face, mock_up.mounting_face + mock_up.board];
        for disc in &mock_up.discs {
            let apart = disc.faces[1] <= board[0] || board[1] <= disc.faces[0];
            assert_eq!(disc.meets_board, !apart, "{}: {disc:?}", scenario.name);
            met += usize::from(disc.meets_board);
        }
    }
    assert!(met > 0, "some car has a disc there");
}
