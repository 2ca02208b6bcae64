//! The Write-up: its chapters, each with an invented car to play with, and the numbers that its sentences follow.

use std::f64::consts::FRAC_PI_2;

use drawing::walk_round::{between, hits_or_not, lower, room_each_way, seen as seen_from_behind};
use drawing::{Dimensions, Shown, bearing, mount_finding};
use geometry::body::Surface;
use geometry::car::{Car, Lever};
use geometry::check::{SurfaceCheck, Verdict};
use geometry::course::Found;
use geometry::math;
use geometry::metal::{Plugs, Strip, gauge, plug_count};
use geometry::model::Model;
use geometry::side::Side;
use geometry::tire::Arrival;
use geometry::units::{Notation, format_length};

use super::around::pose_words;
use super::exhibit::{Exhibit, Knob, Seen, View};
use super::opening;

/// The whole text: each chapter behind a line with its word and its title, its blocks apart by an empty line.
const PROSE: &str = include_str!("../write_up/prose.html");

/// A chapter.
#[derive(Debug, Clone, Copy)]
pub struct Chapter {
    /// Its word in the address.
    pub word: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// Its blocks, with `{names}` where a number goes.
    prose: &'static str,
    /// The invented car, by its place in the list.
    pub car: usize,
    /// What was done to that car.
    change: fn(&mut Car),
    /// The figure.
    pub exhibit: Exhibit,
    /// The numbers that the sentences follow.
    numbers: fn(&Seen) -> Numbers,
}

/// What goes where in a chapter's sentences.
type Numbers = Vec<(&'static str, String)>;

/// An eighth of an inch, mm: what a reading may be off.
const EIGHTH: f64 = 3.175;

/// Every chapter, in the order of the text.
pub fn chapters() -> Vec<Chapter> {
    let parts = PROSE.split("<!-- ").skip(1);
    parts.filter_map(chapter).collect()
}

fn chapter(part: &'static str) -> Option<Chapter> {
    let (head, prose) = part.split_once(" -->")?;
    let (word, title) = head.split_once(": ")?;
    let rear = |shown, room| View::Rear {
        shown,
        dimensions: Dimensions::Gaps,
        room,
    };
    let (both, left) = (rear(Shown::Both, false), rear(Shown::One(Side::Left), true));
    let whole: fn(&Seen) -> String = |seen| hits_or_not(seen.found, seen.notation);
    let as_it_is: fn(&mut Car) = |_| ();
    let (car, change, view, knob, say, numbers): Figured = match word {
        "stands" => (
            COUPE,
            as_it_is,
            both,
            Knob::Lever(Lever::SectionWidth),
            whole,
            stands,
        ),
        "measure" => (COUPE, as_it_is, left, Knob::TubHigh, whole, measure),
        "backspacing" => (
            FASTBACK,
            as_it_is,
            left,
            Knob::Lever(Lever::Backspacing),
            whole,
            backspacing,
        ),
        "travel" => (
            SEDAN,
            as_it_is,
            View::Nearest,
            Knob::Lever(Lever::Bump),
            whole,
            travel,
        ),
        "seam" => (
            COUPE,
            |car| Lever::SeamMove.set(car, 38.1),
            left,
            Knob::Lever(Lever::SeamMove),
            whole,
            seam,
        ),
        "metal" => (
            COUPE,
            |car| Lever::SeamMove.set(car, 57.15),
            View::Piece(Side::Left),
            Knob::Lever(Lever::SeamMove),
            whole,
            metal,
        ),
        "mount" => (
            SEDAN,
            as_it_is,
            View::Mount(Side::Left),
            Knob::Lever(Lever::Droop),
            |_| "The wheel at the tightest spot of its way, and where it was before.".to_owned(),
            mount,
        ),
        "checks" => (
            PICKUP,
            as_it_is,
            both,
            Knob::Lever(Lever::TrackWidth),
            whole,
            checks,
        ),
        _ => return None,
    };
    Some(Chapter {
        word,
        title,
        prose,
        car,
        change,
        exhibit: Exhibit { view, knob, say },
        numbers,
    })
}

type Figured = (
    usize,
    fn(&mut Car),
    View,
    Knob,
    fn(&Seen) -> String,
    fn(&Seen) -> Numbers,
);

/// The invented cars' places in the list.
const COUPE: usize = 0;
const FASTBACK: usize = 1;
const PICKUP: usize = 2;
const SEDAN: usize = 4;

impl Chapter {
    /// The car that its figure begins with.
    pub fn base(&self) -> Option<Found> {
        let mut car = Car::clone(&opening::invented(self.car)?.car);
        (self.change)(&mut car);
        Some(Found::of(Model::new(&car).ok()?))
    }

    /// What its car is called.
    pub fn car_name(&self) -> String {
        opening::invented(self.car).map_or(String::new(), |work| work.car.name.clone())
    }

    /// Its blocks.
    pub fn blocks(&self) -> Vec<&'static str> {
        self.prose.trim().split("\n\n").collect()
    }

    /// A block with its numbers in it; while there are none, with dots in their place.
    pub fn filled(&self, block: &str, seen: Option<&Seen>) -> String {
        let numbers = seen.map(|seen| (self.numbers)(seen));
        let mut out = String::with_capacity(block.len());
        let mut rest = block;
        while let Some((before, after)) = rest.split_once('{') {
            let (name, behind) = after.split_once('}').unwrap_or((after, ""));
            out.push_str(before);
            let number = numbers.as_ref().and_then(|numbers| {
                let found = numbers.iter().find(|(of, _)| *of == name);
                found.map(|(_, value)| value.as_str())
            });
            let shown = number.unwrap_or("…");
            if !shown.is_empty() {
                out.push_str("<b>");
                out.push_str(shown);
                out.push_str("</b>");
            }
            rest = behind;
        }
        out.push_str(rest);
        out
    }
}

