//! The side view: one wheelhouse seen from outside the car, with the ring that tells the gap all round the wheel.

mod body;
mod frame;
mod key;
mod ring;
mod spots;
#[cfg(test)]
mod tests;
mod wheel;

use std::fmt::Write as _;

use geometry::body::SurfaceId;
use geometry::check::{Check, SurfaceCheck, Verdict};
use geometry::math;
use geometry::model::Model;
use geometry::sheet::Ring;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::units::Notation;

use crate::lettering::Lettering;
use crate::role::Role;
use crate::scene::{Anchor, Group, Key, Scene, Shape, View};
use crate::words::{bearing, gap_words};
use frame::Frame;

/// What a side view shows.
#[derive(Debug, Clone, Copy)]
pub struct SideOptions<'a> {
    /// Which side.
    pub side: Side,
    /// Angle of the rear view's section from straight up, radians, positive toward the front.
    pub angle: f64,
    /// The gap all round, if it is worked out; without it the ring is empty and says so.
    pub ring: Option<&'a Ring>,
    /// How wide the drawing is shown, CSS pixels: lettering keeps its size at that width.
    pub width: f64,
    /// How lengths are written.
    pub notation: Notation,
}

impl SideOptions<'_> {
    /// The side view of one side, its section straight up, without the ring.
    #[must_use]
    pub fn of(side: Side) -> Self {
        Self {
            side,
            angle: 0.0,
            ring: None,
            width: 720.0,
            notation: Notation::default(),
        }
    }
}

/// The side view of a model and the gaps found on it. Only draws: gaps are taken from `check` and the ring.
#[must_use]
pub fn side_view(model: &Model, check: &Check, options: &SideOptions) -> Scene {
    let found = &check.sides.get(options.side).surfaces;
    let frame = frame::frame(model, options, found.len());
    let draft = Draft {
        model,
        found,
        options,
        worst: check.sides.get(options.side).worst(),
        frame,
    };
    let groups = vec![
        wheel::ground(&draft),
        wheel::wheel(&draft),
        body::rail(&draft),
        body::stock(&draft),
        body::body(&draft),
        ring::ring(&draft),
        section(&draft),
        spots::spots(&draft),
        key::head(&draft),
        key::key(&draft),
    ];
    Scene {
        name: "side",
        title: title(&draft),
        description: description(&draft),
        view: draft.frame.view,
        groups,
        handles: Vec::new(),
    }
}

/// The angle round the wheel of a point of the sheet, radians from straight up, positive toward the front.
#[must_use]
pub fn side_angle(side: Side, at: Vec2) -> f64 {
    math::atan2(ahead(side) * at.x, -at.y)
}

/// Where on the sheet the section's line can be taken hold of.
#[must_use]
pub fn side_handle(model: &Model, options: &SideOptions) -> Vec2 {
    let frame = frame::frame(model, options, 0);
    polar(options.side, options.angle, frame.section_end())
}

/// +1 where forward is to the right on the sheet.
fn ahead(side: Side) -> f64 {
    -side.sign()
}

/// A point `(forward, up)` on the sheet.
fn on_sheet(side: Side, p: Vec2) -> Vec2 {
    vec2(ahead(side) * p.x, -p.y)
}

/// The point at an angle round the measured axle's line and a distance from it, on the sheet.
fn polar(side: Side, angle: f64, radius: f64) -> Vec2 {
    on_sheet(
        side,
        vec2(radius * math::sin(angle), radius * math::cos(angle)),
    )
}

/// What the parts of the drawing share.
struct Draft<'a> {
    model: &'a Model,
    found: &'a [SurfaceCheck],
    options: &'a SideOptions<'a>,
    worst: Option<&'a SurfaceCheck>,
    frame: Frame,
}

impl Draft<'_> {
    fn side(&self) -> Side {
        self.options.side
    }

    fn lettering(&self) -> Lettering {
        self.frame.lettering
    }

    fn px(&self, pixels: f64) -> f64 {
        self.frame.lettering.px(pixels)
    }

    fn polar(&self, angle: f64, radius: f64) -> Vec2 {
        polar(self.side(), angle, radius)
    }

    fn key(&self, surface: SurfaceId) -> Key {
        Key {
            side: self.side(),
            surface,
            verdict: self
                .found
                .iter()
                .find(|found| found.id == surface)
                .map_or(Verdict::Clears, |found| found.verdict),
        }
    }

    /// An arc about the measured axle's line, from one angle to another, on the sheet.
    fn arc(&self, radius: f64, [from, to]: [f64; 2]) -> Vec<Vec2> {
        const STEP: f64 = 0.035;
        let pieces = ((to - from).abs() / STEP).ceil().clamp(1.0, 200.0);
        let mut points = Vec::new();
        let mut k = 0.0;
        while k <= pieces {
            points.push(self.polar(from + (to - from) * k / pieces, radius));
            k += 1.0;
        }
        points
    }

    fn text(&self, role: Role, at: Vec2, anchor: Anchor, text: String) -> (Role, Shape) {
        let size = if role == Role::Text {
            self.lettering().value()
        } else {
            self.lettering().note()
        };
        (
            role,
            Shape::Text {
                at,
                anchor,
                size,
                text,
            },
        )
    }
}

/// Where the gap through travel of a surface is attained, in words.
fn where_round(found: &SurfaceCheck) -> String {
    let spot = found.travel.witness.at_body;
    bearing(math::atan2(spot.x, spot.z))
}

/// The line of the rear view's section.
fn section(draft: &Draft) -> Group {
    let mut group = Group::new("section", Some("The section that the rear view shows"));
    let angle = draft.options.angle;
    let end = draft.polar(angle, draft.frame.section_end());
    group.add(Role::SectionLine, Shape::line([vec2(0.0, 0.0), end]));
    group
}

fn worst_words(draft: &Draft) -> Option<String> {
    let worst = draft.worst?;
    let verdict = Verdict::of(worst.travel.low, worst.travel_target);
    let gap = gap_words(worst.travel.low, verdict, draft.options.notation);
    Some(format!("{}, {}, {gap}", worst.name, where_round(worst)))
}

fn title(draft: &Draft) -> String {
    let side = draft.side().word();
    match worst_words(draft) {
        Some(words) => format!(
            "Side view of the {side} wheelhouse; what stops the tire first, through travel: {words}."
        ),
        None => format!("Side view of the {side} wheelhouse."),
    }
}

fn description(draft: &Draft) -> String {
    let (side, way) = match draft.side() {
        Side::Left => ("left", "left"),
        Side::Right => ("right", "right"),
    };
    let mut out = format!(
        "Seen from the car's {side}; the front is to the {way}. The section of the rear view is {}.",
        bearing(draft.options.angle)
    );
    for found in draft.found {
        let verdict = Verdict::of(found.travel.low, found.travel_target);
        let gap = gap_words(found.travel.low, verdict, draft.options.notation);
        let _ = write!(out, " {}: {gap}, {}.", found.name, where_round(found));
    }
    out
}

/// The shown part of the sheet.
fn edges(view: View) -> [f64; 2] {
    [view.x, view.x + view.width]
}
