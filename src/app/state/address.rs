//! The page's address: which page is open, and what a link carries with it.
//!
//! All of it stands in the fragment, which no server ever sees: `#PAGE&KEY=VALUE&KEY=VALUE`. An address that is not
//! understood leads to the Bench and keeps every word that it had.

use std::fmt;

use drawing::sheets::Kind;

/// A page that can be open.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Place {
    /// The builder's page.
    #[default]
    Bench,
    /// A sheet for the shop floor.
    Sheets(Kind),
    /// What can be taken away.
    TakeAway,
    /// The owner's page.
    WalkRound,
    /// The club's page.
    WriteUp,
}

/// The pages that a reader goes to from anywhere: the name of each, and where it opens.
pub const PLACES: [(&str, Place); 5] = [
    ("Bench", Place::Bench),
    ("Walk-round", Place::WalkRound),
    ("Sheets", Place::Sheets(Kind::Tape)),
    ("Take away", Place::TakeAway),
    ("Write-up", Place::WriteUp),
];

const BENCH: &str = "bench";
const SHEETS: &str = "sheets";
const TAKE_AWAY: &str = "take-away";
const WALK_ROUND: &str = "walk-round";
const WRITE_UP: &str = "write-up";

impl Place {
    /// The page's word in the address, whatever of it is shown.
    pub fn word(self) -> &'static str {
        match self {
            Place::Bench => BENCH,
            Place::Sheets(_) => SHEETS,
            Place::TakeAway => TAKE_AWAY,
            Place::WalkRound => WALK_ROUND,
            Place::WriteUp => WRITE_UP,
        }
    }

    /// The place of a word, and whether all of the word was understood.
    fn of(word: &str) -> (Self, bool) {
        let (page, part) = match word.split_once('/') {
            Some((page, part)) => (page, Some(part)),
            None => (word, None),
        };
        let kind = part.map_or(Some(Kind::Tape), |part| {
            Kind::ALL.into_iter().find(|kind| kind.word() == part)
        });
        match (page, kind) {
            (BENCH, _) => (Place::Bench, part.is_none()),
            (TAKE_AWAY, _) => (Place::TakeAway, part.is_none()),
            (WALK_ROUND, _) => (Place::WalkRound, part.is_none()),
            (WRITE_UP, _) => (Place::WriteUp, part.is_none()),
            (SHEETS, kind) => (Place::Sheets(kind.unwrap_or(Kind::Tape)), kind.is_some()),
            _ => (Place::Bench, false),
        }
    }
}

impl fmt::Display for Place {
    /// Its word in the address.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.word())?;
        match self {
            Place::Bench | Place::TakeAway | Place::WalkRound | Place::WriteUp => Ok(()),
            Place::Sheets(kind) => write!(out, "/{}", kind.word()),
        }
    }
}

/// An address, taken apart.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Address {
    /// The page that is open.
    pub place: Place,
    /// A word that names no page: the page of a newer version, or a slip of the pen.
    pub unknown: Option<String>,
    /// A part of the page to begin at.
    pub at: Option<String>,
    /// A single figure to be shown without the rest, to stand in another page.
    pub figure: Option<String>,
    /// Whether that figure is light or dark whatever the reader's system is set to.
    pub colors: Option<String>,
    /// A car, as the text that it was packed into.
    pub car: Option<String>,
    /// What else the address carries, as it stood.
    pub rest: Vec<String>,
}

/// The keys that are understood.
const AT: &str = "at";
const FIGURE: &str = "figure";
const COLORS: &str = "colors";
const CAR: &str = "car";

impl Address {
    /// The address that a fragment stands for, with or without its `#`. Every fragment stands for one.
    pub fn read(fragment: &str) -> Self {
        let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
        let mut parts = fragment
            .split('&')
            .filter(|part| !part.is_empty())
            .peekable();
        let mut address = Self::default();
        // The page comes first; a fragment of keys alone is of the first page.
        if let Some(word) = parts.next_if(|part| !part.contains('=')) {
            let (place, is_understood) = Place::of(word);
            address.place = place;
            address.unknown = (!is_understood).then(|| word.to_owned());
        }
        for part in parts {
            let known = match part.split_once('=') {
                Some((AT, value)) => Some((&mut address.at, value)),
                Some((FIGURE, value)) => Some((&mut address.figure, value)),
                Some((COLORS, value)) => Some((&mut address.colors, value)),
                Some((CAR, value)) => Some((&mut address.car, value)),
                _ => None,
            };
            match known {
                Some((slot @ None, value)) => *slot = Some(value.to_owned()),
                _ => address.rest.push(part.to_owned()),
            }
        }
        address
    }

    /// The same page from one of its parts on.
    pub fn part(&self, at: &str) -> Self {
        Self {
            at: Some(at.to_owned()),
            figure: None,
            colors: None,
            rest: self.rest_without(&[FIGURE, COLORS]),
            ..self.clone()
        }
    }

    /// The same address on another page. A single figure is of the page that it was asked of.
    pub fn on(&self, place: Place) -> Self {
        Self {
            place,
            unknown: None,
            at: None,
            figure: None,
            colors: None,
            rest: self.rest_without(&[AT, FIGURE, COLORS]),
            ..self.clone()
        }
    }

