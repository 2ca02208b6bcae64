//! What is done in a station table: typing, keys, pasting, buttons. One listener hears all of it.

use std::sync::Arc;

use geometry::side::Side;
use leptos::ev::{ClipboardEvent, Event, KeyboardEvent};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::closure::Closure;
use leptos::web_sys::{
    Element, HtmlDocument, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement,
};

use super::station_places::{by_id, set};
use super::store::Bench;
use crate::state::settings::chosen;
use crate::state::stations::{self, Cell, SURFACES, Sheet, THIN_CHOICES, counted, way};

/// The events that are listened to.
const EVENTS: [&str; 6] = ["input", "change", "keydown", "paste", "focusin", "click"];

/// The sheet of a side, and whether it is the side's own.
pub type Shown = Option<(Arc<Sheet>, bool)>;

/// One side's stations at work.
#[derive(Clone, Copy)]
pub struct SideTable {
    /// The bench.
    pub bench: Bench,
    /// The side.
    pub side: Side,
    /// What is shown.
    pub shown: Memo<Shown>,
    /// How far a table made from the tape readings may stray from them, mm.
    pub stray: RwSignal<f64>,
    /// The cell that was used last.
    pub at: StoredValue<Cell>,
}

/// Hears what is done in a side's block.
pub fn listen(block: &HtmlElement, table: &SideTable) {
    let table = *table;
    // Not `FnMut`: leaving a cell by a key is heard while the key is.
    let hear = Closure::<dyn Fn(Event)>::new(move |event: Event| {
        // What is not for us is left alone.
        let _ = table.hear(&event);
    });
    // The browser keeps it as long as the block.
    let hear = hear.into_js_value();
    for name in EVENTS {
        // A listener of this kind is always accepted.
        let _ = block.add_event_listener_with_callback(name, hear.unchecked_ref());
    }
}

impl SideTable {
    fn hear(&self, event: &Event) -> Option<()> {
        let target: Element = event.target()?.dyn_into().ok()?;
        let kind = event.type_();
        if kind == "click" {
            let pressed = target.closest("[data-do]").ok()??;
            event.prevent_default();
            self.press(&pressed.get_attribute("data-do")?);
            return Some(());
        }
        let id = target.id();
        let Some(input) = target.dyn_ref::<HtmlInputElement>() else {
            let menu: &HtmlSelectElement = target.dyn_ref()?;
            if kind == "change" {
                self.choose(&id, &menu.value());
            }
            return Some(());
        };
        let Some(cell) = Cell::of_id(&id) else {
            if kind == "change" {
                let point = id.rsplit('-').next()?.parse().ok()?;
                self.edit("Seam", &mut |sheet| sheet.set_seam(point));
            }
            return Some(());
        };
        match kind.as_str() {
            "input" => set(input, "data-typing", ""),
            "change" => self.enter(input, cell),
            "keydown" => self.key(event.dyn_ref()?, input, cell),
            "paste" => self.paste(event.dyn_ref()?, cell)?,
            _ => {
                self.at.set_value(cell);
                self.shown.with_untracked(|shown| {
                    if let Some((sheet, _)) = shown {
                        self.name_place(sheet);
                    }
                });
                input.select();
            }
        }
        Some(())
    }

    /// Takes what was typed into a cell.
    fn enter(&self, input: &HtmlInputElement, cell: Cell) {
        let (text, notation) = (input.value(), self.notation());
        // What is shown from now on is what the sheet holds.
        let _ = input.remove_attribute("data-typing");
        let mut shown = String::new();
        let name = self
            .sheet()
            .map_or(String::new(), |sheet| sheet.spot_name(cell));
        self.edit(&name, &mut |sheet| {
            sheet.enter(cell, &text, notation);
            shown = sheet.shown(cell, notation);
        });
        input.set_value(&shown);
    }

    fn key(&self, event: &KeyboardEvent, input: &HtmlInputElement, cell: Cell) {
        let Some(sheet) = self.sheet() else { return };
        if event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if event.key() == "Escape" {
            let _ = input.remove_attribute("data-typing");
            input.set_value(&sheet.shown(cell, self.notation()));
        }
        let end = |end: Option<u32>| end.unwrap_or_default();
        let length = u32::try_from(input.value().encode_utf16().count()).unwrap_or_default();
        let caret = (
            end(input.selection_start().ok().flatten()),
            end(input.selection_end().ok().flatten()),
            length,
        );
        if let Some(way) = way(&event.key(), event.shift_key(), caret) {
            event.prevent_default();
            // At the edge of the table the cell is left for a moment, which hands in what was typed.
            let next = sheet.next(cell, way).unwrap_or(cell);
            let _ = input.blur();
            self.focus(next);
        }
    }

    fn paste(&self, event: &ClipboardEvent, cell: Cell) -> Option<()> {
        let text = event.clipboard_data()?.get_data("text/plain").ok()?;
        let rows = stations::rows(&text);
        // A single text goes into the box, where the cursor is.
        if rows.iter().map(Vec::len).sum::<usize>() > 1 {
            event.prevent_default();
            self.edit("Paste", &mut |sheet| {
                let filled = sheet.fill(cell, &rows, self.notation());
                self.say(&stations::filled_words(filled));
            });
        }
        Some(())
    }

