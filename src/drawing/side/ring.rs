//! The ring round the wheel: each sector's least gap, by color, hatching and word.

use geometry::body::Surface;
use geometry::check::Verdict;
use geometry::order;
use geometry::sheet::Sector;
use geometry::space::{Vec2, vec2};
use geometry::units::{degrees, format_length, radians};

use super::Draft;
use crate::hatch::{Hatch, ticks};
use crate::lettering::width;
use crate::role::Role;
use crate::scene::{Anchor, Group, Key, Shape};

/// Spacing of a hit sector's hatching, pixels.
const HITS: f64 = 5.0;
/// Angles that are lettered, degrees.
const LETTERED: [f64; 7] = [-90.0, -60.0, -30.0, 0.0, 30.0, 60.0, 90.0];

/// The ring, its words, and the degrees along it.
pub fn ring(draft: &Draft) -> Group {
    let mut group = Group::new(
        "ring",
        Some("The least gap in each sector round the wheel, through travel"),
    );
    let stations = &draft.model.wheelhouses.get(draft.side()).stations;
    if let Some(ring) = draft.options.ring.filter(|ring| ring.side == draft.side()) {
        for sector in &ring.sectors {
            draw(draft, sector, &mut group);
        }
        letter(draft, &ring.sectors, &mut group);
    } else {
        for pair in stations.windows(2) {
            let area = band(draft, [pair[0].angle, pair[1].angle]);
            group.add(Role::Sector, Shape::Area(area));
        }
        let middle = f64::midpoint(draft.frame.ring[0], draft.frame.ring[1]);
        let at = draft.polar(0.0, middle) + vec2(0.0, draft.px(4.0));
        let (role, text) = draft.text(
            Role::Note,
            at,
            Anchor::Middle,
            "being worked out".to_owned(),
        );
        group.add(role, text);
    }
    if let (Some(first), Some(last)) = (stations.first(), stations.last()) {
        let reach = degrees(first.angle) - 1e-6..=degrees(last.angle) + 1e-6;
        for angle in LETTERED.into_iter().filter(|angle| reach.contains(angle)) {
            bearing_mark(draft, angle, &mut group);
        }
    }
    group
}

/// How many degrees, outside the ring.
fn bearing_mark(draft: &Draft, angle: f64, group: &mut Group) {
    let at = if angle.abs() > 89.0 {
        let middle = f64::midpoint(draft.frame.ring[0], draft.frame.ring[1]);
        draft.polar(radians(angle), middle) + vec2(0.0, draft.px(14.0))
    } else {
        draft.polar(radians(angle), draft.frame.ring[1] + draft.px(15.0)) + vec2(0.0, draft.px(4.0))
    };
    let text = format!("{:.0}\u{b0}", angle.abs());
    let (role, text) = draft.text(Role::Note, at, Anchor::Middle, text);
    group.add(role, text);
}

fn band(draft: &Draft, angles: [f64; 2]) -> Vec<Vec2> {
    let [inner, outer] = draft.frame.ring;
    let mut area = draft.arc(inner, angles);
    let mut back = draft.arc(outer, angles);
    back.reverse();
    area.append(&mut back);
    area
}

fn verdict(draft: &Draft, sector: &Sector) -> Verdict {
    Verdict::of(
        sector.gap.low,
        draft.model.car.targets.through_travel(sector.surface),
    )
}

fn key(draft: &Draft, sector: &Sector) -> Key {
    let surface: Surface = sector.surface;
    Key {
        side: draft.side(),
        surface: surface.into(),
        verdict: verdict(draft, sector),
    }
}

/// One sector: colored, and hatched where it hits, ticked where it is tight.
fn draw(draft: &Draft, sector: &Sector, group: &mut Group) {
    let key = key(draft, sector);
    let area = band(draft, sector.angles);
    group.add_keyed(Role::Sector, Shape::Area(area.clone()), key);
    match key.verdict {
        Verdict::Hits => {
            let hatch = Hatch {
                angle: std::f64::consts::FRAC_PI_4,
                spacing: draft.px(HITS),
            };
            group.add(Role::Overlap, Shape::Lines(hatch.inside(&area)));
        }
        Verdict::Tight => {
            let inner = draft.arc(draft.frame.ring[0], sector.angles);
            // Rising angles run to the front; the ring's outside is then on the left of the way, or on the right.
            let back = -draft.side().sign();
            group.add(
                Role::TightTicks,
                Shape::Lines(ticks(&inner, -back, draft.px(5.0), draft.px(8.0))),
            );
        }
        Verdict::Clears => {}
    }
}

/// A word and a gap for each run of sectors with one verdict, where it is least; the worst first, and none over another.
fn letter(draft: &Draft, sectors: &[Sector], group: &mut Group) {
    let mut least: Vec<&Sector> = Vec::new();
    let mut before = None;
    for sector in sectors {
        let verdict = verdict(draft, sector);
        match least.last_mut() {
            Some(kept) if before == Some(verdict) => {
                if sector.gap.low < kept.gap.low {
                    *kept = sector;
                }
            }
            _ => least.push(sector),
        }
        before = Some(verdict);
    }
    order::sort_by(&mut least, |a, b| a.gap.low.total_cmp(&b.gap.low));
    let mut taken: Vec<[f64; 4]> = Vec::new();
    let size = draft.lettering().note();
    let middle = f64::midpoint(draft.frame.ring[0], draft.frame.ring[1]);
    for sector in least {
        let key = key(draft, sector);
        let gap = format_length(sector.gap.low.abs(), draft.options.notation);
        let mut lines = vec![match key.verdict {
            Verdict::Hits if draft.frame.is_roomy => "hits by".to_owned(),
            verdict => verdict.word().to_owned(),
        }];
        if draft.frame.is_roomy {
            lines.push(gap);
        }
        let at = draft.polar(f64::midpoint(sector.angles[0], sector.angles[1]), middle);
        let half = lines
            .iter()
            .map(|line| width(line, size))
            .fold(0.0, f64::max)
            / 2.0;
        let line = draft.px(13.0);
        let top = at.y - line * lines.len() as f64 / 2.0;
        let room = [
            at.x - half,
            top,
            at.x + half,
            top + line * lines.len() as f64,
        ];
        let apart = |other: &[f64; 4]| {
            room[2] <= other[0] || other[2] <= room[0] || room[3] <= other[1] || other[3] <= room[1]
        };
        if !taken.iter().all(apart) {
            continue;
        }
        taken.push(room);
        for (k, words) in lines.into_iter().enumerate() {
            let foot = vec2(at.x, top + line * (k as f64 + 0.8));
            let shape = Shape::Text {
                at: foot,
                anchor: Anchor::Middle,
                size,
                text: words,
            };
            group.add_keyed(if k == 0 { Role::Note } else { Role::Text }, shape, key);
        }
    }
}
