//! What the page asks of the browser, apart from its elements.

pub mod address;
pub mod behind;
pub mod clipboard;
pub mod crash;
pub mod download;
pub mod frame;
pub mod later;
pub mod motion;
pub mod offline;
pub mod parent;
pub mod photo;
pub mod print;
pub mod raster;
pub mod reveal;
pub mod sight;
pub mod size;
pub mod starting;
pub mod storage;
pub mod swipe;
pub mod wrong;
