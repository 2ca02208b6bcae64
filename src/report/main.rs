//! The headless command: car files in; text, JSON, SVG and CSV out.

fn main() {}
