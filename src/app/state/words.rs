//! The sentences of the page that are computed: what stops the tire, and by how much.

use drawing::bearing;
use geometry::check::{Check, SurfaceCheck, Verdict};
use geometry::gap::Gap;
use geometry::side::Side;
use geometry::tire::{Arrival, TireSpec};
use geometry::units::{Notation, format_length};

use crate::state::around::{of_spot, on_degree};

/// The verdict on the whole car with this tire, in one sentence.
pub fn verdict(check: &Check, tire: &TireSpec, notation: Notation) -> String {
    let Some((side, surface)) = check.worst() else {
        return "There is nothing near the tire.".to_owned();
    };
    let what = named(check, side, surface);
    let (moment, gap, target) = binding(surface);
    let size = format_length(gap.low.abs(), notation);
    let when = match of_spot(gap.witness.at_body) {
        angle if on_degree(angle) == 0.0 => moment.to_owned(),
        angle => format!("{moment}, {}", bearing(angle)),
    };
    match surface.verdict {
        Verdict::Hits => format!("{what} stops the tire: they overlap by {size} {when}."),
        Verdict::Tight => {
            let target = format_length(target, notation);
            format!("{what} is tight: {size} of gap {when}, where {target} is asked for.")
        }
        Verdict::Clears => format!(
            "The tire{} clears everything. Nearest to its target is {}, with {size} {when}.",
            of_size(tire),
            lower(&what)
        ),
    }
}

/// Of which size the tire is, where another may arrive.
fn of_size(tire: &TireSpec) -> &'static str {
    let is_known = tire.width_is_measured() && tire.diameter_is_measured();
    match tire.arrival {
        Arrival::Nominal if is_known => "",
        Arrival::Nominal => ", at its nominal size,",
        Arrival::Largest => ", the largest that may arrive,",
        Arrival::AtSpeed => ", grown at speed,",
    }
}

/// The verdict for the page's title: a word or two.
pub fn brief(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Hits => "The tire hits",
        Verdict::Tight => "The tire is tight",
        Verdict::Clears => "The tire clears",
    }
}

/// A text in which no line breaks within a length: `1 3/4 in` stays together.
pub fn unbroken(text: &str) -> String {
    let ends_in_digit = |before: &str| before.ends_with(|last: char| last.is_ascii_digit());
    let goes_on = |after: &str| {
        let word = after.split(|c: char| !c.is_alphanumeric()).next();
        after.starts_with(|first: char| first.is_ascii_digit())
            || word.is_some_and(|word| ["in", "mm", "kg", "lb"].contains(&word))
    };
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(' ') {
        out.push_str(before);
        out.push(if ends_in_digit(before) && goes_on(after) {
            '\u{a0}'
        } else {
            ' '
        });
        rest = after;
    }
    out + rest
}

/// A side as a title.
pub fn side_title(side: Side) -> &'static str {
    match side {
        Side::Left => "Left side",
        Side::Right => "Right side",
    }
}

/// Which of a surface's two gaps decides: when, the gap, its target, mm.
fn binding(surface: &SurfaceCheck) -> (&'static str, &Gap, f64) {
    let ride = surface.ride.low - surface.ride_target;
    let travel = surface.travel.low - surface.travel_target;
    // An overlap through travel outweighs a shortfall at rest.
    let travel_decides = if surface.verdict == Verdict::Hits {
        surface.travel.low < surface.ride.low || surface.ride.low >= 0.0
    } else {
        travel <= ride
    };
    if travel_decides {
        ("through travel", &surface.travel, surface.travel_target)
    } else {
        ("at ride height", &surface.ride, surface.ride_target)
    }
}

/// `The left tub wall`; `The tub wall on both sides` when the other side's is as bad.
fn named(check: &Check, side: Side, surface: &SurfaceCheck) -> String {
    let other = match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    };
    let twin = check
        .sides
        .get(other)
        .surfaces
        .iter()
        .find(|twin| twin.id == surface.id);
    let same = twin.is_some_and(|twin| {
        twin.name == surface.name && (twin.reserve() - surface.reserve()).abs() < SAME
    });
    if same {
        format!("The {} on both sides", surface.name)
    } else {
        format!("The {} {}", side.word(), surface.name)
    }
}

/// Gaps nearer to each other than a tape can tell are the same on both sides, mm.
const SAME: f64 = 0.5;

