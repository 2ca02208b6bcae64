//! Random inputs that several tests draw from.

use geometry::locator::{Locator, PivotOn};
use geometry::space::vec2;
use proptest::prelude::*;

/// Whatever may hold an axle sideways.
pub fn locator() -> impl Strategy<Value = Locator> {
    let height = || -200.0..250.0;
    let end = |across: std::ops::Range<f64>| (across, -80.0..120.0).prop_map(|(x, y)| vec2(x, y));
    prop_oneof![
        (end(-600.0..-250.0), end(250.0..600.0))
            .prop_map(|(axle_end, body_end)| Locator::TrackBar { axle_end, body_end }),
        (height(), any::<bool>()).prop_map(|(height, body)| Locator::WattLink {
            height,
            pivot_on: if body { PivotOn::Body } else { PivotOn::Axle },
        }),
        height().prop_map(|height| Locator::AngledLinks { height }),
        height().prop_map(|height| Locator::LeafSprings { height }),
    ]
}
