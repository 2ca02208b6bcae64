//! What is round every page: the strip at the top, the way from page to page, keeping the work.

mod embedded;
mod header;
mod keeping;
mod keys;
mod linking;
mod menu;
mod navigation;
mod newer;
mod page;
mod refused;

pub use navigation::TITLE;
pub use page::Page;
