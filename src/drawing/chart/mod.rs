//! Charts, drawn by plotters onto our own sheet: they get roles, and with them the drawings' style.

pub(crate) mod backend;
pub(crate) mod scale;
pub mod table;
pub mod travel;
