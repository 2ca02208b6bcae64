//! Everything that must outlive a reload, and the text that it is kept as between two visits.
//!
//! Cars are kept as car files, to the last digit, so that a newer page reads what an older one kept. Each distinct car
//! stands once; steps point at it. A line that cannot be read is left out, never the rest with it.

use std::fmt::Write;
use std::sync::Arc;

use geometry::car::Car;
use geometry::side::{Side, Sides};
use geometry::units::LengthUnit;

use super::history::{History, Step};
use super::settings::{NOTATIONS, PAPERS, SHOWN, Settings, THEMES, chosen, stored};
use super::stations::{self, Sheet};
use super::wishes;
use super::work::{Source, Work};

/// What the first line of every desk begins with.
pub const FAMILY: &str = "lip-to-rail desk ";
/// The first line, with the version of the format.
const HEAD: &str = "lip-to-rail desk 1";

/// How many steps outlive a reload.
pub const STEPS_KEPT: usize = 30;

/// What outlives a reload.
#[derive(Debug, Clone, PartialEq)]
pub struct Desk {
    /// The present and what led to it.
    pub history: History<Work>,
    /// The reader's own cars that were put aside for another, the latest first.
    pub own: Vec<Work>,
    /// The settings.
    pub settings: Settings,
}

/// The desk as text.
pub fn write(history: &History<Work>, own: &[Work], settings: &Settings) -> String {
    let mut cars = Cars::default();
    let mut tail = String::new();
    let past = history.past();
    for step in &past[past.len().saturating_sub(STEPS_KEPT)..] {
        line(&mut tail, "step", &cars.refer(&step.state), &step.what);
        cars.belongings(&mut tail, &step.state);
    }
    line(&mut tail, "now", &cars.refer(history.settled()), "");
    cars.belongings(&mut tail, history.settled());
    for work in own {
        line(&mut tail, "own", &cars.refer(work), "");
        cars.belongings(&mut tail, work);
    }
    line(
        &mut tail,
        "set",
        "notation",
        stored(&NOTATIONS, settings.notation),
    );
    line(&mut tail, "set", "theme", stored(&THEMES, settings.theme));
    line(&mut tail, "set", "shown", stored(&SHOWN, settings.shown));
    line(
        &mut tail,
        "set",
        "seams",
        if settings.apart { "apart" } else { "together" },
    );
    line(&mut tail, "set", "paper", stored(&PAPERS, settings.paper));
    for wish in wishes::lines(&settings.preferences) {
        line(&mut tail, "wish", &wish, "");
    }
    format!("{HEAD}\n{}{tail}", cars.text)
}

/// One line of the tail.
fn line(text: &mut String, kind: &str, first: &str, rest: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{kind} {first} {rest}");
}

/// The cars and station tables written so far.
#[derive(Default)]
struct Cars {
    seen: Vec<Arc<Car>>,
    sheets: Vec<Arc<Sheet>>,
    text: String,
}

impl Cars {
    /// Three words that find a work again: its car, the car as opened, its source.
    fn refer(&mut self, work: &Work) -> String {
        let source = match work.source {
            Source::Invented(index) => index.to_string(),
            Source::File => "file".to_owned(),
            Source::Link => "link".to_owned(),
            Source::Begun => "begun".to_owned(),
        };
        format!(
            "{} {} {source}",
            self.place(&work.car),
            self.place(&work.opened)
        )
    }

    fn place(&mut self, car: &Arc<Car>) -> usize {
        if let Some(place) = self.seen.iter().position(|seen| seen == car) {
            return place;
        }
        self.seen.push(Arc::clone(car));
        self.block("car", carfile::brief(car, LengthUnit::Inch).lines());
        self.seen.len() - 1
    }

    /// What stands behind the line of a work: station tables that are being edited.
    fn belongings(&mut self, tail: &mut String, work: &Work) {
        for (side, sheet) in work.drafts.iter() {
            let Some(sheet) = sheet else { continue };
            let seen = self.sheets.iter().position(|seen| seen == sheet);
            let place = seen.unwrap_or_else(|| {
                self.sheets.push(Arc::clone(sheet));
                let lines = stations::write_kept(sheet);
                self.block("sheet", lines.iter().map(String::as_str));
                self.sheets.len() - 1
            });
            line(tail, "draft", side.word(), &place.to_string());
        }
    }

    fn block<'t>(&mut self, kind: &str, lines: impl Iterator<Item = &'t str>) {
        self.text.push_str(kind);
        self.text.push('\n');
        for line in lines {
            let _ = writeln!(self.text, "\t{line}");
        }
    }
}

/// Why a kept text gives no desk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unread {
    /// A newer version of the page kept it.
    Newer,
    /// It is no desk, or keeps no present.
    Damaged,
}

