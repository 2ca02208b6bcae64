//! Any text as the page's address.

use crate::clock::timed;
use crate::state::address::{Address, PLACES};

/// Every address leads somewhere, is written and reads back the same, from every page that it may lead on to.
pub fn ask(input: &[u8]) {
    let fragment = String::from_utf8_lossy(input);
    let address = timed("reading an address", || Address::read(&fragment));
    let comes_back = |address: &Address| {
        let written = address.to_string();
        assert!(written.starts_with('#'), "{written}");
        assert_eq!(&Address::read(&written), address, "{written}");
    };
    comes_back(&address);
    for (_, place) in PLACES {
        let there = address.on(place);
        assert_eq!((there.place, &there.car), (place, &address.car));
        comes_back(&there);
        comes_back(&there.part("seam"));
    }
}
