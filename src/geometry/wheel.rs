//! The wheel: rim width, flanges, backspacing and offset.

/// The wheel as it is ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WheelSpec {
    /// Rim width between the flanges, mm.
    pub rim_width: f64,
    /// Mounting face to the rim's inboard outer edge, mm.
    pub backspacing: f64,
    /// Thickness of one rim flange, mm. About half an inch (ISO 4000-2, from memory).
    pub flange_thickness: f64,
    /// Height of the rim flange above the nominal rim diameter, mm (J flange 17.3, ISO 4000-2, from memory).
    pub flange_height: f64,
    /// How far tire and wheel wobble sideways as they turn, mm either way.
    pub run_out: f64,
}

impl WheelSpec {
    /// Overall width, over both flanges.
    ///
    /// ```
    /// # use geometry::wheel::WheelSpec;
    /// let wheel = WheelSpec { rim_width: 254.0, backspacing: 139.7, flange_thickness: 12.7, flange_height: 17.3, run_out: 3.0 };
    /// assert_eq!(wheel.overall_width(), 279.4); // a 10 in rim is 11 in overall
    /// assert_eq!(wheel.offset(), 0.0);          // 5 1/2 in of backspacing: no offset
    /// ```
    #[must_use]
    pub fn overall_width(&self) -> f64 {
        self.rim_width + 2.0 * self.flange_thickness
    }

    /// Offset: mounting face from the rim's center plane, positive when the face is outboard of it.
    #[must_use]
    pub fn offset(&self) -> f64 {
        self.backspacing - self.overall_width() / 2.0
    }

    /// The backspacing that gives `offset` on this rim.
    #[must_use]
    pub fn backspacing_for(&self, offset: f64) -> f64 {
        self.overall_width() / 2.0 + offset
    }
}