/// The desk that `text` keeps.
pub fn read(text: &str) -> Result<Desk, Unread> {
    let mut lines = text.lines().peekable();
    let head = lines.next().unwrap_or_default();
    if head != HEAD {
        let version = head.strip_prefix(FAMILY);
        let is_newer = version.is_some_and(|version| version.parse::<u32>().is_ok());
        return Err(if is_newer {
            Unread::Newer
        } else {
            Unread::Damaged
        });
    }
    let (mut cars, mut sheets) = (Vec::new(), Vec::new());
    // What a draft behind a line belongs to: the past, the present or the cars put aside.
    let mut last = "";
    let mut past = Vec::new();
    let (mut now, mut own, mut settings) = (None, Vec::new(), Settings::default());
    let mut wished = Vec::new();
    while let Some(line) = lines.next() {
        let (kind, rest) = line.split_once(' ').unwrap_or((line, ""));
        let mut block = Vec::new();
        while let Some(line) = lines.next_if(|line| line.starts_with('\t')) {
            block.push(&line[1..]);
        }
        match kind {
            // Numbers that do not go together yet are work as well.
            "car" => cars.push(
                carfile::read_unfinished(&block.join("\n"))
                    .ok()
                    .map(Arc::new),
            ),
            "sheet" => sheets.push(stations::read_kept(block.into_iter()).map(Arc::new)),
            "draft" => {
                let of = match last {
                    "step" => past.last_mut().map(|step: &mut Step<Work>| &mut step.state),
                    "now" => now.as_mut(),
                    "own" => own.last_mut(),
                    _ => None,
                };
                take_draft(of, rest, &sheets);
            }
            "set" => set(&mut settings, rest),
            "wish" => wished.push(rest),
            _ => {
                let read = work(rest, &cars);
                // A line that was left out leaves what stands behind it out too.
                last = if read.is_some() { kind } else { "" };
                let Some((state, what)) = read else { continue };
                match kind {
                    "step" => past.push(Step {
                        what: what.to_owned(),
                        state,
                    }),
                    "now" => now = Some(state),
                    "own" => own.push(state),
                    _ => {}
                }
            }
        }
    }
    settings.preferences = wishes::read(wished.into_iter());
    Ok(Desk {
        history: History::with_past(past, now.ok_or(Unread::Damaged)?),
        own,
        settings,
    })
}

/// Whether the desk holds all the work that its text keeps, down to each step and table.
pub fn is_whole(desk: &Desk, text: &str) -> bool {
    let works = |text: &str| {
        ["step", "now", "own", "draft"].map(|kind| {
            let lines = text.lines().map(|line| line.split(' ').next());
            lines.filter(|first| *first == Some(kind)).count()
        })
    };
    text.ends_with('\n') && works(text) == works(&write(&desk.history, &desk.own, &desk.settings))
}

/// Gives a work the station table that a line refers to.
fn take_draft(of: Option<&mut Work>, words: &str, sheets: &[Option<Arc<Sheet>>]) {
    let (side, place) = words.split_once(' ').unwrap_or_default();
    let side = Side::BOTH.into_iter().find(|one| one.word() == side);
    let sheet = place
        .trim()
        .parse()
        .ok()
        .and_then(|place: usize| sheets.get(place));
    if let (Some(work), Some(side), Some(Some(sheet))) = (of, side, sheet) {
        *work.drafts.get_mut(side) = Some(Arc::clone(sheet));
    }
}

/// The work that three words refer to, and what stands behind them.
fn work<'text>(words: &'text str, cars: &[Option<Arc<Car>>]) -> Option<(Work, &'text str)> {
    let mut parts = words.splitn(4, ' ');
    let mut car = || cars.get(parts.next()?.parse::<usize>().ok()?)?.clone();
    let (car, opened) = (car()?, car()?);
    let source = match parts.next()? {
        "file" => Source::File,
        "link" => Source::Link,
        "begun" => Source::Begun,
        index => Source::Invented(
            index
                .parse()
                .ok()
                .filter(|&index: &usize| index < carfile::SCENARIOS.len())?,
        ),
    };
    Some((
        Work {
            car,
            opened,
            source,
            drafts: Sides::default(),
        },
        parts.next().unwrap_or(""),
    ))
}

