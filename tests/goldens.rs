//! The invented cars as pictures and gap lists: what changes in them must have been meant.
//!
//! `UPDATE_GOLDENS=1 cargo test -p tests --test goldens` writes them anew; look at the pictures before they are kept.

use std::fs;
use std::path::PathBuf;

use drawing::sheets::{SheetOptions, strip_sheet};
use drawing::{
    MapOptions, MountOptions, RearOptions, RoomOptions, SideOptions, mount_view, rear_view,
    room_chart, side_view, wheelhouse_map,
};
use geometry::check::{ACCURACY, Check, check};
use geometry::model::Model;
use geometry::mount::Mounting;
use geometry::room::RoomChart;
use geometry::sheet::{Ring, SheetMap};
use geometry::side::{Side, Sides};
use geometry::units::radians;

#[test]
fn the_rear_views_are_as_kept() {
    for (name, model, gaps) in cars() {
        let envelope =
            Sides::each(|side| model.envelope_section(side, model.car.targets.travel, 0.0));
        let options = RearOptions {
            envelope: Some(&envelope),
            ..RearOptions::default()
        };
        kept(
            &format!("{name}.svg"),
            &rear_view(&model, &gaps, &options).file(),
        );
    }
}

#[test]
fn a_side_view_a_swung_section_and_a_map_are_as_kept() {
    let (_, model, _) = cars().next().expect("the first car");
    let gaps = check(&model, ACCURACY);
    let angle = radians(-35.0);
    let ring = Ring::whole(&model, Side::Left);
    let side = SideOptions {
        angle,
        ring: Some(&ring),
        ..SideOptions::of(Side::Left)
    };
    kept("coupe-side.svg", &side_view(&model, &gaps, &side).file());
    let swung = RearOptions {
        angle,
        ..RearOptions::default()
    };
    kept("coupe-swung.svg", &rear_view(&model, &gaps, &swung).file());
    let map = SheetMap::whole(&model, Side::Left);
    let options = MapOptions {
        angle: Some(angle),
        ..MapOptions::default()
    };
    kept(
        "coupe-map.svg",
        &wheelhouse_map(&map, &model, &options).file(),
    );
}

#[test]
fn the_way_past_a_low_lip_is_as_kept() {
    let (_, model, _) = cars()
        .find(|(name, ..)| *name == "sedan")
        .expect("the sedan");
    let mounting = Mounting::whole(&model, Side::Left);
    let options = MountOptions::default();
    kept(
        "sedan-mount.svg",
        &mount_view(&model, &mounting, 0.6, &options).file(),
    );
}

#[test]
fn a_room_chart_is_as_kept() {
    let (_, model, _) = cars().next().expect("the first car");
    let chart = RoomChart::whole(&model, geometry::room::RoomOptions::around(&model, 24));
    let moved = RoomOptions {
        moved: true,
        ..RoomOptions::default()
    };
    kept("coupe-room.svg", &room_chart(&chart, &moved).file());
}

/// The browser tests print this one and measure its rulers.
#[test]
fn a_tile_of_a_fill_strip_is_as_kept() {
    let mut car = carfile::read(carfile::SCENARIOS[0].text).expect("the first car reads");
    car.sides.left.seam_move = 44.45;
    let model = Model::new(&car).expect("it has a model");
    let sheet = strip_sheet(&model, &SheetOptions::default());
    let is_tile = |page: &&drawing::Scene| page.view.width > page.view.height;
    let tile = sheet.pages.iter().find(is_tile).expect("a tile");
    kept("coupe-strip-tile.svg", &tile.page_file());
}

#[test]
fn the_gap_lists_are_as_kept() {
    for (name, model, gaps) in cars() {
        kept(&format!("{name}.json"), &report::to_json(&model, &gaps));
    }
}

fn cars() -> impl Iterator<Item = (&'static str, Model, Check)> {
    carfile::SCENARIOS.iter().map(|scenario| {
        let car = carfile::read(scenario.text).expect("an invented car reads");
        let model = Model::new(&car).expect("an invented car has a model");
        let gaps = check(&model, ACCURACY);
        (scenario.name, model, gaps)
    })
}

#[track_caller]
fn kept(name: &str, found: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("goldens")
        .join(name);
    if std::env::var_os("UPDATE_GOLDENS").is_some() {
        fs::write(&path, found).expect("the goldens can be written");
        return;
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    let differs = kept.lines().zip(found.lines()).position(|(a, b)| a != b);
    let line = differs.unwrap_or_else(|| kept.lines().count().min(found.lines().count()));
    let of = |text: &str| {
        text.lines()
            .nth(line)
            .unwrap_or("(ends)")
            .chars()
            .take(300)
            .collect::<String>()
    };
    assert!(
        kept == found,
        "{name} differs in line {}:\n kept  {}\n found {}",
        line + 1,
        of(&kept),
        of(found)
    );
}
