//! How the reader wants to see things: notation, light or dark, which side.

use drawing::Shown;
use drawing::sheets::Paper;
use drawing::svg::Scheme;
use geometry::answers::Preferences;
use geometry::side::Side;
use geometry::units::Notation;

/// Light or dark paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Theme {
    /// As the reader's system is set.
    #[default]
    Auto,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

impl Theme {
    /// The paper that it asks for, where it asks for one.
    pub fn scheme(self) -> Option<Scheme> {
        match self {
            Theme::Auto => None,
            Theme::Light => Some(Scheme::Light),
            Theme::Dark => Some(Scheme::Dark),
        }
    }
}

/// All settings that are remembered.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// How lengths are written.
    pub notation: Notation,
    /// Light or dark.
    pub theme: Theme,
    /// Which side is shown.
    pub shown: Shown,
    /// Whether the two seams are moved each on its own.
    pub apart: bool,
    /// The paper that sheets are laid out for.
    pub paper: Paper,
    /// What the answers' mix rather changes than what.
    pub preferences: Preferences,
}

impl Settings {
    /// Whether the reader would rather change one thing than another.
    pub fn has_wishes(&self) -> bool {
        self.preferences != Preferences::default()
    }
}

/// What a first visit starts from.
impl Default for Settings {
    fn default() -> Self {
        Self {
            notation: Notation::InchFractions,
            theme: Theme::Auto,
            shown: Shown::Both,
            apart: false,
            paper: Paper::Letter,
            preferences: Preferences::default(),
        }
    }
}

/// A choice of a menu: what it is stored as, what it is called, what it means.
pub type Choice<T> = (&'static str, &'static str, T);

/// The notations to choose from.
pub const NOTATIONS: [Choice<Notation>; 3] = [
    ("sixteenths", "Inches, 1/16", Notation::InchFractions),
    ("decimal", "Inches, decimal", Notation::InchDecimals),
    ("millimeters", "Millimeters", Notation::Millimeters),
];

/// The themes to choose from.
pub const THEMES: [Choice<Theme>; 3] = [
    ("auto", "Auto", Theme::Auto),
    ("light", "Light", Theme::Light),
    ("dark", "Dark", Theme::Dark),
];

/// The sizes of paper to choose from.
pub const PAPERS: [Choice<Paper>; 2] =
    [("letter", "Letter", Paper::Letter), ("a4", "A4", Paper::A4)];

/// The sides to choose from.
pub const SHOWN: [Choice<Shown>; 3] = [
    ("left", "Left", Shown::One(Side::Left)),
    ("both", "Both", Shown::Both),
    ("right", "Right", Shown::One(Side::Right)),
];

/// The choice stored as `word`.
pub fn chosen<T: Copy>(choices: &[Choice<T>], word: &str) -> Option<T> {
    choices
        .iter()
        .find(|(stored, ..)| *stored == word)
        .map(|&(.., choice)| choice)
}

/// What `choice` is stored as.
pub fn stored<T: Copy + PartialEq>(choices: &[Choice<T>], choice: T) -> &'static str {
    choices
        .iter()
        .find(|(.., offered)| *offered == choice)
        .map_or("", |&(stored, ..)| stored)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_choice_comes_back_from_its_word() {
        for (word, _, notation) in NOTATIONS {
            assert_eq!(
                (chosen(&NOTATIONS, word), stored(&NOTATIONS, notation)),
                (Some(notation), word)
            );
        }
        for (word, _, theme) in THEMES {
            assert_eq!(
                (chosen(&THEMES, word), stored(&THEMES, theme)),
                (Some(theme), word)
            );
        }
        for (word, _, paper) in PAPERS {
            assert_eq!(
                (chosen(&PAPERS, word), stored(&PAPERS, paper)),
                (Some(paper), word)
            );
        }
        for (word, _, shown) in SHOWN {
            assert_eq!(
                (chosen(&SHOWN, word), stored(&SHOWN, shown)),
                (Some(shown), word)
            );
        }
        assert_eq!(chosen(&THEMES, "sepia"), None);
    }
}
