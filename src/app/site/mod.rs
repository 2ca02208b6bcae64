//! What is round every page: the strip at the top, the way from page to page, keeping the work.

mod header;
mod keeping;
mod keys;
mod menu;
mod navigation;
mod page;
mod refused;

pub use keeping::bring_back;
pub use navigation::TITLE;
pub use page::Page;
