//! The named surfaces of one side.

/// The kinds of surface that can stop a tire.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Surface {
    /// The flange edge of the quarter panel at the wheel opening.
    QuarterLip,
    /// The outer half of the wheelhouse, between lip and roof.
    OuterHalf,
    /// The roof of the wheelhouse, on both sides of the seam, with the fill strip once the seam moved.
    Roof,
    /// The rounded corner between roof and tub wall.
    TubCorner,
    /// The inner wall of the wheelhouse.
    TubWall,
    /// The longitudinal member inboard of the tire.
    FrameRail,
    /// Something bolted nearby: shock, spring, tailpipe, filler neck, bump stop.
    Obstacle,
}

impl Surface {
    /// The surfaces that every side has, from the lip inward.
    pub const FIXED: [Surface; 6] = [
        Surface::QuarterLip,
        Surface::OuterHalf,
        Surface::Roof,
        Surface::TubCorner,
        Surface::TubWall,
        Surface::FrameRail,
    ];

    /// What the surface is called.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Surface::QuarterLip => "quarter lip",
            Surface::OuterHalf => "outer half",
            Surface::Roof => "roof",
            Surface::TubCorner => "tub corner",
            Surface::TubWall => "tub wall",
            Surface::FrameRail => "frame rail",
            Surface::Obstacle => "obstacle",
        }
    }

    /// One sentence that says what the word means, for whoever does not know it.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Surface::QuarterLip => "The folded edge of the body panel round the wheel opening.",
            Surface::OuterHalf => {
                "The outer half of the sheet-metal box round the tire, behind the body panel."
            }
            Surface::Roof => "The top of the sheet-metal box, over the tire.",
            Surface::TubCorner => {
                "The rounded corner where the roof of the box turns down into its inner wall."
            }
            Surface::TubWall => {
                "The inner wall of the sheet-metal box; the part that a mini-tub moves."
            }
            Surface::FrameRail => "The beam that runs the length of the car, inboard of the tire.",
            Surface::Obstacle => "A part bolted near the tire.",
        }
    }
}

/// A surface of one side; obstacles are told apart by their place in the car's list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SurfaceId {
    /// What kind it is.
    pub surface: Surface,
    /// Which obstacle, counted from zero; zero for all others.
    pub index: usize,
}

impl From<Surface> for SurfaceId {
    fn from(surface: Surface) -> Self {
        Self { surface, index: 0 }
    }
}