fn say(length: f64, notation: Notation) -> String {
    format_length(length, notation)
}

/// The surfaces of both sides, each with its side.
fn surfaces(found: &Found) -> impl Iterator<Item = (Side, &SurfaceCheck)> {
    let sides = found.check.sides.iter();
    sides.flat_map(|(side, list)| list.surfaces.iter().map(move |surface| (side, surface)))
}

fn of_side(found: &Found, side: Side, surface: Surface) -> Option<&SurfaceCheck> {
    let surfaces = &found.check.sides.get(side).surfaces;
    surfaces.iter().find(|found| found.id.surface == surface)
}

fn stands(seen: &Seen) -> Numbers {
    let at_rest = surfaces(seen.found).min_by(|(_, a), (_, b)| a.ride.low.total_cmp(&b.ride.low));
    let (name, gap) = at_rest.map_or((String::new(), f64::INFINITY), |(_, surface)| {
        (surface.name.clone(), surface.ride.low)
    });
    vec![
        (
            "width",
            say(seen.found.model.car.section_width(), seen.notation),
        ),
        ("verdict", lower(&hits_or_not(seen.found, seen.notation))),
        ("surface", name),
        ("gap", between(gap, seen.notation)),
    ]
}

fn measure(seen: &Seen) -> Numbers {
    let wall = |found: &Found| {
        of_side(found, Side::Left, Surface::TubWall).map_or(0.0, |wall| wall.ride.low)
    };
    let reading = Knob::TubHigh.value(&seen.found.model.car);
    let off = |by: f64| {
        let found = Knob::TubHigh.moved(seen.base, reading + by);
        found.map_or(wall(seen.found), |found| wall(&found))
    };
    let gaps = [off(-EIGHTH), off(EIGHTH)];
    let (least, most) = (gaps[0].min(gaps[1]), gaps[0].max(gaps[1]));
    let target = seen.found.model.car.targets.ride;
    let turns = if Verdict::of(least, target) == Verdict::of(most, target) {
        ""
    } else {
        " That is enough to turn the verdict, so it is measured again."
    };
    let mut largest = seen.found.model.car.clone();
    largest.tire.arrival = Arrival::Largest;
    vec![
        ("reading", say(reading, seen.notation)),
        ("gap", between(wall(seen.found), seen.notation)),
        ("least", say(least, seen.notation)),
        ("most", say(most, seen.notation)),
        ("turns", turns.to_owned()),
        (
            "nominal",
            say(seen.found.model.car.section_width(), seen.notation),
        ),
        ("largest", say(largest.section_width(), seen.notation)),
    ]
}

