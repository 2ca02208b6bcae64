//! Any text typed or pasted into the station table, and whatever is then done to it.

use geometry::body::Surface;
use geometry::model::Model;
use geometry::side::Side;
use geometry::units::Notation;

use crate::clock::timed;
use crate::same;
use crate::source::Source;
use crate::state::opening;
use crate::state::stations::{
    Cell, SURFACES, Sheet, of_tape, read_kept, rows, table, thinned, with_sheet, write_kept,
};
use crate::state::work::Work;

/// What the buttons beside the table are called.
const BUTTONS: [&str; 4] = ["add-point", "remove-point", "add-station", "remove-station"];

/// What parts the text that is pasted from what is done before it.
const PASTE: u8 = b'|';

/// How near a thinned table keeps to the full one, mm.
const NEAR: f64 = 3.0;

pub fn ask(input: &[u8]) {
    let part = input.iter().position(|&byte| byte == PASTE);
    let (before, pasted) = input.split_at(part.unwrap_or(input.len()));
    let pasted = String::from_utf8_lossy(pasted.get(1..).unwrap_or_default());
    let mut source = Source::new(before);
    let notation = *source.choice(&Notation::ALL);
    let work = opening::invented(source.below(carfile::SCENARIOS.len()));
    let work = work.unwrap_or_else(|| panic!("an invented car opens"));
    let side = *source.choice(&Side::BOTH);
    let of_tape = of_tape(&work, side).unwrap_or_else(|| panic!("an invented car has readings"));
    let mut sheet = Sheet::of(&thinned(&of_tape, NEAR));
    while !source.is_done() {
        edit(&mut sheet, &mut source, notation);
    }
    let cells = timed("parting what is pasted", || rows(&pasted));
    let at = Cell {
        station: source.below(3),
        entry: source.below(7),
    };
    timed("pasting cells", || sheet.fill(at, &cells, notation));
    holds(&work, side, sheet.clone(), notation);
    for present in [None, Some(&sheet)] {
        match timed("reading a pasted table", || {
            Sheet::read(&pasted, present, notation)
        }) {
            Ok(read) => holds(&work, side, read, notation),
            Err(words) => assert!(
                words.contains("would be accepted") || words.contains("as typed"),
                "{words}"
            ),
        }
    }
}

/// One thing that somebody does in the table.
fn edit(sheet: &mut Sheet, source: &mut Source<'_>, notation: Notation) {
    let mut spot = || Cell {
        station: source.below(sheet.stations() + 1),
        entry: source.below(2 * sheet.points() + 2),
    };
    let at = spot();
    match source.below(5) {
        0 => sheet.enter(at, &source.text(), notation),
        1 => sheet.set_seam(source.below(sheet.points() + 1)),
        2 => {
            let surface: Surface = *source.choice(SURFACES);
            sheet.set_span(at.entry, surface);
        }
        _ => {
            let _ = sheet.act(BUTTONS[source.below(BUTTONS.len())], at);
        }
    }
}

/// The sheet can be shown, copied and kept, says what is wrong with it, and makes sheet metal or leaves the car its own.
fn holds(work: &Work, side: Side, sheet: Sheet, notation: Notation) {
    assert!(!timed("a table's markup", || table(side.word(), &sheet, true)).is_empty());
    let text = timed("copying a table", || sheet.text(notation));
    let back = Sheet::read(&text, Some(&sheet), notation);
    assert_eq!(back.as_ref(), Ok(&sheet), "copied as\n{text}");
    let kept = write_kept(&sheet);
    assert_eq!(
        read_kept(kept.iter().map(String::as_str)).as_ref(),
        Some(&sheet),
        "kept as {kept:#?}"
    );
    let flaws = timed("a table's flaws", || sheet.flaws(notation));
    let sound = sheet.sound_table();
    assert_eq!(sound.is_some(), flaws.is_empty(), "{flaws:#?}");
    let next = with_sheet(work, side, sheet);
    let Some(sound) = sound else {
        assert_eq!(
            next.car, work.car,
            "a table with flaws leaves the car its own"
        );
        return;
    };
    assert_eq!(next.car.sides.get(side).stations.as_ref(), Some(&sound));
    let thin = timed("thinning a table", || thinned(&sound, NEAR));
    assert!(thin.nonsense().is_empty(), "{thin:?}");
    match timed("a model of typed stations", || Model::new(&next.car)) {
        Ok(_) => same::comes_back(&next.car),
        Err(faults) => assert!(!faults.is_empty()),
    }
}
