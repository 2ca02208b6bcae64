//! What is marked on the map besides the contours: surfaces, seams, no-cut zones, the section, the worst spot; and their
//! words.

use geometry::body::NoCutZone;
use geometry::model::Model;
use geometry::sheet::SheetMap;
use geometry::space::{Vec2, vec2};

use super::Draft;
use super::layout::{ANGLES, Layout, ROW};
use crate::hatch::Hatch;
use crate::label::{Wish, place};
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};
use crate::words::bearing;

/// Size of words, pixels.
const LETTERS: f64 = 11.5;
/// Between the plot and the names beside it, pixels.
const LEADER: f64 = 14.0;
/// Two seams nearer than this are one, mm.
const LEAST_MOVE: f64 = 0.05;

/// Draws all that stands still; gives the places where no other word may stand.
pub fn fixed(
    draft: &Draft,
    sheet: &mut Group,
    zones: &mut Group,
    words: &mut Group,
) -> Vec<[f64; 4]> {
    let mut taken = Vec::new();
    surfaces(draft, sheet, words);
    for zone in &draft.model.car.no_cut {
        if zone.side == draft.map.side {
            no_cut(draft, zone, zones, &mut taken);
        }
    }
    worst(draft, words, &mut taken);
    taken
}

/// The borders of the surfaces and the seams, with the names of what lies between.
fn surfaces(draft: &Draft, sheet: &mut Group, words: &mut Group) {
    let Some(last) = draft.map.angles.len().checked_sub(1) else {
        return;
    };
    let right = draft.layout.plot[2];
    let mut names: Vec<(f64, &str)> = Vec::new();
    let end = |row: usize| {
        draft
            .map
            .node(last, row)
            .map(|node| draft.layout.at(draft.layout.angles[1], node.along).y)
    };
    for (surface, from, to) in draft.map.surfaces() {
        let border: Vec<Vec2> = (0..draft.map.angles.len())
            .filter_map(|column| draft.field.places.get(draft.map.index(column, to)).copied())
            .collect();
        sheet.add(Role::Border, Shape::line(border));
        if let (Some(a), Some(b)) = (end(from), end(to)) {
            names.push((f64::midpoint(a, b), surface.label()));
        }
    }
    let seam = |which: usize| -> Vec<Vec2> {
        let seams = draft.map.angles.iter().zip(&draft.map.seams);
        seams
            .map(|(&angle, seams)| draft.layout.at(angle, seams[which]))
            .collect()
    };
    sheet.add(Role::Stock, Shape::line(seam(0)));
    if is_moved(draft.map) {
        sheet.add(Role::Moved, Shape::line(seam(1)));
    }
    let wishes: Vec<Wish> = names
        .iter()
        .map(|&(middle, _)| Wish {
            middle,
            height: 14.0,
        })
        .collect();
    let places = place(
        &wishes,
        draft.layout.plot[1] - 7.0,
        draft.layout.plot[3] + 7.0,
    );
    for (&(middle, name), at) in names.iter().zip(places) {
        words.add(
            Role::Dimension,
            Shape::line([vec2(right + 2.0, middle), vec2(right + LEADER - 3.0, at)]),
        );
        note(
            words,
            vec2(right + LEADER, at + 0.36 * LETTERS),
            Anchor::Start,
            name.to_owned(),
        );
    }
}

fn is_moved(map: &SheetMap) -> bool {
    map.seams
        .iter()
        .any(|[stock, moved]| moved - stock > LEAST_MOVE)
}

/// A patch that may not be cut: told along the stock sheet from its seam; what lies inboard has moved with the tub.
fn no_cut(draft: &Draft, zone: &NoCutZone, group: &mut Group, taken: &mut Vec<[f64; 4]>) {
    let [first, last] = draft.layout.angles;
    let (from, to) = (zone.angles[0].max(first), zone.angles[1].min(last));
    if from >= to {
        return;
    }
    let mut angles = vec![from];
    angles.extend(
        draft
            .map
            .angles
            .iter()
            .copied()
            .filter(|&angle| angle > from && angle < to),
    );
    angles.push(to);
    let edge = |along: f64| -> Vec<Vec2> {
        angles
            .iter()
            .map(|&angle| {
                let [stock, moved] = seams_at(draft.map, angle);
                let from_lip = along + if along > 0.0 { moved } else { stock };
                draft
                    .layout
                    .at(angle, from_lip.clamp(0.0, draft.layout.along))
            })
            .collect()
    };
    let mut area = edge(zone.along[0]);
    let mut back = edge(zone.along[1]);
    back.reverse();
    area.append(&mut back);
    let hatch = Hatch {
        angle: -std::f64::consts::FRAC_PI_4,
        spacing: 9.0,
    };
    group.add(Role::Hatch, Shape::Lines(hatch.inside(&area)));
    let middle = area.iter().fold(vec2(0.0, 0.0), |sum, &p| sum + p) * (1.0 / area.len() as f64);
    group.add(Role::NoCut, Shape::Area(area));
    let text = format!("no cut: {}", zone.name);
    let half = width(&text, LETTERS) / 2.0;
    let [left, _, right, _] = draft.layout.plot;
    let x = middle.x.clamp(left + half, (right - half).max(left + half));
    let spot = [x - half, middle.y - 8.0, x + half, middle.y + 8.0];
    let apart = |other: &[f64; 4]| {
        spot[2] <= other[0] || other[2] <= spot[0] || spot[3] <= other[1] || other[3] <= spot[1]
    };
    if 2.0 * half < right - left && taken.iter().all(apart) {
        taken.push(spot);
        note(
            group,
            vec2(x, middle.y + 0.36 * LETTERS),
            Anchor::Middle,
            text,
        );
    }
}

