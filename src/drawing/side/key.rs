//! The words round the side view: which way it is seen, the worst spot, and the key to letters and lines.

use geometry::check::Verdict;
use geometry::side::Side;
use geometry::space::vec2;

use super::frame::{ROW, UNDER_GROUND};
use super::{Draft, ahead, edges, where_round, worst_words};
use crate::dimension::head as head_of;
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};
use crate::words::{bearing, gap_words};

/// The letter of a surface, by its place in the gap list.
pub fn letter(index: usize) -> String {
    let letter = u8::try_from(index % 26).map_or('?', |k| char::from(b'A' + k));
    let round = index / 26;
    if round == 0 {
        letter.to_string()
    } else {
        format!("{letter}{round}")
    }
}

/// The head: which side it is, where the front is, which section the rear view shows, and the worst spot.
pub fn head(draft: &Draft) -> Group {
    let mut group = Group::new("head", None);
    let [left, right] = edges(draft.frame.view);
    let view = draft.frame.view;
    let first = view.y + draft.px(15.0);
    // The front is where the picture is to be read from: its arrow stands in that corner.
    let forward = ahead(draft.side());
    let (front, rear, front_anchor, rear_anchor) = if forward > 0.0 {
        (right, left, Anchor::End, Anchor::Start)
    } else {
        (left, right, Anchor::Start, Anchor::End)
    };
    let tip = vec2(front - forward * draft.px(8.0), first - draft.px(4.0));
    let tail = tip - vec2(forward * draft.px(34.0), 0.0);
    group.add(Role::Dimension, Shape::line([tail, tip]));
    group.add(
        Role::Arrow,
        head_of(tip, vec2(forward, 0.0), draft.lettering()),
    );
    let at = vec2(tail.x - forward * draft.px(5.0), first);
    let (role, text) = draft.text(Role::Note, at, front_anchor, "front".to_owned());
    group.add(role, text);

    let seen = match draft.side() {
        Side::Left => "left side, seen from the car's left",
        Side::Right => "right side, seen from the car's right",
    };
    let at = vec2(rear + forward * draft.px(8.0), first);
    let (role, text) = draft.text(Role::Note, at, rear_anchor, seen.to_owned());
    group.add(role, text);

    let step = draft.px(18.0);
    if let Some(words) = worst_words(draft) {
        let at = vec2(rear + forward * draft.px(8.0), first + step);
        let clears = draft
            .worst
            .is_some_and(|worst| worst.verdict == Verdict::Clears);
        let text = format!("{}: {words}", if clears { "nearest" } else { "worst" });
        let (role, text) = draft.text(Role::Text, at, rear_anchor, text);
        group.add(role, text);
    }
    let at = vec2(rear + forward * draft.px(8.0), first + 2.0 * step);
    let stroke = at - vec2(0.0, draft.px(4.0));
    group.add(
        Role::SectionLine,
        Shape::line([stroke, stroke + vec2(forward * draft.px(26.0), 0.0)]),
    );
    let at = at + vec2(forward * draft.px(31.0), 0.0);
    let text = format!("rear view: {}", bearing(draft.options.angle));
    let (role, text) = draft.text(Role::Note, at, rear_anchor, text);
    group.add(role, text);
    group
}

/// The key: each letter's surface and gap, and what the lines are.
pub fn key(draft: &Draft) -> Group {
    let mut group = Group::new("key", Some("Key to the letters and lines"));
    let [left, right] = edges(draft.frame.view);
    let top = draft.frame.ground + draft.px(UNDER_GROUND + ROW * 0.75);
    let columns = draft.frame.columns.max(1);
    let rows = draft.found.len().div_ceil(columns).max(1);
    let column = (right - left - draft.px(16.0)) / columns as f64;
    for (index, found) in draft.found.iter().enumerate() {
        let at = vec2(
            left + draft.px(8.0) + column * (index / rows) as f64,
            top + draft.px(ROW) * (index % rows) as f64,
        );
        let is_worst = draft.worst.is_some_and(|worst| worst.id == found.id);
        let role = if is_worst { Role::Text } else { Role::Note };
        let size = if is_worst {
            draft.lettering().value()
        } else {
            draft.lettering().note()
        };
        let verdict = Verdict::of(found.travel.low, found.travel_target);
        let gap = gap_words(found.travel.low, verdict, draft.options.notation);
        let full = format!("{}, {}: {gap}", found.name, where_round(found));
        let words = if width(&full, size) < column - draft.px(24.0) {
            full
        } else {
            format!("{}: {gap}", found.name)
        };
        let key = draft.key(found.id);
        for (from, text) in [(0.0, letter(index)), (16.0, words)] {
            let shape = Shape::Text {
                at: at + vec2(draft.px(from), 0.0),
                anchor: Anchor::Start,
                size,
                text,
            };
            group.add_keyed(role, shape, key);
        }
    }
    legend(draft, top + draft.px(ROW) * rows as f64, &mut group);
    group
}

/// What each line is, with a piece of it.
fn legend(draft: &Draft, top: f64, group: &mut Group) {
    let [left, right] = edges(draft.frame.view);
    let mut entries = vec![
        (Role::Cut, "wheel opening, roof"),
        (Role::Stock, "stock seam"),
        (Role::Moved, "moved seam"),
        (Role::Hidden, "frame rail"),
        (Role::Swept, "full bump, droop"),
    ];
    let is_moved = draft
        .model
        .wheelhouses
        .get(draft.side())
        .stations
        .iter()
        .any(|station| station.fill.is_some());
    if !is_moved {
        entries.retain(|(role, _)| *role != Role::Moved);
    }
    let mut at = vec2(left + draft.px(8.0), top);
    for (role, text) in entries {
        let long = draft.px(26.0) + width(text, draft.lettering().note());
        if at.x + long > right {
            at = vec2(left + draft.px(8.0), at.y + draft.px(ROW));
        }
        let middle = at - vec2(0.0, draft.px(4.0));
        group.add(
            role,
            Shape::line([middle, middle + vec2(draft.px(22.0), 0.0)]),
        );
        let (role, shape) = draft.text(
            Role::Note,
            at + vec2(draft.px(26.0), 0.0),
            Anchor::Start,
            text.to_owned(),
        );
        group.add(role, shape);
        at.x += long + draft.px(14.0);
    }
}
