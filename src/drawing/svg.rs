//! Writes a scene as SVG: group by group for a page, or as a file that stands alone.

use std::fmt::Write;

use geometry::body::SurfaceId;
use geometry::side::Side;
use geometry::space::Vec2;

use crate::scene::{Anchor, Group, Item, Scene, Shape, View};

mod style;

pub use style::Scheme;

/// Digits kept after the point: a hundredth of a millimeter.
const SCALE: f64 = 100.0;

impl View {
    /// The value of the `viewBox` attribute.
    #[must_use]
    pub fn view_box(&self) -> String {
        let mut out = String::new();
        for value in [self.x, self.y, self.width, self.height] {
            separate(&mut out);
            number(&mut out, value);
        }
        out
    }
}

impl Scene {
    /// The groups' ids, from back to front.
    pub fn ids(&self) -> impl Iterator<Item = String> + '_ {
        self.groups.iter().map(|group| self.group_id(group))
    }

    /// The markup inside the group with that id; writes no other group. Empty when there is none.
    #[must_use]
    pub fn inside(&self, id: &str) -> String {
        let group = self.groups.iter().find(|group| {
            let name = id
                .strip_prefix(self.name)
                .and_then(|rest| rest.strip_prefix('-'));
            name == Some(group.name)
        });
        group.map_or_else(String::new, Group::markup)
    }

    /// The outlines of one surface, to be lit up over the drawing.
    #[must_use]
    pub fn outlines_of(&self, side: Side, surface: SurfaceId) -> String {
        let mut out = String::new();
        let is_meant = |item: &&Item| {
            item.role.bounds_metal()
                && item
                    .key
                    .is_some_and(|key| (key.side, key.surface) == (side, surface))
        };
        for item in self.groups.iter().flat_map(|group| &group.items) {
            if is_meant(&item) {
                item.write(&mut out);
            }
        }
        out
    }

    /// All groups with their elements: what goes inside a page's `<svg>`.
    #[must_use]
    pub fn markup(&self) -> String {
        let mut out = String::with_capacity(32 * 1024);
        for group in &self.groups {
            let _ = write!(
                out,
                "<g id=\"{}\" class=\"{}\"",
                self.group_id(group),
                group.name
            );
            match group.title {
                Some(title) => {
                    out.push_str(" role=\"img\" aria-label=\"");
                    escape(&mut out, title);
                    out.push_str("\">");
                }
                None => out.push_str(" aria-hidden=\"true\">"),
            }
            group.write(&mut out);
            out.push_str("</g>");
        }
        out
    }

    /// A file that stands alone: with its name, its description and its style, light, dark and on paper.
    #[must_use]
    pub fn file(&self) -> String {
        self.file_with("", &style::standalone())
    }

    /// The same at its true size: a sheet's unit is a millimeter of paper.
    #[must_use]
    pub fn page_file(&self) -> String {
        let mut size = String::new();
        for (name, value) in [("width", self.view.width), ("height", self.view.height)] {
            let _ = write!(size, " {name}=\"");
            number(&mut size, value);
            size.push_str("mm\"");
        }
        self.file_with(&size, &style::standalone())
    }

    /// The same for one kind of screen whatever the reader's is set to, and of a size: `width` CSS pixels.
    #[must_use]
    pub fn file_in(&self, scheme: Scheme, width: f64) -> String {
        let mut size = String::new();
        let height = width * self.view.height / self.view.width;
        for (name, value) in [("width", width), ("height", height)] {
            attribute(&mut size, name, value);
        }
        self.file_with(&size, &style::resolved(scheme))
    }

    fn file_with(&self, size: &str, style: &str) -> String {
        let mut out = String::with_capacity(48 * 1024);
        let _ = write!(
            out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"scene {}\"{size} viewBox=\"{}\" role=\"img\" \
             aria-labelledby=\"title desc\">\n<title id=\"title\">",
            self.name,
            self.view.view_box()
        );
        escape(&mut out, &self.title);
        out.push_str("</title>\n<desc id=\"desc\">");
        escape(&mut out, &self.description);
        out.push_str("</desc>\n<style>\n");
        out.push_str(style);
        out.push_str("</style>\n<rect class=\"paper\"");
        let view = self.view;
        for (name, value) in [
            ("x", view.x),
            ("y", view.y),
            ("width", view.width),
            ("height", view.height),
        ] {
            attribute(&mut out, name, value);
        }
        out.push_str("/>\n");
        out.push_str(&self.markup().replace("</g>", "</g>\n"));
        out.push_str("</svg>\n");
        out
    }

    fn group_id(&self, group: &Group) -> String {
        format!("{}-{}", self.name, group.name)
    }
}

impl Group {
    /// The markup inside the group's element.
    #[must_use]
    pub fn markup(&self) -> String {
        let mut out = String::with_capacity(4096);
        self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) {
        for item in &self.items {
            item.write(out);
        }
    }
}

