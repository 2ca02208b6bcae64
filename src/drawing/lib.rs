//! What to draw, as data in millimeters with roles.
//!
//! A drawing is a [`Scene`]: groups of shapes, each with a [`Role`] that says what it is (cut metal,
//! tire, dimension, overlap), never what it looks like. The style sheet `style/drawing.css` gives each
//! role its weight, dash and color, for light, dark and print. [`svg`] writes a scene, as markup for the
//! page or as a file that stands alone.
//!
//! # Sheet and car
//!
//! A scene lies on a sheet: x to the right, y downward, as SVG has it. The rear view takes it from the
//! car's frame by `x = -left`, `y = -up`: the car's left is on the left, as one sees it from behind.
//!
//! # Lettering
//!
//! Letters, arrowheads and hatching keep their size on the screen while shapes scale. Whoever asks for a
//! drawing says how wide it is shown, in CSS pixels; from that follows how many millimeters a pixel is
//! ([`Lettering`]), and every size that belongs to the screen is multiplied by it. Strokes need none of
//! this: the style sheet keeps them from scaling.

pub mod answers;
pub mod chart;
mod dimension;
mod hatch;
mod label;
#[cfg(test)]
mod legible;
mod lettering;
mod map;
pub mod mount;
pub mod post;
pub mod rear;
mod role;
pub mod room;
mod scene;
pub mod sheets;
pub mod side;
pub mod svg;
mod thin;
pub mod walk_round;
mod words;

pub use chart::travel::{TravelChart, travel_chart, travel_finding, travel_rows};
pub use lettering::Lettering;
pub use map::{
    MapOptions, map_finding, map_place, map_section, map_spot, spot_words, wheelhouse_map,
};
pub use mount::{MountOptions, mount_finding, mount_here, mount_spoken, mount_view};
pub use rear::{Dimensions, RearOptions, Shown, rear_view};
pub use role::Role;
pub use room::{
    RoomOptions, RoomTable, room_chart, room_finding, room_finding_with, room_place, room_rows,
    room_spot, room_tub,
};
pub use scene::{Anchor, Group, Handle, Item, Key, Scene, Shape, View};
pub use side::{SideOptions, side_angle, side_handle, side_view};
pub use words::{bearing, gap_words};
