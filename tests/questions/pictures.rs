//! Any bounded car: all that is drawn and written of it.

use drawing::post::{Markup, Post, gaps_csv, post};
use drawing::sheets::{
    Paper, Sheet, SheetOptions, Table, csv, cut_sheet, cut_tables, mock_up_positions,
    mock_up_sheet, mock_up_tables, order_sheet, order_tables, strip_dxf, strip_sheet, strip_tables,
    tape_sheet, tape_tables, weld_dxf, weld_sheet, weld_tables,
};
use drawing::{
    MapOptions, RearOptions, Scene, SideOptions, TravelChart, map_finding, map_section, rear_view,
    side_view, spot_words, travel_chart, travel_finding, travel_rows, wheelhouse_map,
};
use geometry::check::Check;
use geometry::metal::{CutPlan, MockUp};
use geometry::model::Model;
use geometry::sheet::{Ring, SheetMap};
use geometry::side::{Side, Sides};
use geometry::sweep::SweepWork;
use geometry::travel::Pose;
use geometry::units::Notation;

use crate::any_car;
use crate::clock::timed;
use crate::geometry_of::{gaps, model, says_something};
use crate::source::Source;

pub fn ask(input: &[u8]) {
    let mut source = Source::new(input);
    let about = source.below(6);
    let notation = *source.choice(&Notation::ALL);
    let paper = *source.choice(&Paper::ALL);
    let look = Look {
        side: *source.choice(&Side::BOTH),
        angle: source.between(-3.2, 3.2),
        width: source.between(0.0, 4000.0),
        notation,
    };
    let car = any_car::car(&mut source);
    let Some(model) = model(&car) else { return };
    let found = gaps(&model);
    let travel = &car.travel;
    let pose = Pose {
        left: source.between(-travel.droop, travel.bump),
        right: source.between(-travel.droop, travel.bump),
        give: source.between(-travel.give, travel.give),
    };
    match about {
        0 => views(&model, &found, &look, pose),
        1 => map(&model, &look),
        2 => chart(&model, &look),
        3 => texts(&model, &found, &look),
        _ => sheets(
            &model,
            &SheetOptions {
                paper,
                notation,
                date: String::new(),
            },
        ),
    }
}

/// How it is looked at.
struct Look {
    side: Side,
    angle: f64,
    width: f64,
    notation: Notation,
}

/// The scene can be written, and every number in it is one.
pub fn is_drawn(scene: &Scene) {
    let text = timed("writing a scene", || scene.file());
    assert!(text.starts_with("<svg"), "{text}");
    for (at, _) in text.match_indices("NaN").chain(text.match_indices("inf")) {
        let before = text[..at].chars().next_back();
        let is_number = before.is_some_and(|letter| "\" ,-MLAZCQTSHVmlaz(".contains(letter));
        let after = &text[at + 3..];
        let ends = after.starts_with(['"', ' ', ',', ')', '.']);
        assert!(
            !(is_number && ends),
            "a number that is none: {}",
            &text[at.saturating_sub(80)..(at + 40).min(text.len())]
        );
    }
}

fn views(model: &Model, found: &Check, look: &Look, pose: Pose) {
    let room = Sides::each(|side| model.envelope_section(side, model.car.targets.travel, 0.0));
    let rear = RearOptions {
        pose,
        angle: look.angle,
        width: look.width,
        notation: look.notation,
        envelope: Some(&room),
        stock: true,
        ..RearOptions::default()
    };
    is_drawn(&timed("a rear view", || rear_view(model, found, &rear)));
    let mut work = Ring::begin(model, look.side);
    let ring = loop {
        if let Some(ring) = timed("sectors of the ring", || work.step(4)) {
            break ring;
        }
    };
    let side = SideOptions {
        angle: look.angle,
        ring: Some(&ring),
        width: look.width,
        notation: look.notation,
        ..SideOptions::of(look.side)
    };
    is_drawn(&timed("a side view", || side_view(model, found, &side)));
}

fn map(model: &Model, look: &Look) {
    let mut work = SheetMap::begin(model, look.side);
    let map = loop {
        if let Some(map) = timed("nodes of the map", || work.step(20)) {
            break map;
        }
    };
    let options = MapOptions {
        angle: Some(look.angle),
        width: look.width,
        notation: look.notation,
    };
    is_drawn(&timed("a map", || wheelhouse_map(&map, model, &options)));
    let _ = map_section(&options, &map);
    says_something(&map_finding(&map, model, look.notation));
    if let Some(index) = map.least() {
        says_something(&spot_words(&map, model, index, look.notation));
    }
}

fn chart(model: &Model, look: &Look) {
    let curves = SweepWork::begin(model, look.side, 5).whole();
    let chart = TravelChart {
        curves: &curves,
        targets: &model.car.targets,
        notation: look.notation,
        now: Some(0.0),
        width: look.width,
    };
    is_drawn(&timed("a chart through travel", || travel_chart(&chart)));
    says_something(&travel_finding(&curves, &model.car.targets, look.notation));
    let _ = travel_rows(&curves, look.notation);
}

fn texts(model: &Model, found: &Check, look: &Look) {
    for markup in [Markup::Plain, Markup::Markdown, Markup::BbCode] {
        let words = post(
            &Post {
                car: &model.car,
                check: found,
                finding: "",
                remedy: None,
                link: "",
                notation: look.notation,
            },
            markup,
        );
        assert!(!words.is_empty());
    }
    assert!(!gaps_csv(found).is_empty());
}

fn sheets(model: &Model, options: &SheetOptions) {
    let notation = options.notation;
    let drawn = |sheet: &Sheet| {
        assert!(!sheet.pages.is_empty(), "a sheet without a page");
        sheet.pages.iter().for_each(is_drawn);
    };
    let written = |tables: &[Table]| assert_eq!(csv(tables).is_empty(), tables.is_empty());
    drawn(&timed("the tape sheet", || tape_sheet(model, options)));
    written(&tape_tables(model));
    drawn(&timed("the order sheet", || order_sheet(model, options)));
    written(&order_tables(model, notation));
    if let Ok(mock_up) = timed("the mock-up", || MockUp::of(&model.car)) {
        drawn(&timed("the mock-up sheet", || {
            mock_up_sheet(model, &mock_up, options)
        }));
        written(&mock_up_tables(model, &mock_up, notation));
        let _ = timed("the mock-up's positions", || {
            mock_up_positions(model, &mock_up, notation)
        });
    }
    let plans = Sides::each(|side| {
        let mut work = CutPlan::begin(model, side);
        loop {
            if let Some(plan) = timed("rows of the cut", || work.step(1)) {
                return plan;
            }
        }
    });
    drawn(&timed("the cut sheet", || {
        cut_sheet(model, &plans, options)
    }));
    written(&cut_tables(model, &plans, notation));
    drawn(&timed("the strip sheet", || strip_sheet(model, options)));
    written(&strip_tables(model, notation));
    let _ = timed("the strip's pattern", || strip_dxf(model));
    drawn(&timed("the weld sheet", || weld_sheet(model, options)));
    written(&weld_tables(model, notation));
    assert!(!timed("the drill strip's pattern", || weld_dxf(model)).is_empty());
}
