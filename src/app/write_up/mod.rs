//! The Write-up: the club's page.

mod alone;
mod page;

pub use alone::ChapterAlone;
pub use page::WriteUp;
