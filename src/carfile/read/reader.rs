//! Takes values out of a parsed file, each checked, each fault with its place.

use std::borrow::Cow;
use std::collections::BTreeMap;

use geometry::field::Fault;
use geometry::units::LengthUnit;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::nearest::nearest;
use crate::fault::Faults;

/// A value of the file and where it stands.
pub(super) type Value<'t> = Spanned<DeValue<'t>>;

/// A table of the file.
#[derive(Clone)]
pub(super) struct Table<'d, 't> {
    /// Its keys from the top, joined by points; empty for the file itself.
    pub(super) path: String,
    /// Where it begins, bytes.
    pub(super) start: usize,
    entries: &'d DeTable<'t>,
}

impl<'d, 't> Table<'d, 't> {
    /// The file's own table.
    pub(super) fn top(entries: &'d DeTable<'t>) -> Self {
        Self {
            path: String::new(),
            start: 0,
            entries,
        }
    }

    /// A table that the file does not have, under the name it would have.
    pub(super) fn absent(name: &str, nothing: &'d DeTable<'t>) -> Self {
        Self {
            path: name.to_owned(),
            ..Self::top(nothing)
        }
    }

    /// The value of a key.
    pub(super) fn get(&self, key: &str) -> Option<&'d Value<'t>> {
        self.entries.get(key)
    }

    /// A key's name from the top.
    pub(super) fn name(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }
}

/// Reads values; keeps the faults, the places, and the unit of bare numbers.
pub(super) struct Reader<'t> {
    /// The file.
    pub(super) text: &'t str,
    /// What is wrong so far.
    pub(super) faults: Faults<'t>,
    /// Where each key's value stands, for faults that are found later.
    places: BTreeMap<String, usize>,
    /// What a bare length is in, if the file says.
    pub(super) bare: Option<LengthUnit>,
    /// Whether a value could not be taken, so that what was read is no car.
    pub(super) incomplete: bool,
}

