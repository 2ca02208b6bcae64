//! The fill strip as one picture: the piece of sheet laid flat, without what only the shop needs.

use geometry::metal::{Plugs, Strip, gauge};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::units::{Notation, format_length};

use super::phrases::weight;
use crate::lettering::Lettering;
use crate::role::Role;
use crate::scene::{Anchor, Group, Scene, Shape, View};

/// Room round the piece for lettering, pixels: beside it for the longer of its two words, which would meet the line above
/// it on a phone.
const AROUND: f64 = 42.0;

/// The fill strip of one side laid flat, shown `width` CSS pixels wide; nothing where no seam is moved.
#[must_use]
pub fn piece(model: &Model, side: Side, width: f64, notation: Notation) -> Option<Scene> {
    let strip = Strip::of(model, side)?;
    let pattern = strip.pattern(model.car.metal.lap);
    let outline = pattern.outline();
    let (low, high) = bounds(&outline);
    let across = (width - 2.0 * AROUND).max(width / 2.0);
    let lettering = Lettering {
        pixel: (high.x - low.x) / across,
    };
    let margin = lettering.px(AROUND);
    // Outboard is up, as the strip lies over the wheel seen from outside.
    let at = |p: &Vec2| vec2(p.x - low.x, high.y - p.y);
    let mut sheet = Group::new("sheet", Some("The piece of sheet, laid flat"));
    sheet.add(Role::Section, Shape::Area(outline.iter().map(at).collect()));
    let mut closed: Vec<Vec2> = outline.iter().map(at).collect();
    closed.extend(closed.first().copied());
    sheet.add(Role::Cut, Shape::line(closed));
    let mut seams = Group::new("seams", Some("The old seam and the new one"));
    let [old, new] = pattern.edges();
    seams.add(
        Role::Stock,
        Shape::line(old.iter().map(at).collect::<Vec<_>>()),
    );
    seams.add(
        Role::Moved,
        Shape::line(new.iter().map(at).collect::<Vec<_>>()),
    );
    let say = |length: f64| format_length(length, notation);
    let (length, height) = (high.x - low.x, high.y - low.y);
    let mut letters = Group::new("letters", None);
    let mut write = |x: f64, y: f64, anchor: Anchor, text: String| {
        letters.add(
            Role::Text,
            Shape::Text {
                at: vec2(x, y),
                anchor,
                size: lettering.value(),
                text,
            },
        );
    };
    let level = height / 2.0 + lettering.px(4.0);
    let beside = lettering.px(5.0);
    write(-beside, level, Anchor::End, "rear".to_owned());
    write(length + beside, level, Anchor::Start, "front".to_owned());
    write(
        length / 2.0,
        -lettering.px(10.0),
        Anchor::Middle,
        format!("{} long, and the spare ends", say(strip.length())),
    );
    write(
        length / 2.0,
        height + lettering.px(20.0),
        Anchor::Middle,
        format!("{} from seam to seam, and the laps", say(strip.width)),
    );
    Some(Scene {
        name: "piece",
        title: format!(
            "The {} fill strip laid flat: {} long, {} from the old seam to the new one.",
            side.word(),
            say(strip.length()),
            say(strip.width)
        ),
        description: String::new(),
        view: View {
            x: -margin,
            y: -margin,
            width: length + 2.0 * margin,
            height: height + 2.0 * margin,
        },
        groups: vec![sheet, seams, letters],
        handles: Vec::new(),
    })
}

/// The strip's numbers in a sentence: the one that follows the seam.
#[must_use]
pub fn piece_words(model: &Model, side: Side, notation: Notation) -> String {
    let spec = &model.car.metal;
    let strip = Strip::of(model, side).zip(gauge::thickness(spec.gauge));
    let Some((strip, thickness)) = strip else {
        return "The seam stays where it is: there is no strip to make.".to_owned();
    };
    let say = |length: f64| format_length(length, notation);
    let plugs = Plugs::of(spec, thickness);
    format!(
        "The {} strip is {} long and {} wide from seam to seam, weighs {} with its laps and spare ends, and takes {} plug welds on each edge.",
        side.word(),
        say(strip.length()),
        say(strip.width),
        weight(
            gauge::weight(strip.pattern(spec.lap).area(), thickness),
            notation
        ),
        plugs.count(strip.edge_length())
    )
}

fn bounds(points: &[Vec2]) -> (Vec2, Vec2) {
    let mut low = vec2(f64::INFINITY, f64::INFINITY);
    let mut high = vec2(f64::NEG_INFINITY, f64::NEG_INFINITY);
    for p in points {
        low = vec2(low.x.min(p.x), low.y.min(p.y));
        high = vec2(high.x.max(p.x), high.y.max(p.y));
    }
    (low, high)
}
