//! The room a rear tire has between quarter lip and frame rail, computed.
//!
//! # Frame and signs
//!
//! ```text
//!            z up                      seen from behind: the car's left is on the left
//!             |   x forward
//!             |  /                     y left  <----------+----------
//!             | /                                          \  axle's center at ride height,
//!   y left ---+                                               car's center plane: the origin
//! ```
//!
//! The car frame follows ISO 8855: x forward, y to the left, z up. Lengths are millimeters and angles
//! radians everywhere in this crate; inches and degrees exist only in [`units`]. A side is described
//! in its own outboard coordinate, `out = |y|`. Angles round the wheel count from straight up,
//! positive toward the front.
//!
//! # The way through
//!
//! A [`car::Car`] is what a person says; [`model::Model::new`] makes a [`model::Model`] of it or says
//! everything that is wrong; [`check::check`] gives each surface's gap at ride height and through
//! travel, certified, with its witness; [`envelope`] draws all the room the tire ever takes.

pub mod answers;
pub mod arrivals;
pub mod axle;
pub mod body;
pub mod car;
pub mod chain;
pub mod check;
pub mod course;
pub mod envelope;
pub mod field;
pub mod gap;
pub mod locator;
pub mod math;
pub mod metal;
pub mod model;
pub mod motion;
pub mod mount;
pub mod normals;
pub mod order;
pub mod room;
pub mod sheet;
pub mod side;
pub mod solid;
pub mod space;
pub mod sweep;
pub mod tire;
pub mod tolerance;
pub mod travel;
pub mod units;
pub mod warnings;
pub mod wheel;