    /// A menu: the surface of a span, or how many points the rounded corners keep.
    fn choose(&self, id: &str, word: &str) {
        let point = id.rsplit('-').next().and_then(|point| point.parse().ok());
        let surface = word
            .parse()
            .ok()
            .and_then(|place: usize| SURFACES.get(place));
        match (point, surface) {
            (Some(point), Some(&surface)) => {
                self.edit("Surface", &mut |sheet| sheet.set_span(point, surface));
            }
            _ => self
                .stray
                .set(chosen(&THIN_CHOICES, word).unwrap_or(THIN_CHOICES[0].2)),
        }
    }

    /// A button, or the link of a flaw, which bears the id of its place.
    fn press(&self, what: &str) {
        let (bench, side) = (self.bench, self.side);
        let word = side.word();
        let Some(sheet) = self.sheet() else { return };
        self.say("");
        match what {
            "own" => {
                let work = stations::with_sheet(&bench.settled(), side, Sheet::clone(&sheet));
                bench.put(&format!("Own stations, {word}"), work);
                self.focus_soon(Cell::default());
            }
            "back" => {
                bench.put(
                    &format!("Back to the tape, {word}"),
                    stations::without(&bench.settled(), side),
                );
                let size = counted(sheet.stations(), sheet.points());
                self.say(&format!("The {word} side is back on its tape readings. Its own {size} are dropped; Undo brings them back."));
            }
            "read" => self.read(&sheet),
            "copy" => self.copy(&sheet),
            _ => {
                let mut done = Err(None);
                self.edit("Rows and columns", &mut |sheet| {
                    done = sheet.act(what, self.at.get_value());
                });
                match done {
                    Ok(next) => self.focus_soon(next),
                    Err(Some(cannot)) => self.say(cannot),
                    Err(None) => focus(what),
                }
            }
        }
    }

    /// Takes the table in the text box for the side's own.
    fn read(&self, present: &Sheet) {
        let Some(held) = self.text_box() else { return };
        match Sheet::read(&held.value(), Some(present), self.notation()) {
            Ok(sheet) => {
                self.say(&format!(
                    "Read: {}.",
                    counted(sheet.stations(), sheet.points())
                ));
                let work = stations::with_sheet(&self.bench.settled(), self.side, sheet);
                self.bench
                    .put(&format!("Paste a table, {}", self.side.word()), work);
            }
            Err(words) => self.say(&words),
        }
    }

    /// Puts the table into the text box and from there on the clipboard.
    fn copy(&self, sheet: &Sheet) {
        let Some(held) = self.text_box() else { return };
        held.set_value(&sheet.text(self.notation()));
        held.select();
        let page = document().dyn_into::<HtmlDocument>();
        let copied = page.is_ok_and(|page| page.exec_command("copy").unwrap_or(false));
        self.say(if copied {
            "Copied. Paste it into a spreadsheet; what comes back from there can be pasted here."
        } else {
            "The browser does not let the page copy. The table is in the box, selected."
        });
    }

    /// Changes the side's own sheet, as a step called `what`.
    fn edit(&self, what: &str, change: &mut dyn FnMut(&mut Sheet)) {
        let work = self.bench.settled();
        if let Some(sheet) = stations::present(&work, self.side) {
            let mut sheet = Sheet::clone(&sheet);
            change(&mut sheet);
            let what = format!("{what}, {}", self.side.word());
            self.bench
                .put(&what, stations::with_sheet(&work, self.side, sheet));
        }
    }

    /// Tells what was done.
    pub fn say(&self, words: &str) {
        self.tell("said-", words);
    }

    /// Names the cell that the buttons act at.
    pub fn name_place(&self, sheet: &Sheet) {
        self.tell("at-", &sheet.spot_name(self.at.get_value()));
    }

    fn tell(&self, place: &str, words: &str) {
        if let Some(place) = by_id(&[place, self.side.word()].concat()) {
            place.set_text_content(Some(words));
        }
    }

    fn sheet(&self) -> Option<Arc<Sheet>> {
        self.shown
            .with_untracked(|shown| shown.as_ref().map(|(sheet, _)| Arc::clone(sheet)))
    }

    fn text_box(&self) -> Option<HtmlTextAreaElement> {
        by_id(&["table-", self.side.word()].concat())?
            .dyn_into()
            .ok()
    }

    fn notation(&self) -> geometry::units::Notation {
        self.bench.notation.get_untracked()
    }

    fn focus(&self, cell: Cell) {
        focus(&cell.id(self.side.word()));
    }

    /// Moves the focus to a cell that is about to be made.
    fn focus_soon(&self, cell: Cell) {
        let id = cell.id(self.side.word());
        request_animation_frame(move || focus(&id));
    }
}

fn focus(id: &str) {
    if let Some(place) = by_id(id) {
        // A place that takes no focus leaves it where it is.
        let _ = place.focus();
    }
}
