//! What is passed on to others: links, files and how they are named.

use drawing::post::Markup;
use drawing::svg::Scheme;
use geometry::car::Car;
use geometry::side::Sides;

use super::address::{Address, Place};
use super::settings::{Choice, THEMES, Theme, stored};
use super::work::Work;

/// The ways to mark up a post.
pub const MARKUPS: [Choice<Markup>; 3] = [
    ("bbcode", "BBCode", Markup::BbCode),
    ("markdown", "Markdown", Markup::Markdown),
    ("plain", "Plain text", Markup::Plain),
];

/// The pictures that can be taken away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// From behind.
    Rear,
    /// From the side, with its ring of gaps.
    Side,
    /// The wheelhouse unrolled.
    Map,
    /// Each surface's gap through travel.
    Travel,
}

/// Their words, their names.
pub const FIGURES: [Choice<Figure>; 4] = [
    ("rear", "From behind", Figure::Rear),
    ("side", "From the side", Figure::Side),
    ("map", "Wheelhouse, unrolled", Figure::Map),
    ("travel", "Gaps through travel", Figure::Travel),
];

/// The papers to choose from.
pub const PAPERS: [Choice<Scheme>; 2] = [
    ("light", "Light", Scheme::Light),
    ("dark", "Dark", Scheme::Dark),
];

/// The widths that a picture may have, pixels: a thumbnail, a poster, what is usual in a post.
pub const WIDTHS: (f64, f64, f64) = (320.0, 8000.0, 1200.0);

/// A typed width, if it is one.
pub fn width(text: &str) -> Option<f64> {
    let width: f64 = text.trim().parse().ok()?;
    (WIDTHS.0..=WIDTHS.1)
        .contains(&width)
        .then(|| width.round())
}

/// The link to a place of the page with a car; `None` for a car with faults, which nobody could open.
pub fn link(page: &str, place: Place, car: &Car) -> Option<String> {
    let token = carfile::to_token(car).ok()?;
    Some(format!("{page}#{}&car={token}", place.word()))
}

/// The address of one figure of a car alone; `None` for a car with faults.
pub fn picture_alone(car: &Car, figure: Figure) -> Option<Address> {
    Some(Address {
        figure: Some(stored(&FIGURES, figure).to_owned()),
        car: Some(carfile::to_token(car).ok()?),
        ..Address::default()
    })
}

/// The address of a chapter's figure alone.
pub fn chapter_alone(word: &str) -> Address {
    Address {
        place: Place::WriteUp,
        figure: Some(word.to_owned()),
        ..Address::default()
    }
}

/// The markup that puts a figure into another page: its address, what it is a figure of, and its colors.
pub fn snippet(page: &str, alone: &Address, name: &str, theme: Theme) -> String {
    let colors = match theme {
        Theme::Auto => None,
        chosen => Some(stored(&THEMES, chosen).to_owned()),
    };
    let alone = Address {
        colors,
        ..alone.clone()
    };
    let address = attribute(&format!("{page}{alone}"));
    let name = attribute(name);
    format!(
        r#"<iframe src="{address}" title="{name}" loading="lazy" height="600" style="width: 100%; border: 0"></iframe>
<script>
  addEventListener("message", ({{ source, data }}) => {{
    const frames = [...document.querySelectorAll("iframe")].filter((frame) => frame.contentWindow === source);
    if (data && data.lipToRailHeight > 0) for (const frame of frames) frame.height = data.lipToRailHeight;
  }});
</script>"#
    )
}

/// Text as the value of an attribute (HTML, 13.1.2.3).
fn attribute(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '"' => out.push_str("&quot;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            letter => out.push(letter),
        }
    }
    out
}

/// Whether something is being typed that is not in the car yet.
pub fn has_drafts(work: &Work) -> bool {
    work.drafts != Sides::default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    #[test]
    fn a_link_is_an_address_with_the_car() {
        let work = opening::invented(0).expect("an invented car");
        let link =
            link("https://club.example/page/", Place::Bench, &work.car).expect("it has no faults");
        let (_, fragment) = link.split_once('#').expect("a fragment");
        let address = Address::read(fragment);
        let car = carfile::from_token(&address.car.expect("a car"));
        assert_eq!(car.as_ref(), Ok(work.car.as_ref()));
        let spoiled = work.with(|car| car.wheel.rim_width = f64::NAN);
        assert_eq!(super::link("", Place::WalkRound, &spoiled.car), None);
    }

    #[test]
    fn no_name_gets_out_of_its_attribute() {
        let work = opening::invented(0).expect("an invented car");
        let hostile = work.with(|car| car.name = "\"><script>x</script>&quot;".to_owned());
        let alone = picture_alone(&hostile.car, Figure::Rear).expect("it has no faults");
        let page = "https://club.example/?a=\"&b";
        let text = snippet(page, &alone, &hostile.car.name, Theme::Dark);
        let (tag, rest) = text.split_once("></iframe>").expect("one frame");
        assert!(
            !tag[1..].contains(['<', '>']) && tag.matches('"').count() % 2 == 0,
            "{tag}"
        );
        assert!(
            tag.contains("#bench&amp;figure=rear&amp;colors=dark&amp;car=1"),
            "{tag}"
        );
        assert_eq!(rest.matches("<script>").count(), 1);
    }

    #[test]
    fn a_width_is_a_number_of_pixels() {
        for (text, expected) in [
            (" 1200 ", Some(1200.0)),
            ("800.4", Some(800.0)),
            ("12", None),
            ("90000", None),
            ("wide", None),
            ("NaN", None),
        ] {
            assert_eq!(width(text), expected, "{text}");
        }
    }
}
