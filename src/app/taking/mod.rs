//! The page of what can be taken away: a link, text for a forum, pictures, tables, the car file.

mod drawn;
mod embed;
mod files;
mod link;
mod page;
mod pictures;
mod post;
mod text;

pub use drawn::{drawn, shape};
pub use embed::Snippet;
pub use page::TakeAwayPage;
