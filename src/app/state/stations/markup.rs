//! The station panel of a side as markup, and what each place of it shows.
//!
//! A table of some hundred boxes is laid out as text once for its size and filled place by place: as
//! components it would weigh a tenth of the whole page. Nothing that was typed is ever part of the markup,
//! but for the list of flaws, where it is escaped.

use geometry::units::{LengthUnit, Notation};

use super::flaws::{Flaw, Spot};
use super::sheet::{Cell, SURFACES, Sheet};
use super::thin::CHOICES;
use super::words::{counted, flaws_words};

/// What a side's block is made of. Words in braces are filled in, here and below.
const BLOCK: &str = r#"<div id="tape-{side}"><div class="tools">
<button type="button" data-do="own">Edit these stations</button>
<label for="keep-{side}">Points of the rounded corners</label><select id="keep-{side}">{choices}</select>
<span class="count" id="size-{side}"></span></div>
<p class="lead">This is what the tape readings stand for. With fewer points the straight runs lie on the tire’s side of a rounded corner: a gap comes out smaller by up to that much, not larger.</p></div>
<div hidden id="flaws-{side}" class="flaws banner"><p role="status" id="flaws-{side}-told"></p><ul id="flaws-{side}-list"></ul></div>
<div hidden id="tools-{side}" class="tools" role="group" aria-label="Rows and columns, {side}">
<span>At <b id="at-{side}"></b>:</span>
<button type="button" class="quiet" data-do="add-point">Add a point</button>
<button type="button" class="quiet" data-do="remove-point">Remove the point</button>
<button type="button" class="quiet" data-do="add-station">Add a station</button>
<button type="button" class="quiet" data-do="remove-station">Remove the station</button></div>
<div class="wide" tabindex="0" role="region" aria-label="Stations, {side} side"><table class="stations" id="sheet-{side}"></table></div>
<p class="said" role="status" id="said-{side}"></p>
<div hidden id="back-{side}" class="tools"><button type="button" class="quiet" data-do="back">Back to the tape readings</button>
<span class="count">This drops the side’s own table; Undo brings it back.</span></div>
<div class="whole-table"><label for="table-{side}">Paste a whole table</label>
<p class="lead" id="table-{side}-help">Angles in the first row, each over two columns, out and radius. Below it a row for each point from the quarter lip inward: its name (the seam’s row is named seam), the surface to the next point, then the numbers. Tabs, semicolons or commas part the cells; lengths are read in any notation.</p>
<textarea id="table-{side}" rows="5" spellcheck="false" autocomplete="off" wrap="off" aria-describedby="table-{side}-help"></textarea>
<div class="tools"><button type="button" class="quiet" data-do="read">Read this table</button>
<button type="button" class="quiet" data-do="copy">Copy as a table</button></div></div>"#;

/// A side's block, with an empty table.
pub fn block(side: &str) -> String {
    let choices = CHOICES.map(|(word, name, _)| option(word, name)).concat();
    BLOCK.replace("{choices}", &choices).replace("{side}", side)
}

/// The head of a table; each station adds its own and its `PARTS`.
const HEAD: &str = "<thead><tr><th scope=col rowspan=2>Point, lengths in <span id=unit-{side}></span><span class=heard id=out-{side}>out</span><span class=heard id=radius-{side}>radius</span></th>{marks}{stations}</tr><tr>{parts}</tr></thead><tbody>";
const PARTS: &str = "<th scope=col>out</th><th scope=col>radius</th>";
const STATION: &str = "<th scope=colgroup colspan=2><span id=station-{side}-{s}></span></th>";
const POINT: &str = "<tr><th scope=row id=point-{side}-{p}></th>{marks}{cells}</tr>";
const CELL: &str = "<td id=cell-{side}-{s}-{e}></td>";

/// The same of a table that can be edited.
const OWN_MARKS: &str = "<th scope=col rowspan=2 id=seam-{side}>Seam</th><th scope=col rowspan=2 id=span-{side}>Surface to the next point</th>";
const OWN_STATION: &str = r#"<th scope=colgroup colspan=2><span class=heard id=station-{side}-{s}></span><input type=text autocomplete=off spellcheck=false id=cell-{side}-{s}-0 aria-label="Angle of station {n}"><small class=flaw></small></th>"#;
const OWN_SEAM: &str = r#"<td class=seam><input type=radio name=seam-{side} id=seam-{side}-{p} aria-labelledby="seam-{side} point-{side}-{p}"><small class=flaw></small></td><td>"#;
const OWN_SPAN: &str = r#"<select id=span-{side}-{p} aria-labelledby="span-{side} point-{side}-{p}">{surfaces}</select><small class=flaw></small>"#;
const OWN_CELL: &str = r#"<td><input type=text autocomplete=off spellcheck=false id=cell-{side}-{s}-{e} aria-labelledby="point-{side}-{p} station-{side}-{s} {part}-{side}"><small class=flaw></small></td>"#;