impl Item {
    fn write(&self, out: &mut String) {
        match &self.shape {
            Shape::Lines(lines) => {
                out.push_str("<path");
                self.write_class(out);
                out.push_str(" d=\"");
                for line in lines {
                    points(out, line);
                }
                out.push_str("\"/>");
            }
            Shape::Area(outline) => {
                out.push_str("<path");
                self.write_class(out);
                out.push_str(" d=\"");
                points(out, outline);
                out.push_str("Z\"/>");
            }
            Shape::Circle { center, radius } => {
                out.push_str("<circle");
                self.write_class(out);
                for (name, value) in [("cx", center.x), ("cy", center.y), ("r", *radius)] {
                    attribute(out, name, value);
                }
                out.push_str("/>");
            }
            Shape::Text {
                at,
                anchor,
                size,
                text,
            } => {
                out.push_str("<text");
                self.write_class(out);
                for (name, value) in [("x", at.x), ("y", at.y), ("font-size", *size)] {
                    attribute(out, name, value);
                }
                match anchor {
                    Anchor::Start => {}
                    Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
                    Anchor::End => out.push_str(" text-anchor=\"end\""),
                }
                out.push('>');
                escape(out, text);
                out.push_str("</text>");
            }
        }
    }

    fn write_class(&self, out: &mut String) {
        let _ = write!(out, " class=\"{}", self.role.class());
        if let Some(key) = self.key {
            let _ = write!(out, " {}\" data-key=\"{}", key.verdict.word(), key.name());
        }
        out.push('"');
    }
}

fn points(out: &mut String, points: &[Vec2]) {
    for (i, point) in points.iter().enumerate() {
        out.push(match i {
            0 => 'M',
            1 => 'L',
            _ => ' ',
        });
        number(out, point.x);
        separate(out);
        number(out, point.y);
    }
}

fn separate(out: &mut String) {
    if !out.is_empty() {
        out.push(' ');
    }
}

fn attribute(out: &mut String, name: &str, value: f64) {
    let _ = write!(out, " {name}=\"");
    number(out, value);
    out.push('"');
}

/// Writes a number to two decimals, without the zeros at its end; what is no number is written as 0.
///
/// A picture holds thousands, and is written anew while a lever moves: with the standard library's formatter they took
/// more than twice as long.
#[expect(
    clippy::cast_possible_truncation,
    reason = "saturates, far off any sheet; a digit is a digit"
)]
fn number(out: &mut String, value: f64) {
    /// Digits of the largest integer.
    const MOST: usize = 20;
    let hundredths = (value * SCALE).round() as i64;
    if hundredths < 0 {
        out.push('-');
    }
    let hundredths = hundredths.unsigned_abs();
    let mut digits = [0; MOST];
    let (mut whole, mut first) = (hundredths / 100, MOST);
    loop {
        first -= 1;
        digits[first] = b'0' + (whole % 10) as u8;
        whole /= 10;
        if whole == 0 {
            break;
        }
    }
    out.extend(digits[first..].iter().map(|&digit| char::from(digit)));
    let (tens, ones) = (hundredths % 100 / 10, hundredths % 10);
    if tens + ones != 0 {
        out.push('.');
        out.push(char::from(b'0' + tens as u8));
    }
    if ones != 0 {
        out.push(char::from(b'0' + ones as u8));
    }
}

/// Writes text so that it is text in an element and in a quoted attribute.
fn escape(out: &mut String, text: &str) {
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0, 2.2: most control characters may not appear, not even escaped.
            c if c.is_control() => out.push(' '),
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use geometry::space::vec2;

    use super::*;
    use crate::role::Role;

    #[track_caller]
    fn expect_number(value: f64, text: &str) {
        let mut out = String::new();
        number(&mut out, value);
        assert_eq!(out, text);
    }

    #[test]
    fn numbers_are_short() {
        expect_number(0.0, "0");
        expect_number(-0.001, "0");
        expect_number(12.0, "12");
        expect_number(-12.5, "-12.5");
        expect_number(0.126, "0.13");
        expect_number(3.05, "3.05");
        expect_number(1_234_567.9, "1234567.9");
        expect_number(f64::INFINITY, "92233720368547758.07");
        expect_number(f64::NAN, "0");
    }

    #[test]
    fn whatever_a_name_holds_stays_text() {
        let mut out = String::new();
        escape(&mut out, "a<b> & \"c\"\u{7}");
        assert_eq!(out, "a&lt;b&gt; &amp; &quot;c&quot; ");
    }

    #[test]
    fn shapes_are_written_with_their_roles() {
        let mut group = Group::new("g", None);
        group.add(
            Role::Cut,
            Shape::line([vec2(0.0, 1.5), vec2(2.0, 3.0), vec2(4.0, 5.0)]),
        );
        group.add(
            Role::Tire,
            Shape::Area(vec![vec2(0.0, 0.0), vec2(1.0, 0.0)]),
        );
        assert_eq!(
            group.markup(),
            "<path class=\"cut\" d=\"M0 1.5L2 3 4 5\"/><path class=\"tire\" d=\"M0 0L1 0Z\"/>"
        );
    }
}
