//! The gaps that matter, dimensioned where they are attained, with labels that keep clear of each other.

use geometry::body::{Surface, SurfaceId};
use geometry::check::Verdict;
use geometry::gap::{Gap, Witness};
use geometry::math;
use geometry::order;
use geometry::side::Side;
use geometry::space::{Vec2, Vec3, vec2};
use geometry::travel::Pose;

use super::{Dimensions, Draft, on_sheet, sizes};
use crate::dimension::{LIFT, arrows};
use crate::label::{Wish, place};
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Key, Shape};
use crate::words::{bearing, gap_words};

/// Height of a label with its two lines, pixels.
const LABEL: f64 = 36.0;
/// From the base line of a label's value to that of the name above it, pixels.
const LINE: f64 = 15.0;
/// Clear of a rail and its hatching, pixels.
const BESIDE_RAIL: f64 = 44.0;
/// Clear of the edges of the view, pixels.
const EDGE: f64 = 6.0;
/// Clear of the roof and the arrows that stand on it, pixels.
const ABOVE_ROOF: f64 = 24.0;
/// How much further in a label of the outer column begins than the one above it, pixels, so that the
/// leader of that one passes by.
const INDENT: f64 = 7.0;
/// Further round the wheel than this, radians, a gap says where it is.
const AROUND: f64 = 0.05;

/// The gaps that matter, if they are asked for.
pub fn gaps(draft: &Draft) -> Group {
    let mut group = Group::new("gaps", Some("The gaps that matter, dimensioned"));
    let is_asked = matches!(draft.options.dimensions, Dimensions::Gaps | Dimensions::All);
    if is_asked && draft.is_roomy() {
        for side in draft.sides() {
            let marks = marks(draft, side);
            for (column, is_outer) in [(outer(draft, side), true), (inner(draft, side), false)] {
                let marks: Vec<&Mark> = marks
                    .iter()
                    .filter(|mark| mark.is_outer() == is_outer)
                    .collect();
                label(draft, &column, &marks, &mut group);
            }
        }
    }
    group
}

/// One gap to be dimensioned.
struct Mark {
    key: Key,
    name: String,
    value: String,
    reserve: f64,
    /// On the sheet: the end at the tire and the end at the metal.
    ends: [Vec2; 2],
}

impl Mark {
    fn is_outer(&self) -> bool {
        matches!(
            self.key.surface.surface,
            Surface::QuarterLip | Surface::OuterHalf
        )
    }
}

/// The gaps of one side that matter, the worst first.
fn marks(draft: &Draft, side: Side) -> Vec<Mark> {
    let targets = &draft.model.car.targets;
    let mut marks: Vec<Mark> = if let Some(found) = draft.options.at_pose {
        let gaps = found.get(side).iter();
        gaps.map(|(id, gap)| {
            let target = targets.through_travel(id.surface);
            mark(draft, side, *id, draft.model.name(*id), gap, target)
        })
        .collect()
    } else {
        let surfaces = draft.check.sides.get(side).surfaces.iter();
        surfaces
            .map(|found| {
                let at_ride =
                    found.ride.low - found.ride_target <= found.travel.low - found.travel_target;
                if at_ride && draft.options.pose == Pose::RIDE {
                    mark(
                        draft,
                        side,
                        found.id,
                        format!("{} at rest", found.name),
                        &found.ride,
                        found.ride_target,
                    )
                } else {
                    mark(
                        draft,
                        side,
                        found.id,
                        format!("{} in travel", found.name),
                        &found.travel,
                        found.travel_target,
                    )
                }
            })
            .collect()
    };
    marks.retain(|mark| mark.ends.iter().all(|end| end.is_finite()));
    order::sort_by(&mut marks, |a, b| {
        a.key
            .verdict
            .cmp(&b.key.verdict)
            .then(a.reserve.total_cmp(&b.reserve))
    });
    marks.truncate(draft.options.gaps);
    marks
}

fn mark(
    draft: &Draft,
    side: Side,
    surface: SurfaceId,
    name: String,
    gap: &Gap,
    target: f64,
) -> Mark {
    let verdict = Verdict::of(gap.low, target);
    Mark {
        key: Key {
            side,
            surface,
            verdict,
        },
        name: name + &around(&gap.witness, draft.angle),
        value: gap_words(gap.low, verdict, draft.options.notation),
        reserve: gap.low - target,
        ends: [gap.witness.at_tire, gap.witness.at_body]
            .map(|point| on_sheet(in_section(point, draft.angle, surface.surface))),
    }
}

/// Where a point is shown in the section, `(left, along)`: in its plane where it truly lies; sheet metal elsewhere round
/// the wheel turns into the section about the axle's line, as the section itself does; rails and parts bolted nearby do
/// not run round the wheel, so they are seen along the plane's normal.
fn in_section(point: Vec3, angle: f64, surface: Surface) -> Vec2 {
    let along = point.x * math::sin(angle) + point.z * math::cos(angle);
    let turned = math::hypot(point.x, point.z);
    match surface {
        Surface::FrameRail | Surface::Obstacle => vec2(point.y, along),
        _ if along < 0.0 => vec2(point.y, -turned),
        _ => vec2(point.y, turned),
    }
}

/// Where round the wheel, when it is not in the section.
fn around(witness: &Witness, section: f64) -> String {
    let point = witness.at_body;
    let angle = math::atan2(point.x, point.z);
    if (angle - section).abs() < AROUND || !angle.is_finite() {
        return String::new();
    }
    format!(", {}", bearing(angle))
}

