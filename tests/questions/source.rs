//! Makes choices and numbers of bytes, so that a changed byte changes one of them.

use geometry::field::Bound;

/// Bytes that choices are made of, from the first to the last; then every choice is the first.
pub struct Source<'b> {
    rest: &'b [u8],
}

impl<'b> Source<'b> {
    pub fn new(bytes: &'b [u8]) -> Self {
        Self { rest: bytes }
    }

    pub fn is_done(&self) -> bool {
        self.rest.is_empty()
    }

    pub fn byte(&mut self) -> u8 {
        let Some((&byte, rest)) = self.rest.split_first() else {
            return 0;
        };
        self.rest = rest;
        byte
    }

    pub fn flag(&mut self) -> bool {
        self.byte() & 1 == 1
    }

    /// A number below `count`; nothing of nothing.
    pub fn below(&mut self, count: usize) -> usize {
        usize::from(self.byte()) % count.max(1)
    }

    pub fn choice<'t, T>(&mut self, of: &'t [T]) -> &'t T {
        &of[self.below(of.len())]
    }

    /// From 0 to 1, both of which are met.
    pub fn share(&mut self) -> f64 {
        let bits = u16::from_be_bytes([self.byte(), self.byte()]);
        f64::from(bits) / f64::from(u16::MAX)
    }

    /// From `least` to `most`, both of which are met.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let share = self.share();
        (least * (1.0 - share) + most * share).clamp(least, most)
    }

    /// A number that the bound admits: anywhere, or near to what it is.
    pub fn within(&mut self, bound: &Bound, present: f64) -> f64 {
        if self.flag() {
            return self.between(bound.least, bound.most);
        }
        let reach = (bound.most - bound.least) / 8.0;
        bound.clamp(present + self.between(-reach, reach))
    }

    /// A short text of any kind.
    pub fn text(&mut self) -> String {
        let length = self.below(24).min(self.rest.len());
        let (text, rest) = self.rest.split_at(length);
        self.rest = rest;
        String::from_utf8_lossy(text).into_owned()
    }
}
