//! Lays headings, text, tables and figures down a column of pages.

use geometry::car::Car;
use geometry::model::Model;
use geometry::space::{Vec2, vec2};
use geometry::units::{MM_PER_INCH, Notation, format_length};

use super::paper::{HEADING, LEADING, Lie, MARGIN, NOTE, TEXT, TITLE};
use super::table::{Cell, Table};
use super::wrap::wrapped;
use super::{Kind, SheetOptions};
use crate::role::Role;
use crate::scene::{Anchor, Group, Scene, Shape, View};

/// Between two things that stand one above the other, mm.
const GAP: f64 = 3.0;
/// What the title block takes, mm.
const TITLE_BLOCK: f64 = 24.0;
/// What the foot takes, mm.
const FOOT: f64 = 9.0;
/// Beside the words of a cell, mm.
pub(super) const PAD: f64 = 1.2;
/// How high a row with a blank is at least, mm: room for a hand's writing.
const BLANK_ROW: f64 = 7.6;

/// Every sheet's foot.
const NOT_APPROVAL: &str = "Geometry, not approval. Local rules and licensed practice decide. Check each number on the car before cutting.";

/// Pages in the making.
pub(super) struct Flow<'a> {
    kind: Kind,
    model: &'a Model,
    options: &'a SheetOptions,
    pages: Vec<Page>,
    /// Where the next thing begins on the last page.
    y: f64,
}

struct Page {
    view: View,
    words: Group,
    figure: Group,
}

impl<'a> Flow<'a> {
    pub fn new(kind: Kind, model: &'a Model, options: &'a SheetOptions) -> Self {
        let mut flow = Self {
            kind,
            model,
            options,
            pages: Vec::new(),
            y: 0.0,
        };
        flow.page(Lie::Upright);
        flow
    }

    /// Begins a page.
    pub fn page(&mut self, lie: Lie) {
        self.pages.push(Page {
            view: self.options.paper.view(lie),
            words: Group::new("words", None),
            figure: Group::new("figure", None),
        });
        self.y = MARGIN + TITLE_BLOCK;
    }

    /// A length as the sheet writes it.
    pub fn say(&self, length: f64) -> String {
        format_length(length, self.options.notation)
    }

    /// A length as the sheet writes it, and in millimeters where it does not.
    pub fn say_both(&self, length: f64) -> String {
        both(length, self.options.notation)
    }

    /// What of the page is left to be filled: left, top, width, height.
    pub fn rest(&self) -> View {
        room(self.last().view, self.y)
    }

    /// What an empty page that lies across has to be filled.
    pub fn room_across(&self) -> View {
        room(self.options.paper.view(Lie::Across), MARGIN + TITLE_BLOCK)
    }

    /// Begins a page where less than `height` is left.
    pub fn need(&mut self, height: f64) {
        if self.rest().height < height {
            self.page(Lie::Upright);
        }
    }

    pub fn heading(&mut self, words: &str) {
        // A heading never stands alone at a page's foot.
        self.need(HEADING * LEADING + 4.0 * TEXT * LEADING);
        self.y += GAP / 2.0;
        self.lines(words, 0.0, HEADING, Role::SheetHeading);
        self.y += GAP / 3.0;
    }

    pub fn paragraph(&mut self, words: &str) {
        self.lines(words, 0.0, TEXT, Role::Text);
        self.y += GAP / 2.0;
    }

    pub fn note(&mut self, words: &str) {
        self.lines(words, 0.0, NOTE, Role::Note);
        self.y += GAP / 2.0;
    }

    /// Numbered steps.
    pub fn steps(&mut self, steps: &[String]) {
        const INDENT: f64 = 7.0;
        for (index, step) in steps.iter().enumerate() {
            let lines = wrapped(step, self.rest().width - INDENT, TEXT, Role::Text).len();
            self.need(lines as f64 * TEXT * LEADING);
            let at = vec2(MARGIN, self.y + TEXT);
            self.put(
                at,
                Anchor::Start,
                TEXT,
                Role::SheetHeading,
                format!("{}.", index + 1),
            );
            self.lines(step, INDENT, TEXT, Role::Text);
            self.y += GAP / 4.0;
        }
        self.y += GAP / 4.0;
    }

    /// Cautions, in a frame.
    pub fn cautions(&mut self, cautions: &[&str]) {
        let inner = self.rest().width - 4.0;
        let count: usize = cautions
            .iter()
            .map(|words| wrapped(words, inner - 5.0, TEXT, Role::Text).len())
            .sum();
        let height = count as f64 * TEXT * LEADING + HEADING * LEADING + 4.0;
        self.need(height);
        let top = self.y;
        self.y += 1.5;
        let at = vec2(MARGIN + 2.0, self.y + HEADING);
        self.put(
            at,
            Anchor::Start,
            HEADING,
            Role::SheetHeading,
            "Take care".to_owned(),
        );
        self.y += HEADING * LEADING;
        for words in cautions {
            let at = vec2(MARGIN + 2.0, self.y + TEXT);
            self.put(at, Anchor::Start, TEXT, Role::Text, "\u{2022}".to_owned());
            self.lines_within(words, [5.0, 2.0], TEXT, Role::Text);
        }
        self.y += 1.5;
        let rest = self.rest();
        let frame = rectangle(vec2(rest.x, top), vec2(rest.x + rest.width, self.y));
        self.figure_group().add(Role::Axis, frame);
        self.y += GAP;
    }

