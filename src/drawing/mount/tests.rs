//! The picture holds together on odd shares and says what was found.

use geometry::mount::{Finding, Mounting};
use geometry::side::Side;

use super::{MountOptions, mount_finding, mount_here, mount_view};
use crate::legible::expect_legible;
use crate::rear::tests::model;

#[test]
fn every_share_draws_and_can_be_read() {
    let model = model(275.0, 60.0);
    for side in Side::BOTH {
        let found = Mounting::whole(&model, side);
        let options = MountOptions::default();
        let whole = mount_view(&model, &found, 1.0, &options);
        for share in [0.0, 0.3, 0.77, 1.0, -4.0, 9.0, f64::NAN] {
            let scene = mount_view(&model, &found, share, &options);
            expect_legible(&scene);
            assert_eq!(scene.view, whole.view, "the frame does not breathe");
            assert!(!mount_here(&model, &found, share, options.notation).is_empty());
        }
        for width in [f64::NAN, 0.0, 320.0] {
            let scene = mount_view(&model, &found, 0.5, &MountOptions { width, ..options });
            assert!(scene.view.width > 0.0 && scene.view.height > 0.0);
        }
    }
}

#[test]
fn each_finding_has_its_sentence() {
    let model = model(275.0, 60.0);
    let mut found = Mounting::whole(&model, Side::Left);
    let mut told = |finding: Finding, part: &str| {
        found.finding = finding;
        let sentence = mount_finding(&model, &found, MountOptions::default().notation);
        assert!(sentence.contains(part), "{sentence}");
    };
    told(
        Finding::GoesOn,
        "left wheel goes on with the axle at full droop",
    );
    told(Finding::WithDroop(25.4), "takes 1 in more droop");
    let none = |searched_through| Finding::NoWay {
        up_to: 152.4,
        searched_through,
    };
    found.seated.gap = 3.0;
    let mut told = |finding: Finding, part: &str| {
        found.finding = finding;
        let sentence = mount_finding(&model, &found, MountOptions::default().notation);
        assert!(sentence.contains(part), "{sentence}");
    };
    told(none(true), "with up to 6 in more droop.");
    told(none(false), "given up");
    found.seated.gap = -12.7;
    found.finding = none(true);
    let sentence = mount_finding(&model, &found, MountOptions::default().notation);
    assert!(sentence.contains("by 1/2 in"), "{sentence}");
}