fn backspacing(seen: &Seen) -> Numbers {
    let [inner, outer] = room_each_way(&seen.found.check);
    let (sum, asked) = (inner + outer, 2.0 * seen.found.model.car.targets.travel);
    let enough = if sum >= asked {
        format!(
            "Twice the gap that is asked for is {}: there is a wheel with which this tire has it on both sides.",
            say(asked, seen.notation)
        )
    } else {
        format!(
            "Twice the gap that is asked for is {}: no wheel will do for this tire, and no axle either.",
            say(asked, seen.notation)
        )
    };
    vec![
        (
            "backspacing",
            say(seen.found.model.car.wheel.backspacing, seen.notation),
        ),
        ("inner", between(inner, seen.notation)),
        ("outer", between(outer, seen.notation)),
        ("sum", say(sum, seen.notation)),
        ("enough", enough),
    ]
}

/// Where tire and metal come nearest through travel.
pub fn nearest(found: &Found) -> Option<(Side, &SurfaceCheck)> {
    surfaces(found).min_by(|(_, a), (_, b)| a.travel.low.total_cmp(&b.travel.low))
}

/// The angle round the wheel of the spot where it is nearest, as far as a section goes, radians.
pub fn spot_angle(surface: &SurfaceCheck) -> f64 {
    let at = surface.travel.witness.at_body;
    math::atan2(at.x, at.z).clamp(-FRAC_PI_2, FRAC_PI_2)
}

fn travel(seen: &Seen) -> Numbers {
    let Some((_, surface)) = nearest(seen.found) else {
        return Vec::new();
    };
    vec![
        ("bump", say(seen.found.model.car.travel.bump, seen.notation)),
        ("surface", surface.name.clone()),
        ("angle", bearing(spot_angle(surface))),
        (
            "pose",
            pose_words(surface.travel.witness.pose, seen.notation),
        ),
        ("gap", between(surface.travel.low, seen.notation)),
        ("rest", between(surface.ride.low, seen.notation)),
    ]
}

fn seam(seen: &Seen) -> Numbers {
    let tub = |found: &Found| {
        let of_tub = |(_, surface): &(Side, &SurfaceCheck)| {
            matches!(surface.id.surface, Surface::TubWall | Surface::TubCorner)
        };
        let gaps = surfaces(found)
            .filter(of_tub)
            .map(|(_, surface)| surface.travel.low);
        gaps.fold(f64::INFINITY, f64::min)
    };
    let stock = Found::bare(&seen.found.model);
    let limit = &seen.found.model.seam_limit;
    vec![
        (
            "seam",
            say(Lever::SeamMove.get(&seen.found.model.car), seen.notation),
        ),
        ("gap", between(tub(seen.found), seen.notation)),
        ("gain", say(tub(seen.found) - tub(&stock), seen.notation)),
        (
            "surface",
            nearest(seen.found).map_or(String::new(), |(_, surface)| surface.name.clone()),
        ),
        ("limit", say(limit.left.min(limit.right), seen.notation)),
    ]
}

fn metal(seen: &Seen) -> Numbers {
    let model = &seen.found.model;
    let spec = &model.car.metal;
    let thickness = gauge::thickness(spec.gauge).unwrap_or_default();
    let plugs = Plugs::of(spec, thickness);
    let strip = Strip::of(model, Side::Left);
    let [length, width, area, edge] = strip.map_or([0.0; 4], |strip| {
        let area = strip.pattern(spec.lap).area();
        [strip.length(), strip.width, area, strip.edge_length()]
    });
    vec![
        ("seam", say(Lever::SeamMove.get(&model.car), seen.notation)),
        ("length", say(length, seen.notation)),
        ("width", say(width, seen.notation)),
        ("gauge", format!("{:.0}", spec.gauge)),
        (
            "weight",
            format!("{:.1} kg", gauge::weight(area, thickness)),
        ),
        ("hole", say(plugs.hole, seen.notation)),
        ("pitch", say(plugs.pitch, seen.notation)),
        ("count", plug_count(edge, plugs.pitch).to_string()),
    ]
}

fn mount(seen: &Seen) -> Numbers {
    let verdict = seen.mounting.map_or_else(
        || "The way on is being searched.".to_owned(),
        |mounting| mount_finding(&seen.found.model, mounting, seen.notation),
    );
    vec![("verdict", verdict)]
}