fn lower(sentence: &str) -> String {
    let mut lower = sentence.to_owned();
    if let Some(first) = lower.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    lower
}

#[cfg(test)]
mod tests {
    use geometry::body::Surface;
    use geometry::check::SideCheck;
    use geometry::gap::{Part, Witness};
    use geometry::side::Sides;
    use geometry::space::Vec3;
    use geometry::tire::MeasuredWidth;
    use geometry::travel::Pose;

    use super::*;
    use crate::state::opening;

    fn gap(size: f64) -> Gap {
        let witness = Witness {
            pose: Pose::RIDE,
            at_body: Vec3::default(),
            at_tire: Vec3::default(),
            part: Part::Tire,
        };
        Gap {
            low: size,
            high: size,
            witness,
        }
    }

    fn surface(surface: Surface, ride: f64, travel: f64) -> SurfaceCheck {
        SurfaceCheck {
            id: surface.into(),
            name: surface.label().to_owned(),
            ride: gap(ride),
            travel: gap(travel),
            ride_target: 25.4,
            travel_target: 12.7,
            verdict: Verdict::of(ride, 25.4).min(Verdict::of(travel, 12.7)),
        }
    }

    #[track_caller]
    fn check(left: SurfaceCheck, right: SurfaceCheck, expected: &str) {
        let check = Check {
            sides: Sides {
                left: SideCheck {
                    surfaces: vec![left],
                },
                right: SideCheck {
                    surfaces: vec![right],
                },
            },
        };
        assert_eq!(verdict(&check, &tire(), Notation::InchFractions), expected);
    }

    /// A tire that is known by its printed size alone.
    fn tire() -> TireSpec {
        let work = opening::invented(0).expect("the first invented car opens");
        work.car.tire.clone()
    }

    #[test]
    fn what_clears_is_told_with_the_tire_that_does() {
        let mut measured = tire();
        measured.section_width = Some(MeasuredWidth {
            width: 300.0,
            on_rim: 254.0,
        });
        measured.overall_diameter = Some(700.0);
        assert_eq!(of_size(&measured), "");
        let words = Arrival::ALL.map(|arrival| of_size(&TireSpec { arrival, ..tire() }));
        assert!(words.iter().all(|words| !words.is_empty()));
        assert!(words[0] != words[1] && words[1] != words[2]);
    }

    #[test]
    fn a_length_stays_on_its_line() {
        assert_eq!(
            unbroken("by 1 3/4 in on both, 12 mm and 3 inside; 2.1 kg (4.6 lb)."),
            "by 1\u{a0}3/4\u{a0}in on both, 12\u{a0}mm and 3 inside; 2.1\u{a0}kg (4.6\u{a0}lb)."
        );
        assert_eq!(unbroken("in 1 in"), "in 1\u{a0}in");
    }

    #[test]
    fn the_worst_surface_is_named_with_its_side_and_size() {
        check(
            surface(Surface::TubWall, 3.0, -12.7),
            surface(Surface::TubWall, 30.0, 25.4),
            "The left tub wall stops the tire: they overlap by 1/2 in through travel.",
        );
        check(
            surface(Surface::FrameRail, 30.0, 30.0),
            surface(Surface::QuarterLip, 12.7, 12.7),
            "The right quarter lip is tight: 1/2 in of gap at ride height, where 1 in is asked for.",
        );
        check(
            surface(Surface::FrameRail, 50.8, 50.8),
            surface(Surface::FrameRail, 50.8, 50.8),
            "The tire, at its nominal size, clears everything. Nearest to its target is the frame rail on both sides, with 2 in at ride height.",
        );
    }

    #[test]
    fn away_from_straight_up_the_sentence_says_where() {
        let mut behind = surface(Surface::Roof, 30.0, -12.7);
        behind.travel.witness.at_body = geometry::space::vec3(-300.0, 700.0, 300.0);
        check(
            behind,
            surface(Surface::Roof, 30.0, 25.4),
            "The left roof stops the tire: they overlap by 1/2 in through travel, 45\u{b0} behind.",
        );
    }

    #[test]
    fn without_surfaces_there_is_nothing_to_say() {
        assert_eq!(
            verdict(&Check::default(), &tire(), Notation::InchFractions),
            "There is nothing near the tire."
        );
    }
}
