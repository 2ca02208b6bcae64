//! Patterns for a cutting machine: a drawing exchange file (DXF, release 12) in millimeters.
//!
//! Only what a pattern is made of is written: closed and open polylines, circles and lettering, each on a named layer.
//! The format is the one of Autodesk's DXF Reference (group codes; from memory, and held by reading it back with a
//! library that is not ours).

use std::fmt::Write;

use geometry::space::Vec2;

/// `$INSUNITS`: millimeters.
const MILLIMETERS: u8 = 4;

/// A layer: what it is called, and its color in the format's own numbering.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Layer {
    pub name: &'static str,
    pub color: u8,
}

/// What is cut through.
pub(super) const CUT: Layer = Layer {
    name: "CUT",
    color: 7,
};
/// Where the edge of the other sheet comes to lie.
pub(super) const EDGE: Layer = Layer {
    name: "EDGE",
    color: 5,
};
/// Angles round the wheel.
pub(super) const MARK: Layer = Layer {
    name: "MARK",
    color: 8,
};
/// Lettering.
pub(super) const WORDS: Layer = Layer {
    name: "WORDS",
    color: 3,
};

/// A file in the making.
pub(super) struct Dxf {
    entities: String,
}

impl Dxf {
    pub fn new() -> Self {
        Self {
            entities: String::new(),
        }
    }

    pub fn polyline(&mut self, layer: Layer, points: &[Vec2], closed: bool) {
        self.begin("POLYLINE", layer);
        self.pair(66, "1");
        self.point(Vec2::default());
        self.pair(70, if closed { "1" } else { "0" });
        for point in points {
            self.begin("VERTEX", layer);
            self.point(*point);
        }
        self.begin("SEQEND", layer);
    }

    pub fn circle(&mut self, layer: Layer, center: Vec2, radius: f64) {
        self.begin("CIRCLE", layer);
        self.point(center);
        self.number(40, radius);
    }

    /// Lettering from its lower left corner.
    pub fn words(&mut self, at: Vec2, height: f64, words: &str) {
        self.begin("TEXT", WORDS);
        self.point(at);
        self.number(40, height);
        // The format knows degrees by this sign, and its oldest readers know nothing beyond ASCII.
        let plain: String = words
            .replace('\u{b0}', "%%d")
            .chars()
            .map(|c| {
                if c.is_ascii() && !c.is_control() {
                    c
                } else {
                    '?'
                }
            })
            .collect();
        self.pair(1, &plain);
    }

    /// The whole file.
    pub fn file(self) -> String {
        let mut out = String::new();
        let mut pair = |code: u16, value: &str| {
            // Writing to a string cannot fail.
            let _ = write!(out, "{code}\n{value}\n");
        };
        pair(0, "SECTION");
        pair(2, "HEADER");
        for (name, code, value) in [
            ("$ACADVER", 1, "AC1009"),
            ("$INSUNITS", 70, &*MILLIMETERS.to_string()),
            ("$MEASUREMENT", 70, "1"),
        ] {
            pair(9, name);
            pair(code, value);
        }
        pair(0, "ENDSEC");
        pair(0, "SECTION");
        pair(2, "TABLES");
        for (code, value) in [
            (0, "TABLE"),
            (2, "LTYPE"),
            (70, "1"),
            (0, "LTYPE"),
            (2, "CONTINUOUS"),
            (70, "0"),
            (3, "Solid"),
            (72, "65"),
            (73, "0"),
            (40, "0.0"),
            (0, "ENDTAB"),
        ] {
            pair(code, value);
        }
        let layers = [CUT, EDGE, MARK, WORDS];
        pair(0, "TABLE");
        pair(2, "LAYER");
        pair(70, &layers.len().to_string());
        for layer in layers {
            pair(0, "LAYER");
            pair(2, layer.name);
            pair(70, "0");
            pair(62, &layer.color.to_string());
            pair(6, "CONTINUOUS");
        }
        pair(0, "ENDTAB");
        pair(0, "ENDSEC");
        pair(0, "SECTION");
        pair(2, "ENTITIES");
        out.push_str(&self.entities);
        out.push_str("0\nENDSEC\n0\nEOF\n");
        out
    }

    fn begin(&mut self, entity: &str, layer: Layer) {
        self.pair(0, entity);
        self.pair(8, layer.name);
    }

    fn point(&mut self, at: Vec2) {
        self.number(10, at.x);
        self.number(20, at.y);
        self.number(30, 0.0);
    }

    /// A micrometer is finer than any machine cuts.
    fn number(&mut self, code: u16, value: f64) {
        let _ = write!(self.entities, "{code}\n{value:.4}\n");
    }

    fn pair(&mut self, code: u16, value: &str) {
        let _ = write!(self.entities, "{code}\n{value}\n");
    }
}
