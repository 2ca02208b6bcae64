//! Figures that a reader plays with: a drawing, one lever, and a sentence that follows it.

mod live;
mod sheet;

pub use live::{Figure, FigureView};
