//! The body round the tire: tape readings, stations, named surfaces, obstacles.

pub mod obstacle;
pub mod rail;
pub mod station;
pub mod surface;
pub mod tape;

pub use obstacle::Obstacle;
pub use station::{Station, StationTable};
pub use surface::{Surface, SurfaceId};
pub use tape::{Reading, Tape};
