//! The body round the tire: tape readings, stations, named surfaces, obstacles, no-cut zones.

pub mod no_cut;
pub mod obstacle;
pub mod rail;
pub mod sense;
pub mod station;
pub mod surface;
pub mod tape;

pub use no_cut::{NO_CUT_FIELDS, NoCutZone};
pub use obstacle::{OBSTACLE_FIELDS, Obstacle};
pub use sense::{Nonsense, Place};
pub use station::{Station, StationTable};
pub use surface::{Surface, SurfaceId};
pub use tape::{Reading, Tape};
