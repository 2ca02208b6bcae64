//! The Walk-round: the owner's page.

mod page;
mod panel;
mod shop;

pub use page::WalkRound;
