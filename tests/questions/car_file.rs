//! Any bytes as a car file.

use carfile::{FileFault, read_bytes};

use crate::clock::timed;
use crate::same;

/// They read, and the car comes back from its own file; or every fault is told with its place.
pub fn ask(input: &[u8]) {
    match timed("reading a car file", || read_bytes(input)) {
        Ok(car) => same::comes_back(&car),
        Err(faults) => are_told(input, &faults),
    }
}

/// There are faults, and each says what was found, what would be accepted, and where in the text.
pub fn are_told(input: &[u8], faults: &[FileFault]) {
    assert!(
        !faults.is_empty(),
        "it does not read, and nothing is wrong with it"
    );
    let text = String::from_utf8_lossy(input);
    let lines: Vec<&str> = text.split('\n').collect();
    for fault in faults {
        let FileFault {
            line,
            column,
            found,
            accepted,
            ..
        } = fault;
        let on = line.checked_sub(1).and_then(|line| lines.get(line));
        let on = on.unwrap_or_else(|| panic!("{fault} is on no line of the text"));
        let columns = 1..=on.chars().count() + 1;
        assert!(columns.contains(column), "{fault} is beside its line");
        assert!(
            !found.trim().is_empty() && !accepted.trim().is_empty(),
            "{fault:?}"
        );
    }
}
