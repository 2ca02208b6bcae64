//! The sheets: what goes to the shop floor, on the screen as paper.

mod found;
mod page;
mod papers;
mod tools;

pub use page::SheetsPage;
