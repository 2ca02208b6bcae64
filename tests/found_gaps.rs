//! Gaps found with the mock-up, in a car's file.

use carfile::{SCENARIOS, read, write};
use geometry::body::Surface;
use geometry::side::Side;
use geometry::travel::Pose;
use geometry::units::{MM_PER_INCH, Notation};

/// They are work that somebody crawled under a car for.
#[test]
fn found_gaps_come_back_and_bad_ones_are_told() {
    let gap = |rest: &str| {
        format!(
            "{}\n[[found]]\nside = \"left\"\n{rest}\n",
            SCENARIOS[0].text
        )
    };
    let good = gap("surface = \"tub-wall\"\npose = [3, -3, \"1/8\"]\ngap = \"-1/2\"");
    let car = read(&good).expect("a found gap reads");
    let one = car.found[0];
    assert_eq!((car.found.len(), one.side), (1, Side::Left));
    assert_eq!(one.id, Surface::TubWall.into());
    let Pose { left, right, give } = one.pose;
    for (read, meant) in [(left, 3.0), (right, -3.0), (give, 0.125), (one.gap, -0.5)] {
        // A product is off by a last digit at most.
        assert!((read - meant * MM_PER_INCH).abs() <= f64::EPSILON * 128.0);
    }
    for notation in Notation::ALL {
        let text = write(&car, notation);
        let back = read(&text).expect("a file of ours");
        assert_eq!(back.found.len(), 1);
        assert_eq!(write(&back, notation), text);
    }
    let parts = car.obstacles.len();
    for (rest, at, says) in [
        (
            "surface = \"sill\"\npose = [0, 0, 0]\ngap = 1",
            "surface",
            "tub-wall",
        ),
        (
            "surface = \"roof\"\npose = [0, 0]\ngap = 1",
            "pose",
            "three lengths",
        ),
        (
            "surface = \"roof\"\npose = [0, 0, 0]\ngap = 40",
            "gap",
            "23.622 in",
        ),
        ("surface = \"roof\"\npose = [0, 0, 0]", "gap", "a length"),
        (
            "surface = \"roof\"\npart = 0\npose = [0, 0, 0]\ngap = 1",
            "part",
            "no part",
        ),
        (
            "surface = \"part\"\npose = [0, 0, 0]\ngap = 1",
            "part",
            "its place",
        ),
        (
            &format!("surface = \"part\"\npart = {parts}\npose = [0, 0, 0]\ngap = 1"),
            "part",
            "a",
        ),
    ] {
        let faults = read(&gap(rest)).expect_err(rest);
        assert_eq!(faults.len(), 1, "{faults:?}");
        assert_eq!(faults[0].at, format!("found[0].{at}"));
        assert!(faults[0].accepted.contains(says), "{}", faults[0]);
    }
}
