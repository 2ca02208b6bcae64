//! The Bench: the builder's page.

mod asked_tire;
mod bands;
pub mod banner;
mod chart;
mod dial;
mod feed;
mod gap_list;
mod handle;
mod levers;
pub mod listen;
mod map;
mod numbers;
mod outcome;
pub mod page;
mod picture;
mod round;
mod scrubber;
mod side;
mod station_events;
mod station_places;
mod stations;
pub mod store;
mod tape;
mod tire_size;
mod typed_box;
mod verdict;
mod warnings;
