//! The axle's motion and the tilted tire against derived values (rows M1 to M6).

use geometry::chain::{Arc, Chain};
use geometry::envelope;
use geometry::gap::{Face, Limits, Part, PoseDomain, Poses, certify};
use geometry::locator::{Locator, PivotOn};
use geometry::motion::Motion;
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{vec2, vec3};
use geometry::travel::Pose;
use geometry::units::MM_PER_INCH;

#[track_caller]
fn check(what: &str, got: f64, expected: f64, digits: i32) {
    // Half a unit in the last digit that the source gives.
    let tolerance = (0..digits).fold(0.5, |t, _| t / 10.0);
    assert!(
        (got - expected).abs() <= tolerance,
        "{what}: {got} is not {expected} to {digits} digits"
    );
}

fn level_motion(locator: Locator, track_width: f64) -> Motion {
    Motion::new(locator, track_width, 0.0, 0.0, 0.0)
}

/// Sideways shift of the axle's center, toward the body's end of the bar.
fn shift(bar: (f64, f64), body_height: f64, up: f64) -> f64 {
    let (axle_end, body_end) = (
        vec2(-bar.0 / 2.0, bar.1),
        vec2(bar.0 / 2.0, bar.1 + body_height),
    );
    let motion = level_motion(Locator::TrackBar { axle_end, body_end }, 1500.0);
    motion
        .at(Pose::heave(up))
        .body_from_axle(vec3(0.0, 0.0, 0.0))
        .y
}

/// M1, derived: L - sqrt(L^2 - z^2).
#[test]
fn a_level_track_bar_pulls_the_axle_toward_its_body_end() {
    let bar = (36.0 * MM_PER_INCH, 0.0);
    check(
        "3 in up",
        shift(bar, 0.0, 3.0 * MM_PER_INCH) / MM_PER_INCH,
        0.12522,
        5,
    );
    check(
        "4 in up",
        shift(bar, 0.0, 4.0 * MM_PER_INCH) / MM_PER_INCH,
        0.22291,
        5,
    );
}

/// M2, derived. The row's figure, -4.8057 mm, is that of a 900 mm bar whose ends stand 20 mm apart in height at ride
/// and 95 mm apart after 75 mm of travel: the travel away from level. Toward level it is 1.4599 mm the other way.
#[test]
fn an_inclined_track_bar_shifts_by_its_slope() {
    let across = (900.0_f64 * 900.0 - 20.0 * 20.0).sqrt();
    check(
        "away from level",
        -shift((across, 0.0), 20.0, -75.0).abs(),
        -4.8057,
        4,
    );
    let toward = (900.0_f64 * 900.0 - 55.0 * 55.0).sqrt() - across;
    check("toward level", shift((across, 0.0), 20.0, 75.0), -toward, 9);
}

/// M3, derived: rigid rotation by 3 degrees about a roll center 120 mm above the axle. The rising wheel stands
/// 750 cos 3 + 120 sin 3 - 750 = 5.2525 mm outboard; the row's 5.253 is that figure rounded twice.
#[test]
fn roll_swings_the_wheels_about_the_roll_center() {
    let (sin, cos) = (
        geometry::math::sin(3.0_f64.to_radians()),
        geometry::math::cos(3.0_f64.to_radians()),
    );
    let (up, down) = (
        750.0 * sin + 120.0 * (1.0 - cos),
        750.0 * sin - 120.0 * (1.0 - cos),
    );
    for locator in [
        Locator::WattLink {
            height: 120.0,
            pivot_on: PivotOn::Body,
        },
        Locator::WattLink {
            height: 120.0,
            pivot_on: PivotOn::Axle,
        },
        Locator::AngledLinks { height: 120.0 },
        Locator::LeafSprings { height: 120.0 },
    ] {
        let placement = level_motion(locator, 1500.0).at(Pose {
            left: up,
            right: -down,
            give: 0.0,
        });
        let wheel = |side: Side| placement.body_from_axle(vec3(0.0, side.sign() * 750.0, 0.0));
        let (rising, falling) = (wheel(Side::Left), wheel(Side::Right));
        check("rising wheel outboard", rising.y - 750.0, 5.2525, 4);
        check("rising wheel up", rising.z, 39.416, 3);
        check("falling wheel inboard", falling.y + 750.0, 7.308, 3);
        check("falling wheel down", falling.z, -39.088, 3);
    }
}

/// A tire of two shoulders and a flat crown, as the rows describe it: a rounded rectangle.
fn plain_tire(radius: f64, width: f64, shoulder: f64) -> Revolved {
    let chain = Chain::rounded_rectangle(vec2(width / 2.0, radius), shoulder)
        .expect("a rounded rectangle is convex");
    Revolved {
        part: Part::Tire,
        chain,
        side: Side::Left,
        center_plane: 0.0,
    }
}