    /// A table with its title, its title and heads again on each page.
    pub fn table(&mut self, table: &Table) {
        let widths = table.widths(self.rest().width);
        let row_height = |cells: &[Vec<String>], has_blank: bool| {
            let lines = cells.iter().map(Vec::len).max().unwrap_or(1);
            let height = lines as f64 * NOTE * LEADING + 2.0 * PAD;
            if has_blank {
                height.max(BLANK_ROW)
            } else {
                height
            }
        };
        let heads: Vec<Vec<String>> = table
            .heads
            .iter()
            .zip(&widths)
            .map(|((head, _), width)| wrapped(head, width - 2.0 * PAD, NOTE, Role::SheetHeading))
            .collect();
        let head_height = row_height(&heads, false);
        self.need(HEADING * LEADING + head_height + 3.0 * BLANK_ROW);
        if !table.title.is_empty() {
            self.lines(&table.title, 0.0, TEXT, Role::SheetHeading);
            self.y += GAP / 4.0;
        }
        let mut top = self.y;
        self.cells(&heads, &widths, Role::SheetHeading, head_height);
        for row in &table.rows {
            let words: Vec<Vec<String>> = row
                .iter()
                .zip(&widths)
                .map(|(cell, width)| match cell {
                    Cell::Words(words) => wrapped(words, width - 2.0 * PAD, NOTE, Role::Text),
                    Cell::Blank => vec![String::new()],
                })
                .collect();
            let height = row_height(&words, row.contains(&Cell::Blank));
            if self.rest().height < height {
                self.rules(top, &widths);
                self.page(Lie::Upright);
                if !table.title.is_empty() {
                    let title = format!("{}, continued", table.title);
                    self.lines(&title, 0.0, TEXT, Role::SheetHeading);
                    self.y += GAP / 4.0;
                }
                top = self.y;
                self.cells(&heads, &widths, Role::SheetHeading, head_height);
            }
            self.cells(&words, &widths, Role::Text, height);
        }
        self.rules(top, &widths);
        self.y += GAP;
    }

    /// A figure of so much height, across the page; what `draw` is given is its frame.
    pub fn figure(&mut self, height: f64, draw: impl FnOnce(&mut Group, View)) {
        self.need(height);
        let frame = View {
            height,
            ..self.rest()
        };
        draw(self.figure_group(), frame);
        self.y += height + GAP;
    }

    /// Draws on the last page wherever it likes.
    pub fn figure_group(&mut self) -> &mut Group {
        let last = self.pages.len() - 1;
        &mut self.pages[last].figure
    }

    /// The pages, each with its title block and its foot.
    pub fn pages(self) -> Vec<Scene> {
        let count = self.pages.len();
        let (kind, car, options) = (self.kind, &self.model.car, self.options);
        let finished = self.pages.into_iter().enumerate();
        finished
            .map(|(index, page)| {
                let place = format!("page {} of {count}", index + 1);
                let frame = frame(page.view, kind, car, options, &place);
                let words = page.words.items.iter().chain(&page.figure.items);
                let told: Vec<&str> = words
                    .filter_map(|item| match &item.shape {
                        Shape::Text { text, .. } => Some(text.as_str()),
                        _ => None,
                    })
                    .collect();
                Scene {
                    name: "sheet-page",
                    title: format!("{} for {}, {place}", kind.title(), car.name),
                    description: told.join(" "),
                    view: page.view,
                    groups: vec![frame, page.figure, page.words],
                    handles: Vec::new(),
                }
            })
            .collect()
    }

    fn last(&self) -> &Page {
        &self.pages[self.pages.len() - 1]
    }

    fn put(&mut self, at: Vec2, anchor: Anchor, size: f64, role: Role, text: String) {
        let last = self.pages.len() - 1;
        self.pages[last].words.add(
            role,
            Shape::Text {
                at,
                anchor,
                size,
                text,
            },
        );
    }

    fn lines(&mut self, words: &str, indent: f64, size: f64, role: Role) {
        self.lines_within(words, [indent, 0.0], size, role);
    }

    fn lines_within(&mut self, words: &str, [left, right]: [f64; 2], size: f64, role: Role) {
        for line in wrapped(words, self.rest().width - left - right, size, role) {
            self.need(size * LEADING);
            let at = vec2(MARGIN + left, self.y + size);
            self.put(at, Anchor::Start, size, role, line);
            self.y += size * LEADING;
        }
    }

