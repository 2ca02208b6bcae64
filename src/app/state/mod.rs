//! What the page knows and how it changes, without a browser: all of it is tested natively.

pub mod address;
pub mod around;
pub mod desk;
pub mod dial;
pub mod doubts;
pub mod draft;
pub mod drag;
pub mod feed;
pub mod figures;
pub mod found;
pub mod history;
pub mod link;
pub mod opening;
pub mod passing;
pub mod room;
pub mod scrub;
pub mod settings;
pub mod sheets;
pub mod stations;
pub mod tape;
pub mod tire;
pub mod trying;
pub mod wishes;
pub mod words;
pub mod work;
