//! What a map promises, whatever the car.

use geometry::body::NoCutZone;
use geometry::side::Side;
use geometry::space::vec2;

use super::*;
use crate::legible::expect_legible;
use crate::rear::tests::model;
use crate::role::Role;

fn map(section_width: f64, seam_move: f64) -> (Model, SheetMap) {
    let model = model(section_width, seam_move);
    let map = SheetMap::whole(&model, Side::Left);
    (model, map)
}

fn has(scene: &Scene, group: &str, role: Role) -> bool {
    scene
        .group(group)
        .is_some_and(|group| group.items.iter().any(|item| item.role == role))
}

#[test]
fn lettering_stays_in_the_picture_and_apart() {
    for section_width in [235.0, 335.0] {
        for seam_move in [0.0, 60.0] {
            let (mut model, map) = map(section_width, seam_move);
            model.car.no_cut = vec![NoCutZone {
                name: "shock mount".into(),
                side: Side::Left,
                angles: [-0.3, 0.1],
                along: [-40.0, 90.0],
            }];
            for notation in Notation::ALL {
                for width in [340.0, 620.0, 1000.0] {
                    for angle in [-1.57, 0.0, 0.4] {
                        let options = MapOptions {
                            angle: Some(angle),
                            width,
                            notation,
                        };
                        let scene = wheelhouse_map(&map, &model, &options);
                        expect_legible(&scene);
                        assert!(has(&scene, "zones", Role::NoCut));
                    }
                }
            }
        }
    }
}

#[test]
fn every_node_is_found_where_it_lies() {
    let (_, map) = map(275.0, 40.0);
    for width in [360.0, 720.0] {
        let options = MapOptions {
            width,
            ..MapOptions::default()
        };
        for index in (0..map.nodes.len()).step_by(17) {
            let at = map_place(&options, &map, index).expect("a node lies somewhere");
            let found = map_spot(&options, &map, at).expect("and is found there");
            let place = map_place(&options, &map, found).expect("a node");
            assert!((place - at).length() < 1e-6, "{index} and {found}");
        }
        assert_eq!(map_spot(&options, &map, vec2(1.0, 1.0)), None);
    }
}

#[test]
fn overlap_is_hatched_only_where_there_is_one() {
    let drawn = |width: f64| {
        let (model, map) = map(width, 0.0);
        wheelhouse_map(&map, &model, &MapOptions::default())
    };
    assert!(has(&drawn(335.0), "overlap", Role::Overlap));
    let clear = drawn(185.0);
    assert_eq!(
        has(&clear, "overlap", Role::Overlap),
        map(185.0, 0.0)
            .1
            .nodes
            .iter()
            .any(|node| node.gap.low < 0.0)
    );
}

#[test]
fn the_plot_of_the_axes_is_the_plot_of_the_map() {
    let (model, map) = map(275.0, 0.0);
    let scene = wheelhouse_map(&map, &model, &MapOptions::default());
    let options = MapOptions::default();
    let layout = Layout::new(&options, &map, 0).expect("a layout");
    let [left, top, right, bottom] = layout.plot;
    let points = scene
        .group("plot")
        .expect("axes")
        .items
        .iter()
        .filter_map(|item| match &item.shape {
            crate::scene::Shape::Lines(lines) if item.role == Role::Axis => Some(lines.concat()),
            _ => None,
        });
    let points: Vec<Vec2> = points.flatten().collect();
    for corner in [vec2(left, bottom), vec2(right, bottom), vec2(left, top)] {
        assert!(
            points.iter().any(|&p| (p - corner).length() < 0.5),
            "no axis ends near {corner:?}"
        );
    }
}

#[test]
fn the_finding_names_the_surface_and_the_place() {
    let (model, map) = map(335.0, 0.0);
    let finding = map_finding(&map, &model, Notation::InchFractions);
    assert!(finding.contains("hits by"), "{finding}");
}

#[test]
fn the_sections_line_is_the_same_alone() {
    let (model, map) = map(275.0, 0.0);
    let options = MapOptions {
        angle: Some(-0.6),
        ..MapOptions::default()
    };
    let whole = wheelhouse_map(&map, &model, &options);
    assert_eq!(whole.inside("map-section"), map_section(&options, &map));
}

#[test]
fn odd_widths_and_angles_are_drawn() {
    let (model, map) = map(275.0, 0.0);
    for odd in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        let options = MapOptions {
            angle: Some(odd),
            width: odd,
            ..MapOptions::default()
        };
        let scene = wheelhouse_map(&map, &model, &options);
        assert!(scene.view.width.is_finite() && scene.view.height > 0.0);
    }
}