/// The seams at any angle, between two columns.
fn seams_at(map: &SheetMap, angle: f64) -> [f64; 2] {
    let after = map.angles.partition_point(|&column| column < angle);
    let seams = |column: usize| map.seams.get(column).copied();
    let before = after.saturating_sub(1);
    match (seams(before), seams(after)) {
        (Some(a), Some(b)) if after > before => {
            let (from, to) = (map.angles[before], map.angles[after]);
            let share = (angle - from) / (to - from);
            [0, 1].map(|k| a[k] + (b[k] - a[k]) * share)
        }
        (Some(a), _) => a,
        _ => [0.0; 2],
    }
}

/// The rear view's section as a line with its words.
pub fn rear_section(layout: &Layout, angle: f64, group: &mut Group) {
    let [first, last] = layout.angles;
    if !(first..=last).contains(&angle) {
        return;
    }
    let [_, top, _, bottom] = layout.plot;
    let x = layout.at(angle, 0.0).x;
    group.add(
        Role::SectionLine,
        Shape::line([vec2(x, top - 6.0), vec2(x, bottom)]),
    );
    let text = format!("rear view: {}", bearing(angle));
    let edge = width(&text, LETTERS) / 2.0 + 4.0;
    let x = x.max(edge).min(layout.view.width - edge);
    note(group, vec2(x, top - 11.0), Anchor::Middle, text);
}

/// The spot where the tire comes nearest.
fn worst(draft: &Draft, group: &mut Group, taken: &mut Vec<[f64; 4]>) {
    let Some(&at) = draft
        .map
        .least()
        .and_then(|index| draft.field.places.get(index))
    else {
        return;
    };
    let [left, top, right, _] = draft.layout.plot;
    for (role, radius) in [(Role::Balloon, 7.0), (Role::Spot, 3.5)] {
        group.add(role, Shape::Circle { center: at, radius });
    }
    let word = if draft
        .field
        .values
        .iter()
        .all(|&gap| gap >= draft.model.car.targets.travel)
    {
        "nearest"
    } else {
        "worst"
    };
    let long = width(word, LETTERS) + 12.0;
    let (x, anchor) = if at.x + long < right {
        (at.x + 11.0, Anchor::Start)
    } else {
        (at.x - 11.0, Anchor::End)
    };
    let y = (at.y + 0.36 * LETTERS).max(top + LETTERS);
    note(group, vec2(x, y), anchor, word.to_owned());
    let (from, to) = if anchor == Anchor::Start {
        (at.x - 8.0, at.x + long)
    } else {
        (at.x - long, at.x + 8.0)
    };
    taken.push([from.max(left), at.y - 9.0, to, at.y + 9.0]);
}

/// What the legend explains on this map.
pub fn legend_of(map: &SheetMap, model: &Model) -> Vec<(Role, String)> {
    let mut entries = vec![
        (Role::Zero, "touching"),
        (Role::Target, "gap asked for"),
        (Role::Overlap, "tire overlaps sheet"),
        (Role::Stock, "stock seam"),
    ];
    if is_moved(map) {
        entries.push((Role::Moved, "moved seam"));
    }
    if model.car.no_cut.iter().any(|zone| zone.side == map.side) {
        entries.push((Role::NoCut, "must not be cut"));
    }
    entries
        .into_iter()
        .map(|(role, text)| (role, text.to_owned()))
        .collect()
}

/// The head, and under the plot what each line is.
pub fn legend(draft: &Draft, entries: &[(Role, String)], group: &mut Group) {
    let view = draft.layout.view;
    let head = format!(
        "{} wheelhouse, unrolled from the lip inward",
        draft.map.side.word()
    );
    note(group, vec2(8.0, 13.0), Anchor::Start, head);
    let [columns, rows] = draft.layout.legend;
    let column = (view.width - 16.0) / columns.max(1) as f64;
    for (index, (role, text)) in entries.iter().enumerate() {
        let at = vec2(
            8.0 + column * (index / rows.max(1)) as f64,
            draft.layout.plot[3] + ANGLES + ROW * (index % rows.max(1)) as f64 + 13.0,
        );
        let box_ = [
            vec2(0.0, -10.0),
            vec2(22.0, -10.0),
            vec2(22.0, 1.0),
            vec2(0.0, 1.0),
        ]
        .map(|corner| at + corner);
        match role {
            Role::Overlap => {
                let hatch = Hatch {
                    angle: std::f64::consts::FRAC_PI_4,
                    spacing: 5.0,
                };
                group.add(*role, Shape::Lines(hatch.inside(&box_)));
            }
            Role::NoCut => group.add(*role, Shape::Area(box_.to_vec())),
            _ => group.add(
                *role,
                Shape::line([at - vec2(0.0, 4.0), at + vec2(22.0, -4.0)]),
            ),
        }
        note(group, at + vec2(27.0, 0.0), Anchor::Start, text.clone());
    }
}

fn note(group: &mut Group, at: Vec2, anchor: Anchor, text: String) {
    let shape = Shape::Text {
        at,
        anchor,
        size: LETTERS,
        text,
    };
    group.add(Role::Note, shape);
}
