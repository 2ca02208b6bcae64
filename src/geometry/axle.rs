//! The axle: flanges, brake hat, spacer, and where it sits in the opening.

/// The axle as measured on the car and as it is to be ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleSpec {
    /// Flange to flange on the axle that was under the car when the body was measured, mm.
    pub measured_width: f64,
    /// Flange to flange on the axle that is to go in, mm.
    pub width: f64,
    /// Thickness of the brake drum's or rotor's hat between flange and wheel, mm.
    pub hat: f64,
    /// Spacer between hat and wheel, mm.
    pub spacer: f64,
    /// How far ahead of the measured station the axle sits, mm.
    pub ahead: f64,
    /// Yaw of the axle, radians, positive when the left wheel stands ahead of the right.
    pub yaw: f64,
    /// Diameter of the axle tube, mm.
    pub tube_diameter: f64,
    /// Diameter of the axle flange, mm.
    pub flange_diameter: f64,
    /// How far the studs stand out of the face that the wheel sits on, mm.
    pub stud_length: f64,
}

impl AxleSpec {
    /// The face of the flange from which the tape was pulled, out from the car's center plane.
    #[must_use]
    pub fn measured_face(&self) -> f64 {
        self.measured_width / 2.0
    }

    /// Where the wheel's mounting face comes to lie, out from the car's center plane.
    #[must_use]
    pub fn mounting_face(&self) -> f64 {
        self.width / 2.0 + self.hat + self.spacer
    }

    /// The tire's center plane, out from the car's center plane, for a wheel of this offset.
    #[must_use]
    pub fn center_plane(&self, offset: f64) -> f64 {
        self.mounting_face() - offset
    }

    /// The flange-to-flange width that brings the tires' center planes `track_width` apart.
    #[must_use]
    pub fn width_for_track(&self, track_width: f64, offset: f64) -> f64 {
        track_width - 2.0 * (self.hat + self.spacer - offset)
    }

    /// Corrects the measured width by `by` mm; where the axle that was measured stays under the car, the car's axle with it.
    pub fn correct_measured(&mut self, by: f64) {
        if self.width.to_bits() == self.measured_width.to_bits() {
            self.width += by;
        }
        self.measured_width += by;
    }

    /// By how much the housing and the shaft change per side, mm, negative when shorter.
    #[must_use]
    pub fn change_per_side(&self) -> f64 {
        (self.width - self.measured_width) / 2.0
    }
}
