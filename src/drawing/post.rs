//! The gap list as something to pass on: text for a forum, and a table for a spreadsheet.
//!
//! What a person wrote (the car's name, a part's name) is text there and stays text: no mark of it is taken for the
//! forum's own, no cell for a formula.

use geometry::car::Car;
use geometry::check::{Check, SurfaceCheck, Verdict};
use geometry::order;
use geometry::side::Side;
use geometry::units::{Notation, format_length};

use crate::words::{bearing, gap_words};

/// How a forum marks up its posts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Markup {
    /// Tags in square brackets, as most boards have them.
    BbCode,
    /// Markdown, as `CommonMark` has it.
    Markdown,
    /// No marks at all.
    Plain,
}

/// What a post tells.
#[derive(Debug, Clone, Copy)]
pub struct Post<'a> {
    /// The car.
    pub car: &'a Car,
    /// Its gap list.
    pub check: &'a Check,
    /// What stops the tire, a sentence.
    pub finding: &'a str,
    /// What would make room, a sentence, where it is known.
    pub remedy: Option<&'a str>,
    /// Where the picture and all the numbers are; empty where there is no such place.
    pub link: &'a str,
    /// How lengths are written.
    pub notation: Notation,
}

/// Surfaces that a post lists at most: it is to be read at a glance.
const MOST: usize = 6;

/// The post, marked up.
#[must_use]
pub fn post(post: &Post, markup: Markup) -> String {
    let say = |length| format_length(length, post.notation);
    let text = |it: &str| plain(it, markup);
    let car = post.car;
    let wheel = format!(
        "{} tire on a {} rim, backspacing {}, axle {} flange to flange.",
        car.tire.designation.text,
        say(car.wheel.rim_width),
        say(car.wheel.backspacing),
        say(car.axle.width)
    );
    let mut blocks = vec![
        bold(&text(&car.name), markup),
        format!("{}\n{}", text(&wheel), text(post.finding)),
    ];
    let rows: Vec<String> = worst(post.check)
        .into_iter()
        .map(|(side, surface)| text(&row(side, surface, post.notation)))
        .collect();
    if !rows.is_empty() {
        let head = text("Nearest to the tire, with the gap asked for:");
        blocks.push(format!("{head}\n{}", list(&rows, markup)));
    }
    blocks.extend(post.remedy.map(text));
    if !post.link.is_empty() {
        blocks.push(linked(
            post.link,
            "To scale, from behind, with every number",
            markup,
        ));
    }
    blocks.join("\n\n")
}

/// The surfaces that come nearest to their targets, or fall farthest short of them, the worst first.
fn worst(check: &Check) -> Vec<(Side, &SurfaceCheck)> {
    let sides = check.sides.iter();
    let mut all: Vec<_> = sides
        .flat_map(|(side, list)| list.surfaces.iter().map(move |surface| (side, surface)))
        .collect();
    order::sort_by(&mut all, |(_, a), (_, b)| {
        let by_verdict = a.verdict.cmp(&b.verdict);
        by_verdict.then(a.reserve().total_cmp(&b.reserve()))
    });
    all.truncate(MOST);
    all
}

fn row(side: Side, surface: &SurfaceCheck, notation: Notation) -> String {
    let says = |gap: f64, target: f64| {
        let words = gap_words(gap, Verdict::of(gap, target), notation);
        format!("{words} ({})", format_length(target, notation))
    };
    format!(
        "{} {}: through travel {}, at ride height {}",
        side.word(),
        surface.name,
        says(surface.travel.low, surface.travel_target),
        says(surface.ride.low, surface.ride_target),
    )
}

/// The gap list as a table for a spreadsheet (RFC 4180): lengths in millimeters, no gap greater than what is proven.
#[must_use]
pub fn gaps_csv(check: &Check) -> String {
    let mut csv = "side,surface,at ride height (mm),asked for (mm),through travel (mm),asked for (mm),verdict,nearest\r\n".to_owned();
    for (side, list) in check.sides.iter() {
        for surface in &list.surfaces {
            let number = |length: f64| format!("{length:.2}");
            let cells = [
                side.word().to_owned(),
                cell(&surface.name),
                number(surface.ride.low),
                number(surface.ride_target),
                number(surface.travel.low),
                number(surface.travel_target),
                surface.verdict.word().to_owned(),
                cell(&bearing(surface.travel.witness.angle())),
            ];
            csv.push_str(&cells.join(","));
            csv.push_str("\r\n");
        }
    }
    csv
}

