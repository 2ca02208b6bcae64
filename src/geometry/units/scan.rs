//! A cursor over typed text that can say where it stopped understanding.

/// What was not understood in a piece of text, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TextFault {
    /// How many characters of the text were understood, which is the offset of the first that was not.
    pub at: usize,
    /// What was found there.
    pub found: String,
    /// What would be accepted, as a noun.
    pub accepted: String,
}

impl std::fmt::Display for TextFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "at character {}: {}; {} would be accepted",
            self.at + 1,
            self.found,
            self.accepted
        )
    }
}

impl std::error::Error for TextFault {}

/// The most characters of one's own text that a fault repeats.
const QUOTED: usize = 24;

/// Reads text from left to right; every `eat` either takes something or leaves the place as it was.
#[derive(Debug, Clone)]
pub(crate) struct Cursor<'t> {
    rest: &'t str,
    at: usize,
}

impl<'t> Cursor<'t> {
    /// A cursor before the first character.
    pub(crate) fn new(text: &'t str) -> Self {
        Self { rest: text, at: 0 }
    }

    /// The next character.
    pub(crate) fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    /// Whether nothing is left.
    pub(crate) fn is_done(&self) -> bool {
        self.rest.is_empty()
    }

    /// Takes the next character if it is one of `wanted`.
    pub(crate) fn eat_any(&mut self, wanted: &[char]) -> Option<char> {
        let next = self.peek().filter(|c| wanted.contains(c))?;
        self.skip(next.len_utf8(), 1);
        Some(next)
    }

    /// Takes the characters for which `wanted` holds, possibly none.
    pub(crate) fn eat_while(&mut self, wanted: impl Fn(char) -> bool) -> &'t str {
        let bytes = self.rest.find(|c| !wanted(c)).unwrap_or(self.rest.len());
        let taken = &self.rest[..bytes];
        self.skip(bytes, taken.chars().count());
        taken
    }

    /// Takes spaces, possibly none; says whether there were any.
    pub(crate) fn eat_spaces(&mut self) -> bool {
        !self.eat_while(char::is_whitespace).is_empty()
    }

    /// Takes `0123`, `12.5` or `.5`; `None` when no digit stands here. A comma stands for the
    /// decimal point unless exactly three digits follow it, where it might as well part thousands.
    pub(crate) fn eat_decimal(&mut self) -> Option<f64> {
        let mut ahead = self.clone();
        let whole = ahead.eat_while(|c| c.is_ascii_digit());
        let mut past_mark = ahead.clone();
        let mark = past_mark.eat_any(&['.', ',']);
        let decimals = past_mark.eat_while(|c| c.is_ascii_digit());
        let has_decimals = match mark {
            Some(',') => !decimals.is_empty() && decimals.len() != 3,
            Some(_) => !decimals.is_empty(),
            None => false,
        };
        if has_decimals {
            ahead = past_mark;
        } else if whole.is_empty() {
            return None;
        }
        let number = if has_decimals {
            format!("{whole}.{decimals}")
        } else {
            whole.to_owned()
        };
        let value = number.parse().ok()?;
        *self = ahead;
        Some(value)
    }

    /// A fault here: says what stands at this place.
    pub(crate) fn fault(&self, accepted: impl Into<String>) -> TextFault {
        let found = if self.is_done() {
            "the text ends".to_owned()
        } else if self.rest.chars().count() > QUOTED {
            let start: String = self.rest.chars().take(QUOTED).collect();
            format!("\u{201c}{start}\u{2026}\u{201d}")
        } else {
            format!("\u{201c}{}\u{201d}", self.rest)
        };
        TextFault {
            at: self.at,
            found,
            accepted: accepted.into(),
        }
    }

    fn skip(&mut self, bytes: usize, chars: usize) {
        self.rest = &self.rest[bytes..];
        self.at += chars;
    }
}