    fn cells(&mut self, cells: &[Vec<String>], widths: &[f64], role: Role, height: f64) {
        let mut x = MARGIN + PAD;
        for (lines, width) in cells.iter().zip(widths) {
            for (index, line) in lines.iter().enumerate() {
                if !line.is_empty() {
                    let y = self.y + PAD + NOTE + index as f64 * NOTE * LEADING;
                    self.put(vec2(x, y), Anchor::Start, NOTE, role, line.clone());
                }
            }
            x += width;
        }
        self.y += height;
        let rest = self.rest();
        let y = self.y;
        let line = Shape::line([vec2(rest.x, y), vec2(rest.x + rest.width, y)]);
        self.figure_group().add(Role::Grid, line);
    }

    /// The upright rules of a table and its frame, from `top` to here.
    fn rules(&mut self, top: f64, widths: &[f64]) {
        let (rest, y) = (self.rest(), self.y);
        let mut x = rest.x;
        for width in &widths[..widths.len().saturating_sub(1)] {
            x += width;
            let line = Shape::line([vec2(x, top), vec2(x, y)]);
            self.figure_group().add(Role::Grid, line);
        }
        let frame = rectangle(vec2(rest.x, top), vec2(rest.x + rest.width, y));
        self.figure_group().add(Role::Axis, frame);
    }
}

/// A length as `notation` writes it, and in millimeters where it does not.
pub(super) fn both(length: f64, notation: Notation) -> String {
    let told = format_length(length, notation);
    match notation {
        Notation::Millimeters => told,
        _ => format!("{told} ({})", format_length(length, Notation::Millimeters)),
    }
}

/// A gauge with its thickness, mm, as `notation` writes it.
pub(super) fn gauge_words(gauge: f64, thickness: f64, notation: Notation) -> String {
    let millimeters = format!("{thickness:.2} mm");
    match notation {
        Notation::Millimeters => format!("{gauge:.0} gauge steel sheet, {millimeters}"),
        _ => format!(
            "{gauge:.0} gauge steel sheet, {:.4} in ({millimeters})",
            thickness / MM_PER_INCH
        ),
    }
}

/// What tells one set of sheets of a car from another: tire, wheel and what is cut.
fn plan(car: &Car, notation: Notation) -> String {
    let say = |length: f64| format_length(length, notation);
    let [left, right] = [&car.sides.left, &car.sides.right].map(|side| {
        let roof = if side.roof_raise > 0.0 {
            format!(" and roof {} up", say(side.roof_raise))
        } else {
            String::new()
        };
        format!("{}{roof}", say(side.seam_move))
    });
    let seam = if left == right {
        left
    } else {
        format!("{left} left, {right} right")
    };
    format!(
        "{} on {}, backspacing {}, track width {}, seam moved {seam}",
        car.tire.designation.text,
        say(car.wheel.rim_width),
        say(car.wheel.backspacing),
        say(car.track_width())
    )
}

/// The title block and the foot.
fn frame(view: View, kind: Kind, car: &Car, options: &SheetOptions, place: &str) -> Group {
    let mut group = Group::new("frame", None);
    let (left, right) = (MARGIN, view.width - MARGIN);
    let mut text = |at: Vec2, anchor: Anchor, size: f64, role: Role, words: &str| {
        group.add(
            role,
            Shape::Text {
                at,
                anchor,
                size,
                text: words.to_owned(),
            },
        );
    };
    let units = match options.notation {
        Notation::InchFractions => "inches, as a tape reads",
        Notation::InchDecimals => "inches, decimals",
        Notation::Millimeters => "millimeters",
    };
    text(
        vec2(left, MARGIN + TITLE),
        Anchor::Start,
        TITLE,
        Role::SheetHeading,
        kind.title(),
    );
    let room = (right - left) * 0.72;
    let name = wrapped(&car.name, room, TEXT, Role::Text).swap_remove(0);
    let plan = wrapped(&plan(car, options.notation), right - left, NOTE, Role::Note).swap_remove(0);
    for (down, size, role, words) in [
        (13.5, TEXT, Role::Text, &name),
        (18.5, NOTE, Role::Note, &plan),
    ] {
        text(vec2(left, MARGIN + down), Anchor::Start, size, role, words);
    }
    let date = if options.date.is_empty() {
        "date ____________"
    } else {
        &options.date
    };
    for (index, words) in [date, units, place].into_iter().enumerate() {
        let y = MARGIN + NOTE + index as f64 * NOTE * LEADING;
        text(vec2(right, y), Anchor::End, NOTE, Role::Note, words);
    }
    let foot = view.height - MARGIN;
    text(
        vec2(left, foot),
        Anchor::Start,
        NOTE,
        Role::Note,
        NOT_APPROVAL,
    );
    for y in [MARGIN + TITLE_BLOCK - 3.5, foot - NOTE - 1.5] {
        group.add(Role::Axis, Shape::line([vec2(left, y), vec2(right, y)]));
    }
    group
}

fn room(page: View, from: f64) -> View {
    View {
        x: MARGIN,
        y: from,
        width: page.width - 2.0 * MARGIN,
        height: page.height - MARGIN - FOOT - from,
    }
}

/// A rectangle between two corners.
pub(super) fn rectangle(a: Vec2, b: Vec2) -> Shape {
    Shape::Area(vec![a, vec2(b.x, a.y), b, vec2(a.x, b.y)])
}