/// Text as a cell: quoted where it must be, and never a formula (common practice, no source: an apostrophe before
/// what a spreadsheet would compute).
fn cell(text: &str) -> String {
    let text = one_line(text);
    let computes = text.trim_start().starts_with(['=', '+', '-', '@']);
    let text = if computes { format!("'{text}") } else { text };
    if text.contains(['"', ',']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// Text in which the forum finds no mark of its own.
fn plain(text: &str, markup: Markup) -> String {
    let text = one_line(text);
    match markup {
        Markup::Plain => text,
        // Boards have no common way to write a bracket that is none.
        Markup::BbCode => text.replace('[', "(").replace(']', ")"),
        Markup::Markdown => {
            let mut out = String::with_capacity(text.len());
            for letter in text.chars() {
                // CommonMark 0.31, 2.4: any ASCII punctuation may be escaped; these may mean something in a line.
                if "\\`*_{}[]()<>#+-!|~&@:".contains(letter) {
                    out.push('\\');
                }
                out.push(letter);
            }
            out
        }
    }
}

/// Text without line ends, controls, and marks that turn the writing round.
fn one_line(text: &str) -> String {
    let is_hidden = |letter: char| {
        letter.is_control() || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.replace(is_hidden, " ")
}

fn bold(text: &str, markup: Markup) -> String {
    match markup {
        Markup::BbCode => format!("[b]{text}[/b]"),
        Markup::Markdown => format!("**{text}**"),
        Markup::Plain => text.to_owned(),
    }
}

fn list(rows: &[String], markup: Markup) -> String {
    let line = |before: &str| {
        let lines: Vec<String> = rows.iter().map(|row| format!("{before}{row}")).collect();
        lines.join("\n")
    };
    match markup {
        Markup::BbCode => format!("[list]\n{}\n[/list]", line("[*]")),
        // A list needs an empty line before it on some boards.
        Markup::Markdown => format!("\n{}", line("- ")),
        Markup::Plain => line("- "),
    }
}

/// An address with a name. What in it could end the mark is written as its number (RFC 3986, 2.1).
fn linked(address: &str, name: &str, markup: Markup) -> String {
    let mut safe = String::with_capacity(address.len());
    for letter in address.chars() {
        match letter {
            '[' => safe.push_str("%5B"),
            ']' => safe.push_str("%5D"),
            '(' => safe.push_str("%28"),
            ')' => safe.push_str("%29"),
            '<' => safe.push_str("%3C"),
            '>' => safe.push_str("%3E"),
            '"' => safe.push_str("%22"),
            ' ' => safe.push_str("%20"),
            letter => safe.push(letter),
        }
    }
    match markup {
        Markup::BbCode => format!("[url={safe}]{name}[/url]"),
        Markup::Markdown => format!("[{name}](<{safe}>)"),
        Markup::Plain => format!("{name}: {safe}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hostile_text_stays_text() {
        let name = "[url=x]=a\n*b* <img src=x onerror=y> \u{202e}|`";
        let markdown = plain(name, Markup::Markdown);
        let mut before = ' ';
        for letter in markdown.chars() {
            let means = "`*_[]()<>|".contains(letter);
            assert!(!means || before == '\\', "{letter} in {markdown}");
            before = letter;
        }
        assert!(!plain(name, Markup::BbCode).contains(['[', ']', '\n']));
        assert!(!plain(name, Markup::Plain).contains(['\n', '\u{202e}']));
    }

    #[test]
    fn cells_are_cells() {
        for (text, expected) in [
            ("tailpipe", "tailpipe"),
            ("=1+1", "'=1+1"),
            (" @x", "' @x"),
            ("a \"b\", c", "\"a \"\"b\"\", c\""),
            ("-2\n3", "'-2 3"),
        ] {
            assert_eq!(cell(text), expected);
        }
    }

    #[test]
    fn an_address_ends_where_it_ends() {
        let address = "file:///a (b)/[c]#car=1";
        let safe = "file:///a%20%28b%29/%5Bc%5D#car=1";
        assert_eq!(
            linked(address, "there", Markup::BbCode),
            format!("[url={safe}]there[/url]")
        );
        assert_eq!(
            linked(address, "there", Markup::Markdown),
            format!("[there](<{safe}>)")
        );
    }
}
