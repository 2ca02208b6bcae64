//! The poses of the axle at each track width, halved once for all rows and both tubs.

use super::wheel::Wheel;
use crate::gap::Poses;

/// How far apart, mm of backspacing, the tracks are whose halved poses are kept.
const APART: f64 = 6.0;

/// Halved poses. A narrower track allows the axle all places that a wider one does, and more: so where it leaves a gap
/// that is wide enough, any wider one does, and most faces are told by one of a few tracks.
#[derive(Debug, Clone)]
pub(super) struct Tracks {
    least: f64,
    kept: Vec<Option<Poses>>,
    rest: Option<Poses>,
}

impl Tracks {
    pub fn new([least, most]: [f64; 2]) -> Self {
        let mut kept = Vec::new();
        let mut from = least;
        while from <= most {
            kept.push(None);
            from += APART;
        }
        Self {
            least,
            kept,
            rest: None,
        }
    }

    /// Poses at a track that is not wider than that of a backspacing, and the backspacing whose track it is.
    pub fn narrower(&mut self, wheel: &Wheel, backspacing: f64) -> (&mut Poses, f64) {
        let last = self.kept.len() - 1;
        let is_narrow = |k: &usize| self.inboard(*k) >= backspacing;
        let k = (0..last).find(is_narrow).unwrap_or(last);
        let inboard = self.inboard(k);
        (
            self.kept[k].get_or_insert_with(|| wheel.travel(inboard)),
            inboard,
        )
    }

    /// The pose of ride height.
    pub fn rest(&mut self, wheel: &Wheel) -> &mut Poses {
        self.rest.get_or_insert_with(|| wheel.rest())
    }

    fn inboard(&self, k: usize) -> f64 {
        self.least + (k + 1) as f64 * APART
    }
}
