//! The pictures that are taken away, drawn afresh at the width they are asked for.

use std::sync::Arc;

use drawing::{
    MapOptions, RearOptions, Scene, Shown, SideOptions, TravelChart, rear_view, side_view,
    travel_chart, wheelhouse_map,
};
use geometry::check::{ACCURACY, Check, at_pose};
use geometry::model::Model;
use geometry::sheet::{Ring, SheetMap};
use geometry::side::Side;
use geometry::sweep::SweepWork;
use geometry::travel::Pose;
use geometry::units::Notation;
use leptos::prelude::*;

use crate::bench::store::{Bench, Same};
use crate::browser::later::{Pieces, later};
use crate::state::passing::Figure;

/// Nodes of the map, and rays of a section's room, that are worked out in one piece.
const NODES: usize = 8;
const RAYS: u32 = 4;
/// Heights of both wheels in the chart.
const SAMPLES: u32 = 25;
/// No wider a picture is lettered for: beyond, letters grow with it.
const LETTERED: f64 = 1200.0;

/// What a picture is drawn of, and how.
#[derive(Debug, Clone, PartialEq)]
struct Order {
    model: Same,
    check: Arc<Check>,
    figure: Figure,
    side: Side,
    shown: Shown,
    angle: f64,
    pose: Pose,
    notation: Notation,
    width: f64,
}

/// The picture as it was last looked at on the Bench, of the sides that are to be `shown`, `width` pixels wide; nothing
/// while it is being worked out.
pub fn drawn(
    bench: Bench,
    figure: RwSignal<Figure>,
    shown: Signal<Shown>,
    width: Signal<f64>,
    wanted: Signal<bool>,
) -> Memo<Option<Arc<Scene>>> {
    let side = bench.side();
    let order = Memo::new(move |_| {
        Some(Order {
            model: Same(bench.model.get()?),
            check: bench.check.get()?,
            figure: figure.get(),
            side: side.get(),
            shown: shown.get(),
            angle: bench.angle.get(),
            pose: bench.pose.get(),
            notation: bench.notation.get(),
            width: width.get().min(LETTERED),
        })
    });
    later(order, wanted, |order: &Order| match order.figure {
        Figure::Rear => rear(order.clone()),
        Figure::Side => side_of(order.clone()),
        Figure::Map => map(order.clone()),
        Figure::Travel => travel(order.clone()),
    })
}

/// The shape of a picture, as a style sheet has it. Until it is drawn room is kept for a usual one, so that little below
/// moves when it comes.
pub fn shape(scene: Option<&Scene>) -> String {
    scene.map_or("20 / 13".to_owned(), |scene| {
        format!("{} / {}", scene.view.width, scene.view.height)
    })
}

impl Order {
    fn model(&self) -> &Model {
        &self.model.0
    }
}

fn rear(order: Order) -> Pieces<Scene> {
    let target = order.model().car.targets.travel;
    let mut work = order.model().begin_envelopes(target, order.angle);
    Box::new(move || {
        let room = work.step(RAYS)?;
        let held = (order.pose != Pose::RIDE).then(|| at_pose(order.model(), order.pose, ACCURACY));
        let options = RearOptions {
            pose: order.pose,
            angle: order.angle,
            shown: order.shown,
            width: order.width,
            notation: order.notation,
            envelope: Some(&room),
            at_pose: held.as_ref(),
            ..RearOptions::default()
        };
        Some(rear_view(order.model(), &order.check, &options))
    })
}

fn side_of(order: Order) -> Pieces<Scene> {
    let mut work = Ring::begin(order.model(), order.side);
    Box::new(move || {
        let ring = work.step(1)?;
        let options = SideOptions {
            side: order.side,
            angle: order.angle,
            ring: Some(&ring),
            width: order.width,
            notation: order.notation,
        };
        Some(side_view(order.model(), &order.check, &options))
    })
}

fn map(order: Order) -> Pieces<Scene> {
    let mut work = SheetMap::begin(order.model(), order.side);
    Box::new(move || {
        let map = work.step(NODES)?;
        let options = MapOptions {
            angle: Some(order.angle),
            width: order.width,
            notation: order.notation,
        };
        Some(wheelhouse_map(&map, order.model(), &options))
    })
}

fn travel(order: Order) -> Pieces<Scene> {
    let mut work = SweepWork::begin(order.model(), order.side, SAMPLES);
    Box::new(move || {
        let curves = work.step()?;
        let chart = TravelChart {
            curves: &curves,
            targets: &order.model().car.targets,
            notation: order.notation,
            now: None,
            width: order.width,
        };
        Some(travel_chart(&chart))
    })
}
