//! The rear view: both sides, true to scale, as one sees them standing behind the car.

mod body;
mod clash;
mod frame;
mod gaps;
mod handles;
mod parts;
mod sizes;
#[cfg(test)]
pub(crate) mod tests;
mod wheels;

use std::fmt::Write as _;

use geometry::body::{Station, SurfaceId};
use geometry::check::{Check, Verdict};
use geometry::gap::Gap;
use geometry::math;
use geometry::model::{EnvelopeSection, Model, WheelSection};
use geometry::side::{Side, Sides};
use geometry::space::{Vec2, vec2};
use geometry::travel::Pose;
use geometry::units::Notation;

use crate::lettering::Lettering;
use crate::scene::{Key, Scene};
use crate::words::{bearing, gap_words};

pub(crate) use body::seen_obstacle;

/// Which sides are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// Both.
    Both,
    /// One, as large as the width allows: for a phone.
    One(Side),
}

/// Which dimensions are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimensions {
    /// None.
    None,
    /// None; the parts by their names instead.
    Parts,
    /// The gaps that matter.
    Gaps,
    /// The gaps, and the sizes of axle, track and seam move.
    All,
}

/// What a rear view shows.
#[derive(Debug, Clone, Copy)]
pub struct RearOptions<'a> {
    /// Where the wheels stand.
    pub pose: Pose,
    /// Angle of the section from straight up, radians, positive toward the front.
    pub angle: f64,
    /// Which sides.
    pub shown: Shown,
    /// How wide the drawing is shown, CSS pixels: lettering keeps its size at that width.
    pub width: f64,
    /// How lengths are written.
    pub notation: Notation,
    /// Which dimensions.
    pub dimensions: Dimensions,
    /// How many gaps a side are dimensioned at most, the worst first.
    pub gaps: usize,
    /// All the room that the tires take through travel, from [`Model::envelope_section`], to be drawn. It
    /// is the dearest part of the picture and stays as it is while the body changes: keep it.
    pub envelope: Option<&'a Sides<EnvelopeSection>>,
    /// Whether to draw the wheelhouse as the factory made it, where it changed.
    pub stock: bool,
    /// The gaps in [`RearOptions::pose`], when they are what is to be dimensioned, in place of those of
    /// the check.
    pub at_pose: Option<&'a Sides<Vec<(SurfaceId, Gap)>>>,
}

impl Default for RearOptions<'_> {
    fn default() -> Self {
        Self {
            pose: Pose::RIDE,
            angle: 0.0,
            shown: Shown::Both,
            width: 1100.0,
            notation: Notation::default(),
            dimensions: Dimensions::All,
            gaps: 3,
            envelope: None,
            stock: true,
            at_pose: None,
        }
    }
}

/// Both sides shown at once have room for lettering from this width on, pixels.
const ROOMY: f64 = 640.0;

/// Below this a section is lettered as straight up, radians: half a tenth of a degree.
const STRAIGHT_UP: f64 = 9e-4;

/// The rear view of a model and the gaps found on it. Only draws: all gaps are taken from `check`.
#[must_use]
pub fn rear_view(model: &Model, check: &Check, options: &RearOptions) -> Scene {
    let view = frame::frame(model, options);
    let angle = if options.angle.is_finite() {
        options.angle
    } else {
        0.0
    };
    let draft = Draft {
        model,
        check,
        options,
        angle,
        sections: Sides::each(|side| {
            model
                .section(side, angle)
                .unwrap_or_else(|| (no_sheet(angle), no_sheet(angle)))
        }),
        view: view.view,
        lettering: view.lettering,
    };
    let wheels = Sides::each(|side| model.wheel_section(side, options.pose, angle));
    let groups = vec![
        body::stock(&draft),
        wheels::envelope(&draft),
        wheels::ground(&draft, &wheels),
        body::obstacles(&draft),
        wheels::wheels(&draft, &wheels),
        body::rails(&draft),
        body::body(&draft),
        clash::overlaps(&draft, &wheels),
        sizes::sizes(&draft, &wheels),
        gaps::gaps(&draft),
    ];
    let groups = groups.into_iter().chain(parts::parts(&draft)).collect();
    Scene {
        name: "rear",
        title: title(check, angle),
        description: description(&draft),
        view: view.view,
        groups,
        handles: handles::handles(&draft, &wheels),
    }
}

/// What the parts of the drawing share.
struct Draft<'a> {
    model: &'a Model,
    check: &'a Check,
    options: &'a RearOptions<'a>,
    /// Angle of the section from straight up, radians.
    angle: f64,
    /// The sheet metal in the section, stock and moved; without points where the stations do not reach.
    sections: Sides<(Station, Station)>,
    view: crate::scene::View,
    lettering: Lettering,
}

