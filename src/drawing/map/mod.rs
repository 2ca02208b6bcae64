//! The wheelhouse map: the sheet unrolled, angle round the wheel across, distance along the sheet from the lip upward,
//! with the least gap through travel as contour lines.

mod axes;
mod field;
mod layout;
mod lines;
mod marks;
#[cfg(test)]
mod tests;

use geometry::check::Verdict;
use geometry::model::Model;
use geometry::sheet::{Node, SheetMap};
use geometry::space::Vec2;
use geometry::units::Notation;

use crate::scene::{Group, Scene, View};
use crate::words::{bearing, gap_words};
use field::Field;
use layout::Layout;

/// What a map shows.
#[derive(Debug, Clone, Copy)]
pub struct MapOptions {
    /// Angle of the rear view's section from straight up, radians, if it is to be marked.
    pub angle: Option<f64>,
    /// How wide the map is shown, CSS pixels.
    pub width: f64,
    /// How lengths are written.
    pub notation: Notation,
}

impl Default for MapOptions {
    fn default() -> Self {
        Self {
            angle: None,
            width: 720.0,
            notation: Notation::default(),
        }
    }
}

/// Draws the map of one side of the model that it was computed from.
#[must_use]
pub fn wheelhouse_map(map: &SheetMap, model: &Model, options: &MapOptions) -> Scene {
    let entries = marks::legend_of(map, model);
    let mut groups = [
        "plot", "sheet", "overlap", "contours", "zones", "section", "words",
    ]
    .map(|name| Group::new(name, None));
    let view = match Layout::new(options, map, entries.len()) {
        Some(layout) => {
            let draft = Draft {
                map,
                model,
                options,
                field: Field {
                    rows: map.rows.len(),
                    values: map.nodes.iter().map(|node| node.gap.low).collect(),
                    places: places(map, &layout),
                },
                layout,
            };
            let [plot, sheet, overlap, contours, zones, section, words] = &mut groups;
            // Drawing into memory cannot fail; were plotters to refuse, the axes would stay empty.
            let _ = axes::draw(&draft, plot);
            let mut taken = marks::fixed(&draft, sheet, zones, words);
            lines::draw(&draft, overlap, contours, &mut taken);
            marks::legend(&draft, &entries, words);
            if let Some(angle) = options.angle {
                marks::rear_section(&draft.layout, angle, section);
            }
            layout.view
        }
        None => View {
            x: 0.0,
            y: 0.0,
            width: 280.0,
            height: 100.0,
        },
    };
    Scene {
        name: "map",
        title: map_finding(map, model, options.notation),
        description: "The wheelhouse unrolled: angle round the wheel across, behind on the left; distance along the \
                      sheet from the quarter lip upward; lines of equal least gap through travel."
            .to_owned(),
        view,
        groups: groups.into(),
        handles: Vec::new(),
    }
}

/// The section's line alone, as markup to be laid over a map that was drawn without an angle: it moves more often than
/// the map changes.
#[must_use]
pub fn map_section(options: &MapOptions, map: &SheetMap) -> String {
    let mut group = Group::new("section", None);
    if let (Some(layout), Some(angle)) = (Layout::new(options, map, 0), options.angle) {
        marks::rear_section(&layout, angle, &mut group);
    }
    group.markup()
}

/// What the map shows, in one sentence.
#[must_use]
pub fn map_finding(map: &SheetMap, model: &Model, notation: Notation) -> String {
    let side = map.side.word();
    let Some(index) = map.least() else {
        return format!("The {side} wheelhouse has no sheet to be unrolled.");
    };
    format!(
        "Of the {side} wheelhouse's sheet, the tire comes nearest to the {}",
        spot_words(map, model, index, notation)
    )
}

/// A spot of the map in words: its surface, where it is, its gap.
#[must_use]
pub fn spot_words(map: &SheetMap, model: &Model, index: usize, notation: Notation) -> String {
    let (column, row) = map.place(index);
    let (Some(node), Some(&angle), Some(found)) = (
        map.nodes.get(index),
        map.angles.get(column),
        map.rows.get(row),
    ) else {
        return String::new();
    };
    let verdict = verdict(node, model, found.surface);
    format!(
        "{}, {}: {}.",
        found.surface.label(),
        bearing(angle),
        gap_words(node.gap.low, verdict, notation)
    )
}

/// The node nearest to a point of the sheet; nothing outside the plot.
#[must_use]
pub fn map_spot(options: &MapOptions, map: &SheetMap, at: Vec2) -> Option<usize> {
    let layout = Layout::new(options, map, 0)?;
    let angle = layout.angle(at)?;
    let near = |a: f64, b: f64| a.total_cmp(&b);
    let column = (0..map.angles.len())
        .min_by(|&a, &b| near((map.angles[a] - angle).abs(), (map.angles[b] - angle).abs()))?;
    let away = |row: usize| {
        map.node(column, row).map_or(f64::INFINITY, |node| {
            (layout.at(angle, node.along).y - at.y).abs()
        })
    };
    let row = (0..map.rows.len()).min_by(|&a, &b| near(away(a), away(b)))?;
    Some(map.index(column, row))
}

/// Where a node is on the sheet.
#[must_use]
pub fn map_place(options: &MapOptions, map: &SheetMap, index: usize) -> Option<Vec2> {
    let layout = Layout::new(options, map, 0)?;
    let angle = *map.angles.get(map.place(index).0)?;
    Some(layout.at(angle, map.nodes.get(index)?.along))
}

/// What the parts of the drawing share.
struct Draft<'a> {
    map: &'a SheetMap,
    model: &'a Model,
    options: &'a MapOptions,
    layout: Layout,
    field: Field,
}

fn verdict(node: &Node, model: &Model, surface: geometry::body::Surface) -> Verdict {
    Verdict::of(node.gap.low, model.car.targets.through_travel(surface))
}

fn places(map: &SheetMap, layout: &Layout) -> Vec<Vec2> {
    let at = |(index, node): (usize, &Node)| {
        let angle = map.angles.get(map.place(index).0).copied().unwrap_or(0.0);
        layout.at(angle, node.along)
    };
    map.nodes.iter().enumerate().map(at).collect()
}
