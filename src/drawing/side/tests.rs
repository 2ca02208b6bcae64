//! What a side view promises, whatever the car.

use geometry::check::{ACCURACY, check};
use geometry::units::radians;

use super::*;
use crate::legible::expect_legible;
use crate::rear::tests::model;

fn drawn(section_width: f64, options: &SideOptions) -> Scene {
    let model = model(section_width, 40.0);
    side_view(&model, &check(&model, 0.1), options)
}

#[test]
fn lettering_stays_in_the_picture_and_apart() {
    for section_width in [235.0, 275.0, 335.0] {
        let model = model(section_width, 40.0);
        let gaps = check(&model, ACCURACY);
        for side in Side::BOTH {
            let ring = Ring::whole(&model, side);
            for ring in [None, Some(&ring)] {
                for notation in Notation::ALL {
                    for width in [340.0, 620.0, 1000.0] {
                        for angle in [-90.0, -20.0, 0.0, 75.0] {
                            let options = SideOptions {
                                side,
                                angle: radians(angle),
                                ring,
                                width,
                                notation,
                            };
                            expect_legible(&side_view(&model, &gaps, &options));
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn the_front_is_where_one_sees_it_from_that_side() {
    let ahead = |side| {
        side_handle(
            &model(275.0, 0.0),
            &SideOptions {
                angle: 0.5,
                ..SideOptions::of(side)
            },
        )
        .x
    };
    assert!(ahead(Side::Left) < 0.0 && ahead(Side::Right) > 0.0);
}

#[test]
fn the_handle_tells_the_angle_it_stands_at() {
    for side in Side::BOTH {
        for angle in [-1.5, -0.3, 0.0, 0.9] {
            let at = side_handle(
                &model(275.0, 0.0),
                &SideOptions {
                    angle,
                    ..SideOptions::of(side)
                },
            );
            assert!((side_angle(side, at) - angle).abs() < 1e-12);
        }
    }
}

#[test]
fn an_empty_ring_shows_no_verdict() {
    let scene = drawn(335.0, &SideOptions::of(Side::Left));
    let ring = scene.group("ring").expect("a ring");
    assert!(ring.items.iter().all(|item| item.key.is_none()));
    assert!(scene.inside("side-ring").contains("being worked out"));
}

#[test]
fn the_ring_of_the_other_side_is_not_shown() {
    let model = model(335.0, 0.0);
    let ring = Ring::whole(&model, Side::Right);
    let options = SideOptions {
        ring: Some(&ring),
        ..SideOptions::of(Side::Left)
    };
    let scene = side_view(&model, &check(&model, 0.1), &options);
    assert!(scene.inside("side-ring").contains("being worked out"));
}

#[test]
fn odd_widths_and_angles_are_drawn() {
    for odd in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        for (width, angle) in [(odd, 0.0), (700.0, odd)] {
            let scene = drawn(
                275.0,
                &SideOptions {
                    angle,
                    width,
                    ..SideOptions::of(Side::Left)
                },
            );
            assert!(scene.view.width.is_finite() && scene.view.height > 0.0);
        }
    }
}
