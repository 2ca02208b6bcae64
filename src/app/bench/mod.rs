//! The Bench: the builder's page.

mod banner;
mod chart;
mod dial;
mod feed;
mod gap_list;
mod handle;
mod header;
mod keeping;
mod keys;
mod levers;
mod listen;
mod map;
mod menu;
mod numbers;
mod outcome;
mod page;
mod picture;
mod refused;
mod round;
mod scrubber;
mod side;
mod station_events;
mod station_places;
mod stations;
mod store;
mod tape;
mod tire_size;
mod typed_box;
mod verdict;

pub use keeping::bring_back;
pub use page::Page;
