//! The room chart in words: what it finds, and its data as a table.

use geometry::check::Verdict;
use geometry::room::{RoomChart, RowRoom};
use geometry::units::{Notation, format_length};

use super::rows;

/// Rows in the table at most.
const MOST_ROWS: usize = 16;

/// The chart's data, written out.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RoomTable {
    /// The heads of the columns.
    pub heads: Vec<String>,
    /// A row for each of some section widths.
    pub rows: Vec<Vec<String>>,
}

/// Where the tub is: `with the stock tub`, `with the tub moved 3 in`.
#[must_use]
pub fn room_tub(chart: &RoomChart, moved: bool, notation: Notation) -> String {
    if moved {
        format!(
            "with the tub moved {}",
            format_length(chart.options.seam, notation)
        )
    } else {
        "with the stock tub".to_owned()
    }
}

/// What the chart shows, in one sentence: the widest tire that clears with either tub, and at which backspacings.
#[must_use]
pub fn room_finding(chart: &RoomChart, notation: Notation) -> String {
    let [stock, moved] = [false, true].map(|moved| says(chart, moved, notation));
    capital(&format!("{stock}; {moved}."))
}

/// The same for the tub in one of its two places.
#[must_use]
pub fn room_finding_with(chart: &RoomChart, moved: bool, notation: Notation) -> String {
    capital(&format!("{}.", says(chart, moved, notation)))
}

fn says(chart: &RoomChart, moved: bool, notation: Notation) -> String {
    let rows = rows(chart, moved);
    let with = room_tub(chart, moved, notation);
    let of = |pick: fn(&RowRoom) -> &Vec<[f64; 2]>| {
        let mut widest = rows.iter().rev();
        widest.find_map(|(width, room)| Some((*width, *pick(room).first()?)))
    };
    let length = |mm: f64| format_length(mm, notation);
    if let Some((width, [from, to])) = of(|room| &room.clear) {
        let [from, to] = [length(from), length(to)];
        let there = if from == to {
            format!("a backspacing of {from}")
        } else {
            format!("backspacings from {from} to {to}")
        };
        format!(
            "{with} everything clears up to a section of {}, there at {there}",
            length(width)
        )
    } else if let Some((width, _)) = of(|room| &room.free) {
        format!(
            "{with} nothing clears, and nothing hits up to a section of {}",
            length(width)
        )
    } else {
        format!("{with} every tire of this chart hits")
    }
}

fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Some of the rows, written out.
#[must_use]
pub fn room_rows(chart: &RoomChart, notation: Notation) -> RoomTable {
    let heads = ["section width", "stock tub: free", "stock tub: clears"];
    let moved = room_tub(chart, true, notation);
    let heads = heads
        .map(str::to_owned)
        .into_iter()
        .chain([format!("{moved}: free"), format!("{moved}: clears")]);
    let step = chart
        .rows
        .len()
        .saturating_sub(1)
        .div_ceil(MOST_ROWS - 1)
        .max(1);
    let ranges = |room: Option<&RowRoom>, verdict: Verdict| {
        let Some(room) = room else {
            return "no such tire on this rim".to_owned();
        };
        let ranges = if verdict == Verdict::Clears {
            &room.clear
        } else {
            &room.free
        };
        if ranges.is_empty() {
            return "nowhere".to_owned();
        }
        let one = |[from, to]: &[f64; 2]| {
            format!(
                "{} to {}",
                format_length(*from, notation),
                format_length(*to, notation)
            )
        };
        ranges.iter().map(one).collect::<Vec<_>>().join(", ")
    };
    let rows = chart.rows.iter().enumerate();
    let shown = rows.filter(|(i, _)| i % step == 0 || i + 1 == chart.rows.len());
    RoomTable {
        heads: heads.collect(),
        rows: shown
            .map(|(_, row)| {
                let mut cells = vec![format_length(row.width, notation)];
                for room in [&row.stock, &row.moved] {
                    cells.push(ranges(room.as_ref(), Verdict::Tight));
                    cells.push(ranges(room.as_ref(), Verdict::Clears));
                }
                cells
            })
            .collect(),
    }
}
