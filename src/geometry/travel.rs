//! How far the axle moves: the box of poses that the tire must be free in.

/// The travel of the axle as the car is set up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TravelSpec {
    /// How far each wheel rises from ride height to its stop, mm.
    pub bump: f64,
    /// How far each wheel hangs below ride height, mm.
    pub droop: f64,
    /// Greatest roll of the axle against the body, radians, if something limits it before the wheels' own stops.
    pub roll_limit: Option<f64>,
    /// Sideways give of locator and bushings, mm either way, along the axle.
    pub give: f64,
    /// How much higher the body sits than when it was measured, mm.
    pub ride_change: f64,
}

/// A pose of the axle: how far each wheel stands above its ride height, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pose {
    /// The left wheel.
    pub left: f64,
    /// The right wheel.
    pub right: f64,
    /// Sideways give taken up, mm, positive to the left.
    pub give: f64,
}

impl Pose {
    /// Both wheels at ride height.
    pub const RIDE: Pose = Pose {
        left: 0.0,
        right: 0.0,
        give: 0.0,
    };

    /// Both wheels raised by the same amount.
    #[must_use]
    pub const fn heave(up: f64) -> Self {
        Self {
            left: up,
            right: up,
            give: 0.0,
        }
    }
}
