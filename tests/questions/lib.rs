//! What is asked of any input at all, by the fuzzer and by the test that replays its corpus: one place for both.
//!
//! A question takes bytes, whatever they are, and panics where the answer is wrong. Nothing may panic of itself, nothing
//! may take longer than [`LONGEST`], and what is answered must hold: what reads is written and reads back the same, what
//! does not read is told with its place, every number is finite and every gap's `low` is not above its `high`.

mod address;
mod any_car;
mod car_file;
mod clock;
mod geometry_of;
mod kept;
mod link;
mod pictures;
mod same;
mod source;
#[allow(
    dead_code,
    unused_imports,
    reason = "the page is a program, whose rooms no crate can name: its state is compiled here too, and only a part asked"
)]
#[path = "../../src/app/state/mod.rs"]
mod state;
mod stations;
mod typed;
mod upgrade;
mod work;

pub use clock::{LONGEST, slowest};

/// Something that is asked of any bytes.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// What it is called: its target, and the folder of its corpus.
    pub name: &'static str,
    /// Asks it; panics where the answer is wrong.
    pub ask: fn(&[u8]),
}

/// Every question.
pub const ALL: [Question; 11] = [
    question("tire", typed::tire),
    question("quantity", typed::quantity),
    question("car_file", car_file::ask),
    question("upgrade", upgrade::ask),
    question("stations", stations::ask),
    question("link", link::ask),
    question("address", address::ask),
    question("kept", kept::ask),
    question("gaps", geometry_of::ask),
    question("work", work::ask),
    question("pictures", pictures::ask),
];

const fn question(name: &'static str, ask: fn(&[u8])) -> Question {
    Question { name, ask }
}

/// Asks the question of that name.
///
/// # Panics
/// Where the answer is wrong, or there is no such question.
pub fn ask(name: &str, input: &[u8]) {
    let question = ALL.iter().find(|one| one.name == name);
    let question = question.unwrap_or_else(|| panic!("there is no question called {name}"));
    (question.ask)(input);
}