fn set(settings: &mut Settings, rest: &str) {
    let (what, word) = rest.split_once(' ').unwrap_or((rest, ""));
    match what {
        "notation" => settings.notation = chosen(&NOTATIONS, word).unwrap_or(settings.notation),
        "theme" => settings.theme = chosen(&THEMES, word).unwrap_or(settings.theme),
        "shown" => settings.shown = chosen(&SHOWN, word).unwrap_or(settings.shown),
        "paper" => settings.paper = chosen(&PAPERS, word).unwrap_or(settings.paper),
        "seams" => settings.apart = word == "apart",
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use drawing::sheets::Paper;
    use geometry::answers::Preferences;

    use geometry::units::Notation;

    use super::*;
    use crate::state::opening;
    use crate::state::stations::Cell;

    fn worked() -> Desk {
        let start = opening::invented(0).expect("the first invented car opens");
        let mut history = History::new(start.clone());
        history.commit(
            "Backspacing",
            start.with(|car| car.wheel.backspacing += 25.4),
            0.0,
        );
        history.commit(
            "Seam move, left",
            history
                .settled()
                .with(|car| car.sides.left.seam_move += 12.7),
            9e9,
        );
        let settings = Settings {
            notation: Notation::Millimeters,
            apart: true,
            paper: Paper::A4,
            preferences: wishes::moved(&Preferences::default(), "bump", true),
            ..Settings::default()
        };
        Desk {
            history,
            own: vec![
                start.with(|car| car.axle.spacer = 6.0),
                opening::begun(&start.car, &[]),
            ],
            settings,
        }
    }

    fn kept(desk: &Desk) -> String {
        write(&desk.history, &desk.own, &desk.settings)
    }

    #[test]
    fn a_car_whose_numbers_do_not_go_together_comes_back_as_well() {
        let mut desk = worked();
        let wrong = |car: &mut Car| car.sides.left.tape.to_seam.value = 300.0;
        let entered = desk.history.settled().with(wrong);
        assert!(geometry::model::Model::new(&entered.car).is_err());
        desk.history
            .commit("Flange face in to seam, left", entered, 1e10);
        desk.own
            .push(opening::invented(1).expect("another").with(wrong));
        let text = kept(&desk);
        let back = read(&text).expect("a desk");
        assert!(is_whole(&back, &text));
        assert_eq!(kept(&back), text);
    }

    #[test]
    fn what_is_kept_comes_back_the_same() {
        let desk = worked();
        let text = kept(&desk);
        let back = read(&text).expect("a desk");
        assert_eq!(kept(&back), text);
        // The very same: a link to it is as short as it was.
        assert_eq!(back.history.settled().car, desk.history.settled().car);
        assert_eq!(back.own, desk.own);
        assert_eq!(back.history.past().len(), 2);
        assert_eq!(back.history.undoable(), Some("Seam move, left"));
        assert_eq!((back.own.len(), back.settings), (2, desk.settings));
        assert!((back.history.settled().car.sides.left.seam_move - 12.7).abs() < 1e-6);
    }

    #[test]
    fn a_damaged_line_costs_that_line_only() {
        let text = kept(&worked())
            .replace("step 1 0", "step 77 0")
            .replace("theme auto", "theme sepia");
        let back = read(&text).expect("a desk");
        assert_eq!(
            back.history.settled().car.name,
            worked().history.settled().car.name
        );
        assert!(back.history.past().len() < worked().history.past().len());
        assert_eq!(back.settings.theme, Settings::default().theme);
        assert!(!is_whole(&back, &text));
        let whole = kept(&drafted());
        assert!(is_whole(&read(&whole).expect("a desk"), &whole));
        let cut = whole.trim_end();
        assert!(!is_whole(&read(cut).expect("a desk"), cut));
    }

    /// The worked desk with a station table that has a bad cell, in the present and in the last step.
    fn drafted() -> Desk {
        let mut desk = worked();
        let work = desk.history.settled().clone();
        let table = stations::of_tape(&work, Side::Right).expect("the coupe has stations");
        let mut sheet = Sheet::of(&table);
        sheet.enter(Cell::default(), "steep", Notation::Millimeters);
        let work = stations::with_sheet(&work, Side::Right, sheet);
        desk.history.commit("Stations", work.clone(), 2e10);
        desk.history
            .commit("Spacer", work.with(|car| car.axle.spacer = 3.0), 4e10);
        desk
    }

    #[test]
    fn a_table_with_a_bad_cell_comes_back_as_typed() {
        let desk = drafted();
        let text = kept(&desk);
        let back = read(&text).expect("a desk");
        assert_eq!(kept(&back), text);
        let drafts = &back.history.settled().drafts;
        assert_eq!(drafts, &desk.history.settled().drafts);
        assert!(drafts.left.is_none() && drafts.right.is_some());
        let steps = back.history.past().iter();
        let drafted: Vec<bool> = steps
            .map(|step| step.state.drafts.right.is_some())
            .collect();
        assert_eq!(drafted, [false, false, false, true]);
        // A damaged table costs itself only.
        let back = read(&text.replace("'steep", "?steep")).expect("a desk");
        assert_eq!(back.history.settled().drafts, Sides::default());
    }

    #[test]
    fn text_that_is_no_desk_is_none_and_no_cut_of_one_panics() {
        for text in ["", "something else", HEAD, "lip-to-rail desk x\nnow"] {
            assert_eq!(read(text), Err(Unread::Damaged));
        }
        assert_eq!(read("lip-to-rail desk 2\nand more"), Err(Unread::Newer));
        let text = kept(&drafted());
        for end in (0..text.len())
            .step_by(97)
            .filter(|&end| text.is_char_boundary(end))
        {
            let _ = read(&text[..end]);
        }
    }
}