    /// What else it carries, but for what it carries twice of these keys: the second would be read for the first.
    fn rest_without(&self, keys: &[&str]) -> Vec<String> {
        let key = |part: &str| part.split_once('=').map(|(key, _)| key.to_owned());
        let stays = |part: &&String| !key(part).is_some_and(|key| keys.contains(&key.as_str()));
        self.rest.iter().filter(stays).cloned().collect()
    }
}

impl fmt::Display for Address {
    /// The fragment with its `#`.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.unknown {
            Some(word) => write!(out, "#{word}")?,
            None => write!(out, "#{}", self.place)?,
        }
        let keyed = [
            (AT, &self.at),
            (FIGURE, &self.figure),
            (COLORS, &self.colors),
            (CAR, &self.car),
        ];
        for (key, value) in keyed {
            if let Some(value) = value {
                write!(out, "&{key}={value}")?;
            }
        }
        self.rest.iter().try_for_each(|part| write!(out, "&{part}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(fragment: &str, expected: &Address, written: &str) {
        let address = Address::read(fragment);
        assert_eq!(&address, expected);
        assert_eq!(address.to_string(), written);
        assert_eq!(
            Address::read(written),
            address,
            "what is written reads back"
        );
    }

    #[test]
    fn every_page_comes_back_from_its_word() {
        let kinds = Kind::ALL.map(Place::Sheets);
        for place in PLACES.map(|(_, place)| place).into_iter().chain(kinds) {
            let expected = Address {
                place,
                ..Address::default()
            };
            check(&format!("#{place}"), &expected, &format!("#{place}"));
        }
        assert_eq!(
            Address::read("#sheets").to_string(),
            "#sheets/tape",
            "a page opens where it begins"
        );
    }

    #[test]
    fn an_empty_address_is_the_bench() {
        for fragment in ["", "#", "#&", "&&"] {
            check(fragment, &Address::default(), "#bench");
        }
    }

    #[test]
    fn a_car_and_a_figure_are_carried_as_they_are() {
        let token = "1.q8Ab-_/~Zz==";
        let expected = Address {
            figure: Some("rear".to_owned()),
            colors: Some("dark".to_owned()),
            car: Some(token.to_owned()),
            ..Address::default()
        };
        let written = format!("#bench&figure=rear&colors=dark&car={token}");
        check(&written, &expected, &written);
        check(
            &format!("#car={token}&colors=dark&figure=rear"),
            &expected,
            &written,
        );
        let empty = Address {
            car: Some(String::new()),
            ..Address::default()
        };
        check("#bench&car=", &empty, "#bench&car=");
    }

    #[test]
    fn what_is_not_understood_leads_to_the_bench_and_is_kept() {
        let expected = Address {
            unknown: Some("gallery/3".to_owned()),
            car: Some("abc".to_owned()),
            rest: ["light", "size=2", "car=def"].map(str::to_owned).to_vec(),
            ..Address::default()
        };
        let written = "#gallery/3&car=abc&light&size=2&car=def";
        check(
            "#gallery/3&light&car=abc&size=2&car=def",
            &expected,
            written,
        );
        assert_eq!(expected.place, Place::Bench);
    }

    #[test]
    fn an_unknown_part_leads_to_the_beginning_of_its_page() {
        let address = Address::read("#sheets/paint&car=abc");
        assert_eq!(address.place, Place::Sheets(Kind::Tape));
        assert_eq!(address.unknown.as_deref(), Some("sheets/paint"));
        assert_eq!(address.to_string(), "#sheets/paint&car=abc");
        let bench = Address::read("#bench/left");
        assert_eq!(
            (bench.place, bench.unknown.as_deref()),
            (Place::Bench, Some("bench/left"))
        );
    }

    #[test]
    fn another_page_keeps_the_car_and_drops_the_figure() {
        let address = Address::read("#gallery&figure=rear&colors=dark&car=abc&light");
        let there = address.on(Place::Bench);
        assert_eq!(there.to_string(), "#bench&car=abc&light");
        let cut = address.on(Place::Sheets(Kind::Cut));
        assert_eq!(cut.to_string(), "#sheets/cut&car=abc&light");
    }

    #[test]
    fn a_part_of_a_page_is_asked_for_by_its_word() {
        let address = Address::read("#write-up&car=abc&light").part("seam");
        let written = "#write-up&at=seam&car=abc&light";
        check(written, &address, written);
        assert_eq!(address.on(Place::Bench).to_string(), "#bench&car=abc&light");
    }

    #[test]
    fn a_figure_named_twice_does_not_come_back_on_another_page() {
        let address = Address::read("#take-away&figure=rear&figure=side&at=a&at=b&light");
        let there = address.on(Place::Bench);
        check("#bench&light", &there, "#bench&light");
        let part = address.part("seam");
        check(
            "#take-away&at=seam&at=b&light",
            &part,
            "#take-away&at=seam&at=b&light",
        );
    }

    #[test]
    fn no_text_is_refused() {
        for fragment in [
            "#%",
            "#=",
            "#=&=",
            "##",
            "#bench#car=1",
            "#b\u{e9}nch&car=\u{2192}",
            "#a=b=c",
        ] {
            let address = Address::read(fragment);
            assert_eq!(Address::read(&address.to_string()), address, "{fragment}");
        }
    }
}
