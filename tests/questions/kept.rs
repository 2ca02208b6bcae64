//! Any text as what the browser kept of an earlier visit.

use crate::clock::timed;
use crate::state::desk;

/// It opens or it does not; what opened is kept as a text that opens again and is kept as the same text.
pub fn ask(input: &[u8]) {
    let text = String::from_utf8_lossy(input);
    let Ok(desk) = timed("opening what was kept", || desk::read(&text)) else {
        return;
    };
    let kept = |desk: &desk::Desk| desk::write(&desk.history, &desk.own, &desk.settings);
    let first = kept(&desk);
    let again = desk::read(&first).unwrap_or_else(|_| panic!("it does not open again:\n{first}"));
    assert_eq!(kept(&again), first, "kept again it is another text");
    assert_eq!(
        again.history.past().len(),
        desk.history.past().len().min(desk::STEPS_KEPT)
    );
    assert_eq!(again.own.len(), desk.own.len());
    assert_eq!(again.settings, desk.settings);
}
