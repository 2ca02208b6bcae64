//! What is timed: the whole model, the room chart, and two plainer ways to the model's answer.
//!
//! It knows no clock. Natively `main.rs` times it, in wasm `time.mjs` does; both print a line a case, and `cargo xtask
//! bench` makes a table of them.

mod grid;
mod lipschitz;
mod pieces;

use geometry::check::check;
use geometry::model::Model;
use geometry::room::{RoomChart, RoomOptions, RoomRow, RowRoom};
use wasm_bindgen::prelude::wasm_bindgen;

/// The names of the cars, in the order of their numbers.
#[wasm_bindgen]
pub fn cars() -> Vec<String> {
    let name = |scenario: &carfile::Scenario| scenario.name.to_owned();
    carfile::SCENARIOS.iter().map(name).collect()
}

/// The whole gap list of a car, both sides, all round, through travel and at rest, to `accuracy` mm: the least and the
/// greatest end of every interval, in a row. Nothing where there is no such car.
#[wasm_bindgen]
pub fn whole_model(car: usize, accuracy: f64) -> Vec<f64> {
    let Some(model) = model(car) else {
        return Vec::new();
    };
    let checked = check(&model, accuracy);
    let surfaces = checked.sides.iter().flat_map(|(_, side)| &side.surfaces);
    surfaces
        .flat_map(|surface| {
            [
                surface.travel.low,
                surface.travel.high,
                surface.ride.low,
                surface.ride.high,
            ]
        })
        .collect()
}

/// The room chart of a car at 48 rows: for each row its width, and the ends of its ranges, those without a hit and those
/// that clear, with the stock tub and with the moved one. Nothing where there is no such car.
#[wasm_bindgen]
pub fn room(car: usize) -> Vec<f64> {
    let Some(model) = model(car) else {
        return Vec::new();
    };
    let chart = RoomChart::whole(&model, RoomOptions::around(&model, 48));
    let ends = |room: &RowRoom| [room.free.concat(), room.clear.concat()].concat();
    let row = |row: RoomRow| {
        let rooms = [&row.stock, &row.moved].into_iter().flatten();
        [vec![row.width], rooms.flat_map(ends).collect()].concat()
    };
    chart.rows.into_iter().flat_map(row).collect()
}

/// The least gap through travel of each surface by a general collision library, one pose of a grid at a time.
#[wasm_bindgen]
pub fn pose_grid(car: usize) -> Vec<f64> {
    model(car).map_or_else(Vec::new, |model| grid::gaps(&model))
}

/// The least gap through travel of each surface by branch and bound with nothing but the distance's Lipschitz constant:
/// the ends of each interval in a row. It gives up after so many boxes a surface.
#[wasm_bindgen]
pub fn plain_bound(car: usize, accuracy: f64, boxes: usize) -> Vec<f64> {
    model(car).map_or_else(Vec::new, |model| lipschitz::gaps(&model, accuracy, boxes))
}

fn model(car: usize) -> Option<Model> {
    let scenario = carfile::SCENARIOS.get(car)?;
    Model::new(&carfile::read(scenario.text).ok()?).ok()
}
