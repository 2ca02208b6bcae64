//! The Write-up: the club's page.

mod page;

pub use page::WriteUp;
