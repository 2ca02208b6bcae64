//! Where the tub comes to stand, in readings that are taken like those of the tape sheet.

use crate::model::Model;
use crate::side::Side;

/// The readings of a tub that was re-set, in from the face of the flange that the tape was pulled from, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reset {
    /// To the tub's seam.
    pub seam: f64,
    /// To the tub wall, low.
    pub low: f64,
    /// To the tub wall, high.
    pub high: f64,
}

impl Reset {
    /// What one side's readings are to be; nothing where its tub stays. The tub is moved along the axle as one piece,
    /// so that each reading grows by the move.
    #[must_use]
    pub fn of(model: &Model, side: Side) -> Option<Self> {
        let spec = model.car.sides.get(side);
        let by = spec.seam_move;
        (by > 0.0).then_some(Self {
            seam: spec.tape.to_seam.value + by,
            low: spec.tape.to_tub_low.value + by,
            high: spec.tape.to_tub_high.value + by,
        })
    }
}
