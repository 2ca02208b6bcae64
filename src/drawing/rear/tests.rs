//! What a rear view promises, whatever the car.

use geometry::axle::AxleSpec;
use geometry::body::{Obstacle, Reading, Surface, Tape};
use geometry::car::{Before, Car, MetalSpec, Shop, SideSpec, Stock, TapeError, Targets};
use geometry::check::check;
use geometry::locator::Locator;
use geometry::space::vec3;
use geometry::tire::{Arrival, Designation, MeasuredWidth, TireSpec};
use geometry::travel::TravelSpec;
use geometry::wheel::WheelSpec;

use super::*;
use crate::legible::expect_legible;
use crate::role::Role;

/// An invented car with so wide a tire, and its seams moved so far, mm.
pub(crate) fn model(section_width: f64, seam_move: f64) -> Model {
    let r = Reading::measured;
    let tape = Tape {
        to_rail: r(260.0),
        to_tub_low: r(160.0),
        to_tub_high: r(145.0),
        to_seam: r(20.0),
        to_lip: r(180.0),
        roof_up: r(470.0),
        lip_up: r(310.0),
        rail_top_up: r(190.0),
        rail_bottom_up: r(75.0),
        kick_ahead: r(430.0),
        kick_behind: r(430.0),
        kick_drop: r(150.0),
        wall_ahead: r(435.0),
        wall_behind: r(430.0),
        opening_ahead: r(415.0),
        opening_behind: r(410.0),
        corner_radius: r(76.0),
        roof_fall: r(30.0),
        lip_depth: r(19.0),
        lip_thickness: r(3.2),
    };
    let side = SideSpec {
        tape,
        stations: None,
        seam_move,
        roof_raise: 0.0,
    };
    let car = Car {
        name: "test".into(),
        purpose: "To be drawn.".into(),
        tire: TireSpec {
            designation: Designation::parse("275/60R15").expect("a tire size"),
            section_width: Some(MeasuredWidth {
                width: section_width,
                on_rim: 254.0,
            }),
            overall_diameter: None,
            tread_width: None,
            shoulder_radius: None,
            widest_at: 0.5,
            arrival: Arrival::Nominal,
            growth: 0.0,
            load: 400.0,
            pressure: 180.0,
            deflection: Some(22.0),
        },
        wheel: WheelSpec {
            rim_width: 254.0,
            backspacing: 140.0,
            flange_thickness: 12.7,
            flange_height: 17.3,
            run_out: 3.0,
        },
        axle: AxleSpec {
            measured_width: 1524.0,
            width: 1524.0,
            hat: 3.0,
            spacer: 0.0,
            ahead: 0.0,
            yaw: 0.0,
            tube_diameter: 76.0,
            flange_diameter: 158.0,
            stud_length: 38.1,
        },
        locator: Locator::LeafSprings { height: 60.0 },
        travel: TravelSpec {
            bump: 75.0,
            droop: 75.0,
            roll_limit: None,
            give: 3.0,
            ride_change: 0.0,
        },
        sides: Sides {
            left: side.clone(),
            right: side,
        },
        obstacles: vec![Obstacle {
            name: "shock <left>".into(),
            side: Side::Left,
            from: vec3(-150.0, 430.0, -60.0),
            to: vec3(-190.0, 380.0, 330.0),
            radius: 25.0,
        }],
        no_cut: Vec::new(),
        targets: Targets::default(),
        tape_error: TapeError::default(),
        metal: MetalSpec::default(),
        stock: Stock::default(),
        before: Before::default(),
        found: Vec::new(),
        shop: Shop::default(),
    };
    Model::new(&car).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn drawn(section_width: f64, seam_move: f64, options: &RearOptions) -> Scene {
    let model = model(section_width, seam_move);
    rear_view(&model, &check(&model, 0.1), options)
}

fn has(scene: &Scene, role: Role) -> bool {
    scene
        .groups
        .iter()
        .flat_map(|group| &group.items)
        .any(|item| item.role == role)
}

#[test]
fn lettering_stays_in_the_picture_and_apart() {
    for section_width in [235.0, 275.0, 335.0] {
        for seam_move in [0.0, 40.0, 90.0] {
            for notation in Notation::ALL {
                for (shown, width) in [
                    (Shown::Both, 1100.0),
                    (Shown::Both, 700.0),
                    (Shown::Both, 360.0),
                    (Shown::One(Side::Left), 360.0),
                    (Shown::One(Side::Right), 360.0),
                ] {
                    let options = RearOptions {
                        shown,
                        width,
                        notation,
                        ..RearOptions::default()
                    };
                    expect_legible(&drawn(section_width, seam_move, &options));
                }
            }
        }
    }
}

#[test]
fn a_swung_section_says_so_and_keeps_its_frame() {
    let at = |angle: f64| {
        drawn(
            275.0,
            40.0,
            &RearOptions {
                angle,
                ..RearOptions::default()
            },
        )
    };
    let still = at(0.0).view;
    for angle in [-1.5, -0.61, 0.2, 1.0, std::f64::consts::FRAC_PI_2] {
        let scene = at(angle);
        assert_eq!(scene.view, still);
        expect_legible(&scene);
        assert!(scene.title.contains("straight up"), "{}", scene.title);
    }
    assert!(
        at(-0.61)
            .file()
            .contains("Section 35\u{b0} behind straight up")
    );
    assert!(!at(0.0).file().contains("behind straight up"));
}

#[test]
fn an_obstacle_is_drawn_where_the_section_cuts_it() {
    let drawn = |angle: f64| {
        let options = RearOptions {
            angle,
            ..RearOptions::default()
        };
        has(&drawn(275.0, 0.0, &options), Role::Obstacle)
    };
    // It leans from 68 degrees behind, below the axle's line, to 30 degrees behind.
    assert!(drawn(-0.6) && !drawn(0.5));
}

#[test]
fn the_left_side_is_on_the_left() {
    let scene = drawn(275.0, 0.0, &RearOptions::default());
    for handle in &scene.handles {
        assert_eq!(handle.at.x < 0.0, handle.side == Side::Left, "{handle:?}");
    }
}

#[test]
fn overlaps_are_hatched_and_only_they() {
    let options = RearOptions::default();
    assert!(has(&drawn(335.0, 0.0, &options), Role::Overlap));
    assert!(!has(&drawn(235.0, 0.0, &options), Role::Overlap));
}

#[test]
fn the_stock_tub_is_shown_once_it_has_moved() {
    let options = RearOptions::default();
    assert!(!has(&drawn(275.0, 0.0, &options), Role::Stock));
    let moved = drawn(275.0, 40.0, &options);
    assert!(has(&moved, Role::Stock) && has(&moved, Role::Fill) && has(&moved, Role::Moved));
}

#[test]
fn the_same_groups_are_there_whatever_is_shown() {
    let names = |scene: &Scene| -> Vec<String> { scene.ids().collect() };
    let bare = RearOptions {
        dimensions: Dimensions::None,
        stock: false,
        ..RearOptions::default()
    };
    assert_eq!(
        names(&drawn(275.0, 40.0, &bare)),
        names(&drawn(235.0, 0.0, &RearOptions::default()))
    );
}

#[test]
fn a_group_is_found_by_its_id() {
    let scene = drawn(275.0, 40.0, &RearOptions::default());
    for (id, group) in scene.ids().zip(&scene.groups) {
        assert_eq!(scene.inside(&id), group.markup());
    }
    assert_eq!(scene.inside("rear-"), "");
}

#[test]
fn every_surface_has_outlines_of_its_own() {
    let scene = drawn(275.0, 40.0, &RearOptions::default());
    for surface in [Surface::FrameRail, Surface::TubWall] {
        let lit = scene.outlines_of(Side::Left, surface.into());
        assert!(lit.contains("<path") && !lit.contains("<text"), "{lit}");
        assert!(!lit.contains("data-key=\"right"), "{lit}");
    }
}

#[test]
fn names_are_written_as_text() {
    let file = drawn(
        275.0,
        0.0,
        &RearOptions {
            gaps: 9,
            ..RearOptions::default()
        },
    )
    .file();
    assert!(file.contains("shock &lt;left&gt;") && !file.contains("shock <left>"));
}

#[test]
fn odd_widths_and_poses_are_drawn() {
    for width in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        let scene = drawn(
            275.0,
            0.0,
            &RearOptions {
                width,
                ..RearOptions::default()
            },
        );
        assert!(scene.view.width.is_finite() && scene.view.height > 0.0);
    }
    let pose = Pose {
        left: 75.0,
        right: -75.0,
        give: 3.0,
    };
    drawn(
        275.0,
        0.0,
        &RearOptions {
            pose,
            shown: Shown::One(Side::Right),
            ..RearOptions::default()
        },
    );
}