/// The table's rows and columns, with empty places.
pub fn table(side: &str, sheet: &Sheet, editable: bool) -> String {
    let pick = |own: &'static str, read: &'static str| if editable { own } else { read };
    let (stations, points) = (sheet.stations(), sheet.points());
    let heads: String = (0..stations)
        .map(|station| {
            let head = numbered(pick(OWN_STATION, STATION), "{s}", station);
            numbered(&head, "{n}", station + 1)
        })
        .collect();
    let mut text = HEAD
        .replace("{marks}", pick(OWN_MARKS, ""))
        .replace("{stations}", &heads)
        .replace("{parts}", &PARTS.repeat(stations));
    let surfaces = SURFACES.iter().enumerate();
    let surfaces: String = surfaces
        .map(|(place, surface)| option(&place.to_string(), surface.label()))
        .collect();
    for point in 0..points {
        let mut cells = String::new();
        for entry in 0..2 * stations {
            let (station, radius) = (entry / 2, entry % 2 == 1);
            let cell = numbered(pick(OWN_CELL, CELL), "{s}", station);
            let cell = numbered(&cell, "{e}", Cell::of_point(station, point, radius).entry);
            cells += &cell.replace("{part}", if radius { "radius" } else { "out" });
        }
        let span = if point + 1 < points { OWN_SPAN } else { "" };
        let marks = [OWN_SEAM, span, "</td>"].concat();
        let row = POINT
            .replace("{marks}", if editable { &marks } else { "" })
            .replace("{cells}", &cells);
        text += &numbered(&row, "{p}", point);
    }
    text.replace("{surfaces}", &surfaces)
        .replace("{side}", side)
        + "</tbody>"
}

fn numbered(text: &str, mark: &str, number: usize) -> String {
    text.replace(mark, &number.to_string())
}

fn option(value: &str, name: &str) -> String {
    ["<option value=", value, ">", name, "</option>"].concat()
}

fn station_id(side: &str, station: usize) -> String {
    ["station-", side, "-", &station.to_string()].concat()
}

fn point_id(side: &str, point: usize) -> String {
    ["point-", side, "-", &point.to_string()].concat()
}

/// What a place shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Shows {
    /// A text.
    Text(String),
    /// What a box or a menu holds.
    Holds(String),
    /// A mark.
    Marked,
    /// Whether it is to be seen at all.
    Seen(bool),
    /// What is wrong with it, in a word or two.
    Wrong(&'static str),
    /// Markup of ours.
    Markup(String),
}

/// What every place of a side's block shows; `own` says whether the side has a sound table of its own.
pub fn places(
    side: &str,
    sheet: &Sheet,
    editable: bool,
    own: bool,
    notation: Notation,
) -> Vec<(String, Shows)> {
    let mut places = Vec::new();
    let named = |name: &str| [name, "-", side].concat();
    for (name, seen) in [("tape", !editable), ("tools", editable), ("back", editable)] {
        places.push((named(name), Shows::Seen(seen)));
    }
    let size = counted(sheet.stations(), sheet.points());
    places.push((named("size"), Shows::Text(size)));
    let unit = match notation.unit() {
        LengthUnit::Inch => "inches",
        LengthUnit::Millimeter => "millimeters",
    };
    places.push((named("unit"), Shows::Text(unit.to_owned())));
    for station in 0..sheet.stations() {
        places.push((
            station_id(side, station),
            Shows::Text(sheet.station_name(station)),
        ));
        for entry in usize::from(!editable)..=2 * sheet.points() {
            let cell = Cell { station, entry };
            let shown = sheet.shown(cell, notation);
            places.push((
                cell.id(side),
                if editable {
                    Shows::Holds(shown)
                } else {
                    Shows::Text(shown)
                },
            ));
        }
    }
    for point in 0..sheet.points() {
        places.push((point_id(side, point), Shows::Text(sheet.point_name(point))));
        let place = sheet
            .span(point)
            .and_then(|span| SURFACES.iter().position(|one| *one == span));
        if let (true, Some(place)) = (editable, place) {
            places.push((
                id_of(Spot::Span(point), side, sheet),
                Shows::Holds(place.to_string()),
            ));
        }
    }
    if editable {
        places.push((id_of(Spot::Seam, side, sheet), Shows::Marked));
    }
    let flaws = if editable {
        sheet.flaws(notation)
    } else {
        Vec::new()
    };
    places.push((named("flaws"), Shows::Seen(!flaws.is_empty())));
    let told = flaws_words(flaws.len(), own);
    places.push((format!("flaws-{side}-told"), Shows::Text(told)));
    let list = flaws
        .iter()
        .take(MOST)
        .map(|flaw| item(flaw, side, sheet))
        .collect();
    places.push((format!("flaws-{side}-list"), Shows::Markup(list)));
    let wrong = flaws.iter().filter(|flaw| flaw.spot != Spot::Whole);
    places.extend(wrong.map(|flaw| (id_of(flaw.spot, side, sheet), Shows::Wrong(flaw.brief))));
    places
}

