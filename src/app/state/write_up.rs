//! The Write-up: its chapters, each with an invented car to play with, and the numbers that its sentences follow.

mod numbers;

use drawing::walk_round::hits_or_not;
use drawing::{Dimensions, Shown};
use geometry::car::{Car, Lever};
use geometry::course::Found;
use geometry::model::Model;
use geometry::mount::Finding;
use geometry::side::Side;

use super::exhibit::{Exhibit, Knob, Seen, View, at_ride};
use super::opening;

use numbers::{backspacing, checks, measure, metal, mount, seam, stands, travel};
pub use numbers::{nearest, spot_angle};

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
            View::Rear {
                shown: Shown::One(Side::Left),
                dimensions: Dimensions::Parts,
                room: false,
            },
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
            |seen| {
                let goes = seen
                    .mounting
                    .is_none_or(|way| way.finding == Finding::GoesOn);
                let way = if goes {
                    "its way"
                } else {
                    "a way that it does not go"
                };
                format!("The wheel at the tightest spot of {way}, and where it was before.")
            },
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
        exhibit: Exhibit {
            view,
            knob,
            say,
            start: at_ride,
        },
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

#[cfg(test)]
mod tests {
    use drawing::walk_round::room_each_way;
    use geometry::body::Surface;
    use geometry::mount::Mounting;
    use geometry::travel::Pose;
    use geometry::units::Notation;

    use super::numbers::of_side;
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