/// Where labels stand: `foot` is where their lines begin and leaders come to, `run` the direction in
/// which the lines run on from there, and `most` how far they may.
pub struct Column {
    foot: f64,
    run: f64,
    most: f64,
    /// How much further in each label begins than the one above it.
    indent: f64,
    from: f64,
    to: f64,
}

/// The corner above the quarter lip.
pub fn outer(draft: &Draft, side: Side) -> Column {
    let px = |pixels| draft.lettering.px(pixels);
    let seam = if sizes::shows_seam_move(draft, side) {
        sizes::SEAM_BAND
    } else {
        ABOVE_ROOF
    };
    let edge = if side == Side::Left {
        draft.view.x + px(EDGE)
    } else {
        draft.view.x + draft.view.width - px(EDGE)
    };
    Column {
        foot: edge,
        run: side.sign(),
        most: draft.view.width * 0.48,
        indent: px(INDENT),
        from: draft.view.y + px(EDGE),
        to: sizes::roof(draft, side) - px(seam),
    }
}

/// Between the frame rail and the car's center plane, above the axle.
pub fn inner(draft: &Draft, side: Side) -> Column {
    let px = |pixels| draft.lettering.px(pixels);
    let near = draft.model.rails.get(side).face - px(BESIDE_RAIL);
    let tube = draft.model.car.axle.tube_diameter / 2.0;
    Column {
        foot: -side.sign() * near,
        run: side.sign(),
        most: near - px(EDGE),
        indent: 0.0,
        from: sizes::roof(draft, side),
        to: -tube - px(EDGE),
    }
}

/// Draws the marks of one column, the worst first, as far as it has room for their labels: a gap without
/// its value would say nothing.
fn label(draft: &Draft, column: &Column, marks: &[&Mark], group: &mut Group) {
    let px = |pixels| draft.lettering.px(pixels);
    let room = (column.to - column.from) / px(LABEL);
    let tags: Vec<Tag> = marks
        .iter()
        .map(|mark| Tag {
            leader: mark.ends[1],
            name: mark.name.clone(),
            value: mark.value.clone(),
            key: Some(mark.key),
        })
        .collect();
    let fitting = marks
        .iter()
        .zip(tags)
        .filter(|(_, tag)| tag.width(draft) <= column.most);
    let mut shown = Vec::new();
    for (mark, tag) in fitting {
        if (shown.len() as f64) + 1.0 > room {
            break;
        }
        let leader = dimension(draft, mark, group);
        shown.push(Tag { leader, ..tag });
    }
    hang(draft, column, LABEL, &shown, group);
}

/// What is written in a column, and where its leader starts from.
pub struct Tag {
    /// The leader's start, on the sheet.
    pub leader: Vec2,
    /// The small line above, which may be empty.
    pub name: String,
    /// The line.
    pub value: String,
    /// What it belongs to.
    pub key: Option<Key>,
}

impl Tag {
    /// How wide its lettering is, on the sheet.
    pub fn width(&self, draft: &Draft) -> f64 {
        width(&self.name, draft.lettering.note()).max(width(&self.value, draft.lettering.value()))
    }
}

/// Hangs tags of a height in pixels in their column, each as near to its leader's start as the others let it.
pub fn hang(draft: &Draft, column: &Column, height: f64, tags: &[Tag], group: &mut Group) {
    let px = |pixels| draft.lettering.px(pixels);
    let wish = |tag: &Tag| Wish {
        middle: tag.leader.y - px(height / 4.0),
        height: px(height),
    };
    let wishes: Vec<Wish> = tags.iter().map(wish).collect();
    let places = place(&wishes, column.from, column.to);
    for (tag, &middle) in tags.iter().zip(&places) {
        let above = places.iter().filter(|&&other| other < middle).count() as f64;
        let foot = vec2(
            column.foot + above * column.indent * column.run,
            middle + px(height / 2.0 - 3.0),
        );
        let end = foot + vec2(tag.width(draft) * column.run, 0.0);
        let mut add = |role, shape| match tag.key {
            Some(key) => group.add_keyed(role, shape, key),
            None => group.add(role, shape),
        };
        add(Role::Dimension, Shape::line([tag.leader, foot]));
        add(Role::Underline, Shape::line([foot, end]));
        let anchor = if column.run > 0.0 {
            Anchor::Start
        } else {
            Anchor::End
        };
        let mut letter = |role, text: &str, up, size| {
            let at = foot - vec2(0.0, px(LIFT + up));
            let text = text.to_owned();
            add(
                role,
                Shape::Text {
                    at,
                    anchor,
                    size,
                    text,
                },
            );
        };
        if !tag.name.is_empty() {
            letter(Role::Note, &tag.name, LINE, draft.lettering.note());
        }
        letter(Role::Text, &tag.value, 0.0, draft.lettering.value());
    }
}

/// Draws the dimension line; gives the point that its leader starts from.
fn dimension(draft: &Draft, mark: &Mark, group: &mut Group) -> Vec2 {
    let [at_tire, at_body] = mark.ends;
    // The leader leaves on the metal's side; in an overlap that is where the tire's end is.
    let (a, b) = if mark.key.verdict == Verdict::Hits {
        (at_body, at_tire)
    } else {
        (at_tire, at_body)
    };
    let end = arrows(group, a, b, draft.lettering, Some(mark.key));
    if (end - b).length() > 0.0 {
        end
    } else {
        a.lerp(b, 0.5)
    }
}