impl Draft<'_> {
    fn shows(&self, side: Side) -> bool {
        match self.options.shown {
            Shown::Both => true,
            Shown::One(one) => one == side,
        }
    }

    /// The wheelhouse as the factory made it, in the section.
    fn stock(&self, side: Side) -> &Station {
        &self.sections.get(side).0
    }

    /// The wheelhouse as it is to be, in the section.
    fn moved(&self, side: Side) -> &Station {
        &self.sections.get(side).1
    }

    /// Whether the section is swung away from straight up.
    fn is_swung(&self) -> bool {
        self.angle.abs() > STRAIGHT_UP
    }

    /// Whether the sides have room for lettering between them. Where they do not, hatching alone tells what
    /// is the matter: a picture that named only the gaps with room for a name would mislead.
    fn is_roomy(&self) -> bool {
        self.options.shown != Shown::Both || self.view.width >= self.lettering.px(ROOMY)
    }

    /// The sides shown, left first.
    fn sides(&self) -> impl Iterator<Item = Side> {
        Side::BOTH.into_iter().filter(|&side| self.shows(side))
    }

    /// One side's envelope, if it is to be drawn.
    fn envelope(&self, side: Side) -> Option<&EnvelopeSection> {
        self.options.envelope.map(|envelope| envelope.get(side))
    }

    /// The key of a surface, with the verdict of the check; one that was not checked clears.
    fn key(&self, side: Side, surface: SurfaceId) -> Key {
        let verdict = self
            .check
            .sides
            .get(side)
            .surfaces
            .iter()
            .find(|found| found.id == surface)
            .map_or(Verdict::Clears, |found| found.verdict);
        Key {
            side,
            surface,
            verdict,
        }
    }
}

/// The section where there is no sheet.
fn no_sheet(angle: f64) -> Station {
    Station {
        angle,
        points: Vec::new(),
        spans: Vec::new(),
        seam: 0,
        fill: None,
    }
}

/// Which section it is: `35° behind straight up`.
fn which(angle: f64) -> String {
    if angle.abs() <= STRAIGHT_UP {
        "straight up".to_owned()
    } else {
        format!("{} straight up", bearing(angle))
    }
}

/// A point of the section, `(left, along)`, on the sheet.
fn on_sheet(left_up: Vec2) -> Vec2 {
    vec2(-left_up.x, -left_up.y)
}

/// A point of one side, `(out, up)`, on the sheet.
pub(crate) fn side_on_sheet(side: Side, out_up: Vec2) -> Vec2 {
    on_sheet(vec2(side.sign() * out_up.x, out_up.y))
}

fn all_on_sheet(points: &[Vec2]) -> Vec<Vec2> {
    points.iter().map(|&point| on_sheet(point)).collect()
}

pub(crate) fn side_all_on_sheet(side: Side, points: &[Vec2]) -> Vec<Vec2> {
    points
        .iter()
        .map(|&point| side_on_sheet(side, point))
        .collect()
}

/// The tire's and the wheel's outlines that can meet metal.
fn solids(wheel: &WheelSection) -> [&Vec<Vec2>; 3] {
    [&wheel.tire_top, &wheel.tire_bottom, &wheel.wheel]
}

fn title(check: &Check, angle: f64) -> String {
    let worst = check.worst();
    let view = if angle.abs() <= STRAIGHT_UP {
        "Rear view".to_owned()
    } else {
        format!("Rear view, section {}", which(angle))
    };
    match worst {
        Some((side, surface)) if surface.verdict == Verdict::Clears => {
            format!(
                "{view}: the tires clear everything; nearest to its target is the {} {}.",
                side.word(),
                surface.name
            )
        }
        Some((side, surface)) => {
            let verb = if surface.verdict == Verdict::Hits {
                "hits"
            } else {
                "is tight at"
            };
            format!(
                "{view}: the {} tire {verb} the {}.",
                side.word(),
                surface.name
            )
        }
        None => format!("{view}."),
    }
}

fn description(draft: &Draft) -> String {
    let mut out = if draft.is_swung() {
        format!(
            "Section through the axle's line, {}, seen from behind; the car's left side is on the left.",
            which(draft.angle)
        )
    } else {
        String::from(
            "Section through the axle, seen from behind; the car's left side is on the left.",
        )
    };
    for side in draft.sides() {
        for surface in &draft.check.sides.get(side).surfaces {
            let gap = gap_words(
                surface.travel.low,
                Verdict::of(surface.travel.low, surface.travel_target),
                draft.options.notation,
            );
            let side = capital(side.word());
            let spot = surface.travel.witness.at_body;
            let place = bearing(math::atan2(spot.x, spot.z));
            let _ = write!(
                out,
                " {side}, {}: {gap} through travel, {place}.",
                surface.name
            );
        }
    }
    out
}

pub(crate) fn capital(word: &str) -> String {
    let mut word = word.to_owned();
    // The words are ours; tables of every alphabet's capitals would weigh on the page.
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    word
}