impl<'t> Reader<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        Self {
            text,
            faults: Faults::new(text),
            places: BTreeMap::new(),
            bare: None,
            incomplete: false,
        }
    }

    /// Adds a fault about the value at `at`.
    pub(super) fn fault(
        &mut self,
        value: &Value<'_>,
        at: &str,
        found: impl Into<String>,
        accepted: impl std::fmt::Display,
    ) {
        self.spoil(value.span().start, at, found, accepted);
    }

    /// Adds a fault that leaves the car without one of its values; `accepted` is a noun.
    pub(super) fn spoil(
        &mut self,
        offset: usize,
        at: &str,
        found: impl Into<String>,
        accepted: impl std::fmt::Display,
    ) {
        self.incomplete = true;
        self.faults
            .add(offset, at, found, format!("{accepted} would be accepted"));
    }

    /// Adds a fault of the car as a whole, which says itself what would be accepted.
    pub(super) fn of_model(&mut self, fault: Fault) {
        let found = if fault.at.is_empty() {
            fault.found
        } else {
            format!("{}: {}", fault.at, fault.found)
        };
        let place = self.place(&fault.at);
        self.faults.add(place, fault.at, found, fault.accepted);
    }

    /// Adds a fault about a key that is not there.
    pub(super) fn missing(
        &mut self,
        table: &Table<'_, '_>,
        key: &str,
        accepted: impl std::fmt::Display,
    ) {
        let name = table.name(key);
        self.spoil(table.start, &name, format!("{name} is missing"), accepted);
    }

    /// A fault for each key that the table must have and has not.
    pub(super) fn want(&mut self, table: &Table<'_, '_>, keys: &[(&str, &str)]) {
        for (key, accepted) in keys {
            if table.get(key).is_none() {
                self.missing(table, key, accepted);
            }
        }
    }

    /// The place of a key, or of the nearest table above it that the file has. A side's reading may
    /// stand in the table of both.
    fn place(&self, key: &str) -> usize {
        let of_both = key.split_once('.').map_or("", |(_, rest)| rest);
        let above = std::iter::successors(Some(key), |name| {
            name.rsplit_once('.').map(|(above, _)| above)
        });
        [key, of_both]
            .into_iter()
            .chain(above)
            .find_map(|name| self.places.get(name))
            .copied()
            .unwrap_or(0)
    }

    /// A fault for each key of the table that is none of `known`; notes where the others stand.
    pub(super) fn keys(&mut self, table: &Table<'_, '_>, known: &[&str]) {
        for (key, value) in table.entries {
            let word: &str = key.get_ref();
            if known.contains(&word) {
                self.places.insert(table.name(word), value.span().start);
                continue;
            }
            let meant = match nearest(word, known) {
                Some(meant) => format!("did you mean {meant}?"),
                None => format!("the keys here are {}", known.join(", ")),
            };
            let name = table.name(&shortened(word));
            self.faults.add(
                key.span().start,
                name.clone(),
                format!("unknown key {name}"),
                meant,
            );
        }
    }

    /// A table inside a table, if it is there, with a fault for each key that is none of `known`.
    pub(super) fn table<'d>(
        &mut self,
        table: &Table<'d, 't>,
        key: &str,
        known: &[&str],
    ) -> Option<Table<'d, 't>> {
        let value = table.get(key)?;
        self.as_table(value, table.name(key), known)
    }

    /// A value as a table.
    pub(super) fn as_table<'d>(
        &mut self,
        value: &'d Value<'t>,
        path: String,
        known: &[&str],
    ) -> Option<Table<'d, 't>> {
        if let DeValue::Table(entries) = value.get_ref() {
            let inside = Table {
                path,
                start: value.span().start,
                entries,
            };
            self.places.insert(inside.path.clone(), inside.start);
            self.keys(&inside, known);
            return Some(inside);
        }
        self.fault(
            value,
            &path,
            format!("{path} is {}", kind(value)),
            "a table",
        );
        None
    }

    /// The tables of a list such as `[[obstacle]]`, each with its path.
    pub(super) fn tables<'d>(
        &mut self,
        table: &Table<'d, 't>,
        key: &str,
        known: &[&str],
        most: usize,
    ) -> Vec<Table<'d, 't>> {
        let name = table.name(key);
        let Some(value) = table.get(key) else {
            return Vec::new();
        };
        let Some(list) = self.list(value, &name, "a list of tables", most) else {
            return Vec::new();
        };
        list.iter()
            .enumerate()
            .filter_map(|(k, one)| self.as_table(one, format!("{name}[{k}]"), known))
            .collect()
    }

    /// A value as a list of at most `most`.
    pub(super) fn list<'d>(
        &mut self,
        value: &'d Value<'t>,
        at: &str,
        what: &str,
        most: usize,
    ) -> Option<&'d DeArray<'t>> {
        match value.get_ref() {
            DeValue::Array(list) if list.len() <= most => return Some(list),
            DeValue::Array(list) => self.fault(
                value,
                at,
                format!("{at} has {} entries", list.len()),
                format!("at most {most}"),
            ),
            _ => self.fault(
                value,
                at,
                format!("{at} is {}", kind(value)),
                what.to_owned(),
            ),
        }
        None
    }

    /// Text, if the key is there.
    pub(super) fn text<'d>(
        &mut self,
        table: &Table<'d, 't>,
        key: &str,
        accepted: &str,
    ) -> Option<&'d str> {
        let value = table.get(key)?;
        if let DeValue::String(text) = value.get_ref() {
            return Some(text);
        }
        let name = table.name(key);
        self.fault(value, &name, format!("{name} is {}", kind(value)), accepted);
        None
    }

    /// Text of no more than so many characters, if the key is there.
    pub(super) fn short_text<'d>(
        &mut self,
        table: &Table<'d, 't>,
        key: &str,
        most: usize,
    ) -> Option<&'d str> {
        let accepted = format!("text in quotes, up to {most} characters");
        let text = self.text(table, key, &accepted)?;
        let count = text.chars().count();
        if let Some(value) = table.get(key).filter(|_| count > most) {
            let name = table.name(key);
            let found = format!("{name} is {count} characters long");
            self.fault(value, &name, found, accepted);
        }
        Some(text)
    }

    /// One of a few words, if the key is there.
    pub(super) fn word<T: Copy>(
        &mut self,
        table: &Table<'_, 't>,
        key: &str,
        words: &[(&str, T)],
    ) -> Option<T> {
        let value = table.get(key)?;
        self.as_word(value, &table.name(key), words)
    }

    /// A value as one of a few words.
    pub(super) fn as_word<T: Copy>(
        &mut self,
        value: &Value<'t>,
        at: &str,
        words: &[(&str, T)],
    ) -> Option<T> {
        let found = match value.get_ref() {
            DeValue::String(text) => match words.iter().find(|(word, _)| word == text) {
                Some((_, thing)) => return Some(*thing),
                None => format!("\u{201c}{}\u{201d}", shortened(text)),
            },
            _ => kind(value),
        };
        let accepted: Vec<String> = words
            .iter()
            .map(|(word, _)| format!("\"{word}\""))
            .collect();
        self.fault(value, at, format!("{at} is {found}"), accepted.join(" or "));
        None
    }
}

/// What kind of value it is, in words.
fn kind(value: &Value<'_>) -> String {
    match value.get_ref() {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
    .to_owned()
}

/// The value as it stands in the file, when it is short enough to repeat; else what kind it is.
pub(super) fn source(text: &str, value: &Value<'_>) -> String {
    let written = text.get(value.span()).unwrap_or_default();
    let repeated =
        !written.is_empty() && written.len() <= LONGEST_REPEATED && !written.contains('\n');
    if repeated {
        written.to_owned()
    } else {
        kind(value)
    }
}

/// The most bytes of a file that a fault repeats.
const LONGEST_REPEATED: usize = 40;

fn shortened(text: &str) -> Cow<'_, str> {
    match text.char_indices().nth(LONGEST_REPEATED) {
        Some((end, _)) => Cow::Owned(format!("{}\u{2026}", &text[..end])),
        None => Cow::Borrowed(text),
    }
}
