//! What can be dragged in the rear view, and which lever each is the shortcut of.

use geometry::car::Lever;
use geometry::model::WheelSection;
use geometry::side::Sides;
use geometry::space::{Vec2, vec2};

use super::{Draft, on_sheet, side_on_sheet, sizes};
use crate::scene::Handle;

/// Seam, tire and axle of each side shown.
pub fn handles(draft: &Draft, wheels: &Sides<WheelSection>) -> Vec<Handle> {
    let mut handles = Vec::new();
    for side in draft.sides() {
        let wheel = wheels.get(side);
        let outboard = vec2(-side.sign(), 0.0);
        let mut add = |lever, at, axis, rate| {
            handles.push(Handle {
                lever,
                side,
                at,
                axis,
                rate,
            });
        };
        if let Some(seam) = sizes::moved_seam(draft, side) {
            add(Lever::SeamMove, side_on_sheet(side, seam), -outboard, 1.0);
        }
        if let Some(tire) = Tire::of(wheel) {
            add(
                Lever::Backspacing,
                vec2(tire.middle.x, tire.middle.y),
                -outboard,
                1.0,
            );
            // Width and diameter are shared out between both sides of the center.
            add(
                Lever::SectionWidth,
                vec2(tire.outermost(outboard.x), tire.middle.y),
                outboard,
                2.0,
            );
            add(
                Lever::OverallDiameter,
                vec2(tire.middle.x, tire.top),
                vec2(0.0, -1.0),
                2.0,
            );
        }
        add(Lever::TrackWidth, on_sheet(wheel.hub), outboard, 2.0);
    }
    handles
}

/// Where the tire's upper section lies on the sheet.
struct Tire {
    least: f64,
    most: f64,
    top: f64,
    middle: Vec2,
}

impl Tire {
    fn of(wheel: &WheelSection) -> Option<Self> {
        let first = on_sheet(*wheel.tire_top.first()?);
        let (mut low, mut high) = (first, first);
        for &point in &wheel.tire_top {
            let point = on_sheet(point);
            low = vec2(low.x.min(point.x), low.y.min(point.y));
            high = vec2(high.x.max(point.x), high.y.max(point.y));
        }
        Some(Self {
            least: low.x,
            most: high.x,
            top: low.y,
            middle: low.lerp(high, 0.5),
        })
    }

    fn outermost(&self, outboard: f64) -> f64 {
        if outboard < 0.0 {
            self.least
        } else {
            self.most
        }
    }
}