/// The pose that tilts an axle of this track width by so many degrees and leaves its center at rest.
fn tilt(degrees: f64, track_width: f64) -> Pose {
    let rise = track_width / 2.0 * geometry::math::sin(degrees.to_radians());
    Pose {
        left: rise,
        right: -rise,
        give: 0.0,
    }
}

/// M4, derived: (w/2 - r) cos t + (R - r) sin t + r.
#[test]
fn a_tilted_tire_reaches_further_out() {
    let tire = plain_tire(355.6, 304.8, 25.4);
    let motion = level_motion(Locator::LeafSprings { height: 0.0 }, 1500.0);
    for (degrees, expected) in [(0.0, 152.4000), (1.0, 158.1434), (3.0, 169.5073)] {
        // The reach is where an upright wall, far enough out and as high as the tire, stands plus its gap.
        let wall = Face::segment(vec3(0.0, 400.0, -400.0), vec3(0.0, 400.0, 400.0));
        let gap = certify(
            &mut Poses::at(motion, tilt(degrees, 1500.0)),
            &[&tire],
            &[wall],
            0.0,
            Limits::accuracy(1e-6),
        )
        .expect("a wall and a tire");
        check("half-extent", 400.0 - gap.high, expected, 4);
        assert!(gap.low <= gap.high && gap.high - gap.low <= 1e-6 + 2.0 * geometry::gap::ROUNDING);
    }
}

/// M5, derived: a disc of 355.6 mm swept 76.2 mm straight up leaves 37.3560 mm to the point (300, 330).
#[test]
fn a_rising_disc_comes_nearest_on_the_way() {
    let disc = plain_tire(355.6, 60.0, 1.0);
    let motion = level_motion(Locator::LeafSprings { height: 0.0 }, 1500.0);
    // Both wheels together: no roll.
    let domain = PoseDomain {
        low: 0.0,
        high: 76.2,
        apart: 0.0,
    };
    let point = Face::point(vec3(300.0, 0.0, 330.0));
    let gap = certify(
        &mut Poses::new(motion, domain),
        &[&disc],
        &[point],
        0.0,
        Limits::accuracy(1e-5),
    )
    .expect("a point and a disc");
    check("gap", gap.high, 37.3560, 4);
    assert!(gap.low <= 37.356 + 0.5e-4);
}

/// M5, derived: the swept disc's area, 451452.1036 mm^2, from the envelope's own outline in the plane of the disc. The
/// outline is of the section across the disc, so the disc is stood in for by a section as round as it is.
#[test]
fn the_outline_of_a_sweep_has_its_area() {
    let radius = 355.6;
    let arc = |from| Arc {
        center: vec2(0.0, 0.0),
        radius,
        from,
    };
    let chain = Chain::new(vec![
        arc(vec2(1.0, 0.0)),
        arc(vec2(0.0, 1.0)),
        arc(vec2(-1.0, 0.0)),
        arc(vec2(0.0, -1.0)),
    ])
    .expect("a circle is convex");
    let body = Revolved {
        part: Part::Tire,
        chain,
        side: Side::Left,
        center_plane: 0.0,
    };
    let motion = level_motion(Locator::LeafSprings { height: 0.0 }, 1500.0);
    let [outline] = envelope::outlines(
        &motion,
        &[vec2(0.0, 0.0), vec2(76.2, 76.2)],
        &[&body],
        [0.0],
    );
    let above: f64 = outline
        .windows(2)
        .map(|ends| ends[0].cross(ends[1]) / 2.0)
        .sum::<f64>()
        .abs();
    let below = std::f64::consts::PI * radius * radius / 2.0;
    // The outline is a polygon of 360 rays on a circle: short by less than 2 (pi / 360)^2 / 3 of a half disc.
    let short = below * 2.0 / 3.0 * (std::f64::consts::PI / 360.0) * (std::f64::consts::PI / 360.0);
    let expected = 451_452.103_6;
    assert!(
        above + below <= expected + 1e-3 && above + below >= expected - 2.0 * short,
        "{} is not {expected}",
        above + below
    );
}

/// M6, derived: the tire of M4 at 3 degrees, 200 mm from a wall: 30.4927 mm. A 720-segment mesh in a collision library
/// says 30.4949.
#[test]
fn a_tilted_tire_and_a_wall() {
    let tire = plain_tire(355.6, 304.8, 25.4);
    let motion = level_motion(Locator::LeafSprings { height: 0.0 }, 1500.0);
    let wall = Face::segment(vec3(0.0, 200.0, -400.0), vec3(0.0, 200.0, 400.0));
    let gap = certify(
        &mut Poses::at(motion, tilt(3.0, 1500.0)),
        &[&tire],
        &[wall],
        0.0,
        Limits::accuracy(1e-6),
    )
    .expect("a wall and a tire");
    check("gap", gap.high, 30.4927, 4);
}
