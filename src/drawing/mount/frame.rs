//! What part of the sheet is shown: all of the way, whatever share of it is looked at.

use geometry::model::Model;
use geometry::mount::{Mounting, Place};
use geometry::space::{Vec2, vec2};

use crate::lettering::Lettering;
use crate::rear::side_on_sheet;
use crate::scene::View;

/// Shown round everything, mm.
const ROUND: f64 = 40.0;
/// Room for the two lines above, pixels.
const ABOVE: f64 = 52.0;
/// Coarse outlines do for a frame, mm.
const SAGITTA: f64 = 4.0;

/// The frame and the size of its lettering.
pub(super) fn frame(model: &Model, mounting: &Mounting, width: f64) -> (View, Lettering) {
    let side = mounting.side;
    let outline = model.solids.get(side).tire.chain.outline(SAGITTA);
    let mirrored = outline.iter().flat_map(|p| [*p, vec2(p.x, -p.y)]);
    let tire: Vec<Vec2> = mirrored.collect();
    let places = mounting.way.iter().map(|stop| stop.place);
    let wheels = places
        .chain([Place::default()])
        .flat_map(|place| tire.iter().map(move |&point| mounting.seen(place, point)));
    let rail = model.rails.get(side);
    let body = model.moved.get(side).points.iter().copied();
    let points = wheels
        .chain(body)
        .chain([
            vec2(rail.face, rail.top),
            vec2(rail.face - ROUND, rail.bottom),
        ])
        .map(|point| side_on_sheet(side, point))
        .filter(|point| point.is_finite());
    let (mut least, mut most) = (vec2(0.0, 0.0), vec2(0.0, 0.0));
    for (k, p) in points.enumerate() {
        (least, most) = if k == 0 {
            (p, p)
        } else {
            (
                vec2(least.x.min(p.x), least.y.min(p.y)),
                vec2(most.x.max(p.x), most.y.max(p.y)),
            )
        };
    }
    let pixels = if width.is_finite() {
        width.clamp(200.0, 4000.0)
    } else {
        720.0
    };
    let wide = most.x - least.x + 2.0 * ROUND;
    let lettering = Lettering {
        pixel: wide / pixels,
    };
    let top = least.y - ROUND - lettering.px(ABOVE);
    let view = View {
        x: least.x - ROUND,
        y: top,
        width: wide,
        height: most.y + ROUND - top,
    };
    (view, lettering)
}