fn checks(seen: &Seen) -> Numbers {
    vec![("seen", seen_from_behind(seen.found, seen.notation))]
}

#[cfg(test)]
mod tests {
    use geometry::mount::Mounting;
    use geometry::travel::Pose;

    use super::*;

    const NOTATION: Notation = Notation::InchFractions;

    /// The chapter with its lever at a share of its way.
    fn told(chapter: &Chapter, share: f64) -> Vec<String> {
        let base = chapter.base().expect("an invented car");
        let knob = chapter.exhibit.knob;
        let scale = knob.scale(&base.model, NOTATION);
        let position = (scale.least + (scale.most - scale.least) * share).round();
        let moved = knob.moved(&base, scale.value(position));
        let found = moved.unwrap_or_else(|| base.clone());
        let mounting = (chapter.word == "mount").then(|| Mounting::whole(&found.model, Side::Left));
        let seen = Seen {
            base: &base,
            found: &found,
            pose: Pose::RIDE,
            held: None,
            mounting: mounting.as_ref(),
            notation: NOTATION,
        };
        let blocks = chapter.blocks();
        blocks
            .into_iter()
            .map(|block| chapter.filled(block, Some(&seen)))
            .collect()
    }

    #[test]
    fn every_chapter_has_a_figure_and_its_own_word() {
        let chapters = chapters();
        assert_eq!(chapters.len(), PROSE.matches("<!-- ").count());
        let mut words: Vec<_> = chapters.iter().map(|chapter| chapter.word).collect();
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), chapters.len());
    }

    #[test]
    fn every_number_of_the_text_is_there_wherever_the_lever_stands() {
        for chapter in chapters() {
            for share in [0.0, 0.35, 0.7, 1.0] {
                for block in told(&chapter, share) {
                    for odd in ["…", "{", "}", "NaN", "inf", "<b><"] {
                        assert!(!block.contains(odd), "{} at {share}: {block}", chapter.word);
                    }
                }
            }
        }
    }

    #[test]
    fn the_sentences_follow_the_lever() {
        for chapter in chapters() {
            assert_ne!(told(&chapter, 0.0), told(&chapter, 1.0), "{}", chapter.word);
        }
    }

    #[test]
    fn before_it_is_seen_a_chapter_has_dots_for_numbers() {
        for chapter in chapters() {
            let open = chapter
                .blocks()
                .iter()
                .any(|block| chapter.filled(block, None).contains("<b>…</b>"));
            assert!(open, "{}", chapter.word);
        }
    }

    #[test]
    fn what_the_text_claims_of_its_cars_is_so() {
        let with = |word: &str, share: f64| {
            let chapters = chapters();
            let chapter = chapters
                .iter()
                .find(|chapter| chapter.word == word)
                .expect("a chapter");
            told(chapter, share).join(" ")
        };
        // The sum of both gaps "stays about that wherever the wheel is put": to a quarter inch over half the lever.
        let chapters = chapters();
        let chapter = chapters
            .iter()
            .find(|chapter| chapter.word == "backspacing")
            .expect("it is there");
        let base = chapter.base().expect("an invented car");
        let sum = |by: f64| {
            let found = chapter
                .exhibit
                .knob
                .moved(&base, base.model.car.wheel.backspacing + by);
            let [inner, outer] = room_each_way(&found.expect("a car").check);
            inner + outer
        };
        assert!((sum(12.7) - sum(0.0)).abs() < 6.35 && (sum(-12.7) - sum(0.0)).abs() < 6.35);
        // The sedan's roof hits behind the axle, whatever the bump.
        for share in [0.4, 1.0] {
            assert!(with("travel", share).contains("\u{b0} behind"), "{share}");
        }
        // An inch of seam is about an inch of room, as long as the tub is nearest.
        let gain = |seam: f64| {
            let chapter = chapters
                .iter()
                .find(|chapter| chapter.word == "seam")
                .expect("it is there");
            let base = chapter.base().expect("an invented car");
            let found = chapter.exhibit.knob.moved(&base, seam).expect("a car");
            let wall = of_side(&found, Side::Left, Surface::TubWall).expect("a tub");
            wall.travel.low
        };
        let bought = gain(25.4) - gain(0.0);
        assert!((20.0..26.0).contains(&bought), "{bought} mm");
    }
}
