//! `size`: every byte that the page loads.

use anyhow::Result;

use crate::project::Project;
use crate::run::Run;
use crate::{browser, bundle};

/// Builds the page and prints its files with their bytes, raw and compressed.
pub fn table(project: &Project) -> Result<()> {
    bundle::build(project)?;
    browser::node(project)?.arg("size.mjs").run()
}
