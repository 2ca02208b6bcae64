//! The patterns for cutting machines, read back by ezdxf, which is not ours. `cargo xtask test` installs it and runs
//! what is ignored otherwise.

use std::env;
use std::fs;
use std::process::Command;

use carfile::{SCENARIOS, read};
use drawing::sheets::{strip_dxf, weld_dxf};
use geometry::body::Reading;
use geometry::metal::{Plugs, Strip, gauge};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::Vec2;

/// The coupe with a seam moved on either side, and the right body a little longer, so that there are two patterns.
fn model() -> Model {
    let mut car = read(SCENARIOS[0].text).expect("it reads");
    car.sides.left.seam_move = 44.45;
    car.sides.right.seam_move = 38.1;
    car.sides.right.tape.wall_ahead = Reading::measured(450.0);
    Model::new(&car).expect("a model")
}

/// What the reader tells of a file: `(what, layer or value, size)`.
fn told(name: &str, dxf: &str) -> Vec<(String, String, f64)> {
    let path = env::temp_dir().join(format!("{name}-{}.dxf", std::process::id()));
    fs::write(&path, dxf).expect("a file can be written");
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/read_dxf.py");
    let output = Command::new("python3").arg(script).arg(&path).output();
    let output = output.expect("python runs");
    fs::remove_file(&path).expect("the file is there");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .map(|line| {
            let mut words = line.split_whitespace().map(str::to_owned);
            let mut next = || words.next().unwrap_or_default();
            let (what, which, size) = (next(), next(), next());
            (what, which, size.parse().unwrap_or(f64::NAN))
        })
        .collect()
}

fn sizes(told: &[(String, String, f64)], what: &str, layer: &str) -> Vec<f64> {
    told.iter()
        .filter(|(of, on, _)| of == what && on == layer)
        .map(|(_, _, size)| *size)
        .collect()
}

fn head(told: &[(String, String, f64)]) {
    let value = |of: &str| {
        let found = told.iter().find(|(what, ..)| what == of);
        found.map(|(_, value, _)| value.clone()).unwrap_or_default()
    };
    // $INSUNITS 4: millimeters (Autodesk's DXF Reference, HEADER section; from memory).
    assert_eq!(value("units"), "4");
    assert_eq!(value("version"), "AC1009");
    assert_eq!(value("faults"), "0");
    assert!(told.iter().all(|(what, ..)| what != "other"), "{told:?}");
}

fn length(points: &[Vec2]) -> f64 {
    points
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).length())
        .sum()
}

/// Every number of the file is rounded to 1e-4 mm: each of a line's corners may be off by so much both ways.
fn assert_near(found: f64, meant: f64, corners: usize) {
    let off = 2.0 * 1e-4 * corners as f64;
    assert!((found - meant).abs() <= off, "{found} is not {meant}");
}

#[test]
#[ignore = "wants ezdxf: `cargo xtask test` installs it and runs this"]
fn the_strip_opens_elsewhere_at_its_true_size() {
    let model = model();
    let told = told("strip", &strip_dxf(&model).expect("a seam is moved"));
    head(&told);
    let lap = model.car.metal.lap;
    let (mut cuts, mut edges) = (Vec::new(), Vec::new());
    for side in Side::BOTH {
        let pattern = Strip::of(&model, side).expect("it moves").pattern(lap);
        let mut outline = pattern.outline();
        outline.push(outline[0]);
        cuts.push((length(&outline), outline.len()));
        edges.extend(pattern.edges().map(|edge| (length(&edge), edge.len())));
    }
    for (layer, meant) in [("CUT", cuts), ("EDGE", edges)] {
        let found = sizes(&told, "polyline", layer);
        assert_eq!(found.len(), meant.len(), "{layer}");
        for (found, (meant, corners)) in found.into_iter().zip(meant) {
            assert_near(found, meant, corners);
        }
    }
    let stations = model.wheelhouses.left.stations.len();
    let marks = sizes(&told, "polyline", "MARK");
    assert_eq!(marks.len(), 2 * stations);
    for (index, mark) in marks.iter().enumerate() {
        let width = if index < stations { 44.45 } else { 38.1 };
        assert_near(*mark, width, 2);
    }
    // An angle at every station, and a name for each strip.
    assert_eq!(sizes(&told, "text", "WORDS").len(), 2 * stations + 2);
}

#[test]
#[ignore = "wants ezdxf: `cargo xtask test` installs it and runs this"]
fn the_drilling_strip_opens_elsewhere_with_every_hole() {
    let model = model();
    let told = told("weld", &weld_dxf(&model));
    head(&told);
    let metal = &model.car.metal;
    let sheet = gauge::thickness(metal.gauge).expect("a gauge");
    let plugs = Plugs::of(metal, sheet);
    let seam = Strip::of(&model, Side::Left)
        .expect("it moves")
        .edge_length();
    let holes = sizes(&told, "circle", "CUT");
    assert_eq!(holes.len(), plugs.count(seam) as usize);
    for hole in holes {
        assert_near(hole, plugs.hole, 1);
    }
    let outline = sizes(&told, "polyline", "CUT");
    assert_eq!(outline.len(), 1);
    assert_near(outline[0], 2.0 * seam + 2.0 * metal.lap, 4);
}

#[test]
fn a_car_whose_seams_stay_has_no_strip() {
    let car = read(SCENARIOS[0].text).expect("it reads");
    let model = Model::new(&car).expect("a model");
    assert_eq!(strip_dxf(&model), None);
    assert!(weld_dxf(&model).ends_with("EOF\n"));
}
