//! The bands worked out in slices, so that whoever shows them can do so between frames.

use super::frozen::Variants;
use super::{Band, band};
use crate::check::Check;
use crate::model::Model;
use crate::side::{Side, Sides};

/// The bands of one gap list being worked out. It keeps what it needs, so that no band can be of another state.
pub struct BandsWork {
    model: Model,
    check: Check,
    whole: Option<Variants>,
    /// What the readings of the side in hand would change.
    variants: Option<Variants>,
    side: Side,
    bands: Sides<Vec<Band>>,
}

impl BandsWork {
    /// Begins the bands of a gap list, which must be of the same model.
    #[must_use]
    pub fn begin(model: &Model, check: &Check) -> Self {
        Self {
            model: model.clone(),
            check: check.clone(),
            whole: None,
            variants: None,
            side: Side::Left,
            bands: Sides::default(),
        }
    }

    /// Works out one more surface, or what is needed for the next; gives the bands with the last, in the order of the
    /// gap list.
    pub fn step(&mut self) -> Option<Sides<Vec<Band>>> {
        let (model, side) = (&self.model, self.side);
        let Some(whole) = &self.whole else {
            self.whole = Some(Variants::of_car(model));
            return None;
        };
        let Some(variants) = &self.variants else {
            self.variants = Some(Variants::of_side(model, side));
            return None;
        };
        let done = self.bands.get_mut(side);
        if let Some(surface) = self.check.sides.get(side).surfaces.get(done.len()) {
            done.push(band(model, side, surface, [whole, variants]));
            return None;
        }
        if side == Side::Right {
            return Some(std::mem::take(&mut self.bands));
        }
        (self.side, self.variants) = (Side::Right, None);
        None
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Sides<Vec<Band>> {
        loop {
            if let Some(bands) = self.step() {
                return bands;
            }
        }
    }
}
