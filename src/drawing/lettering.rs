//! Sizes that belong to the screen, and how wide lettering comes out.

/// How large things that belong to the screen are on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Sheet units (millimeters in a section) a CSS pixel, at the width the drawing is shown.
    pub pixel: f64,
}

impl Lettering {
    /// So many CSS pixels, in sheet units.
    #[must_use]
    pub fn px(self, pixels: f64) -> f64 {
        self.pixel * pixels
    }

    /// Size of lettering that carries a value.
    #[must_use]
    pub fn value(self) -> f64 {
        self.px(13.0)
    }

    /// Size of lettering that explains.
    #[must_use]
    pub fn note(self) -> f64 {
        self.px(11.5)
    }
}

/// How wide `text` comes out at `size`, in the units of `size`.
///
/// An estimate: widths by class of letter, as they are in common sans serif faces and a little on the
/// wide side, so that a face that the reader's machine picks does not run into its neighbor.
#[must_use]
pub fn width(text: &str, size: f64) -> f64 {
    text.chars().map(advance).sum::<f64>() * size
}

fn advance(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' => 0.27,
        ' ' | 'f' | 't' | 'r' | '/' | '(' | ')' | '-' => 0.37,
        'm' | 'w' | 'M' | 'W' => 0.88,
        'A'..='Z' => 0.68,
        _ => 0.58,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_text_is_wider_and_scales_with_its_size() {
        assert!(width("tub wall", 10.0) > width("wall", 10.0));
        assert!((width("3/8 in", 20.0) - 2.0 * width("3/8 in", 10.0)).abs() < 1e-9);
    }
}