/// The most flaws that are told at once: mending some of them is a beginning.
const MOST: usize = 12;

/// A flaw with a link to its place.
fn item(flaw: &Flaw, side: &str, sheet: &Sheet) -> String {
    let id = id_of(flaw.spot, side, sheet);
    let (place, words) = (escaped(&flaw.place), escaped(&flaw.words));
    format!("<li id={id}-flaw><a href=\"#{id}\" data-do=\"{id}\">{place}</a>: {words}</li>")
}

/// The id of the place where a flaw is.
fn id_of(spot: Spot, side: &str, sheet: &Sheet) -> String {
    match spot {
        Spot::Cell(cell) => cell.id(side),
        Spot::Span(point) => format!("span-{side}-{point}"),
        Spot::Seam => format!("seam-{side}-{}", sheet.seam()),
        Spot::Whole => Cell::default().id(side),
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::state::stations::tests_sheet;

    const TAPE: Notation = Notation::InchFractions;

    /// Every id that a markup gives.
    fn ids(markup: &str) -> Vec<String> {
        let ends = |c: char| matches!(c, '"' | ' ' | '>');
        let given = markup.split(" id=").skip(1);
        given
            .map(|rest| {
                rest.trim_start_matches('"')
                    .split(ends)
                    .next()
                    .unwrap_or("")
                    .to_owned()
            })
            .collect()
    }

    #[test]
    fn every_place_is_in_the_markup_once() {
        let sheet = tests_sheet();
        for editable in [false, true] {
            let whole = block("left") + &table("left", &sheet, editable);
            let given = ids(&whole);
            let known: BTreeSet<&String> = given.iter().collect();
            assert_eq!(known.len(), given.len(), "an id is given twice");
            for (id, _) in places("left", &sheet, editable, true, TAPE) {
                assert!(known.contains(&id), "{id}");
            }
            let named = whole
                .split("labelledby=\"")
                .skip(1)
                .filter_map(|rest| rest.split('"').next());
            for id in named.flat_map(|names| names.split(' ')) {
                assert!(known.contains(&id.to_owned()), "{id}");
            }
        }
    }

    #[test]
    fn places_show_the_sheet() {
        let sheet = tests_sheet();
        let of = |editable, id: &str| {
            let places = places("left", &sheet, editable, true, TAPE);
            places
                .into_iter()
                .find(|(place, _)| place == id)
                .map(|(_, shows)| shows)
        };
        let text = |text: &str| Some(Shows::Text(text.to_owned()));
        assert_eq!(of(false, "cell-left-0-2"), text("12 5/8"));
        assert_eq!(
            of(true, "cell-left-0-2"),
            Some(Shows::Holds("12 5/8".to_owned()))
        );
        assert_eq!(of(true, "station-left-0"), text("30° behind"));
        assert_eq!(of(true, "point-left-3"), text("Seam"));
        assert_eq!(of(true, "span-left-4"), Some(Shows::Holds("4".to_owned())));
        assert_eq!(of(true, "seam-left-3"), Some(Shows::Marked));
        assert_eq!(of(false, "seam-left-3"), None);
        assert_eq!(of(true, "tape-left"), Some(Shows::Seen(false)));
        assert_eq!(of(true, "flaws-left"), Some(Shows::Seen(false)));
    }

    #[test]
    fn a_flaw_is_told_beside_its_cell_and_in_the_list() {
        let mut sheet = tests_sheet();
        sheet.enter(Cell::of_point(0, 5, false), "<b>&", TAPE);
        let places = places("right", &sheet, true, true, TAPE);
        let shown = |id: &str| {
            let mut found = places.iter().filter(|(place, _)| place == id);
            found.next_back().map(|(_, shows)| shows.clone())
        };
        let cell = "cell-right-0-11";
        assert_eq!(shown(cell), Some(Shows::Wrong("not understood")));
        let Some(Shows::Markup(list)) = shown("flaws-right-list") else {
            panic!("a list")
        };
        assert!(
            list.starts_with("<li id=cell-right-0-11-flaw><a href=\"#cell-right-0-11\""),
            "{list}"
        );
        assert!(
            list.contains("Tub wall, low, 30° behind, out</a>: ") && list.contains("&lt;b>&amp;"),
            "{list}"
        );
        assert_eq!(shown("flaws-right"), Some(Shows::Seen(true)));
    }
}
