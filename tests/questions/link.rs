//! Any bytes as a link's car: as the text of the link, as what is packed in it, and as what that unpacks to.

use adler2::adler32_slice;
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use carfile::{TokenFault, from_token, to_token};

use crate::clock::timed;
use crate::same;

/// The first character of every link that is made today; see `carfile::to_token`.
const VERSION: char = '1';

/// The most that a block of deflate which packs nothing may hold (RFC 1951, section 3.2.4).
const BLOCK: usize = 0xffff;

pub fn ask(input: &[u8]) {
    opens(&String::from_utf8_lossy(input));
    opens(&sealed(input));
    opens(&sealed(&unpacked(input)));
}

/// It is refused in words; or its car makes a link of its own, which opens to the same car.
fn opens(token: &str) {
    match timed("opening a link", || from_token(token)) {
        Ok(car) => {
            let own = timed("making a link", || to_token(&car));
            let own = own.unwrap_or_else(|faults| panic!("{faults:#?}"));
            let back = from_token(&own).unwrap_or_else(|fault| panic!("{own}: {fault}"));
            same::is_same(&back, &car);
        }
        Err(fault) => {
            let sentences = fault.sentences();
            assert!(!sentences.is_empty() && sentences.iter().all(|it| !it.trim().is_empty()));
            if let TokenFault::Car(faults) = &fault {
                assert!(
                    !faults.is_empty(),
                    "the car is faulty, and nothing is wrong with it"
                );
            }
        }
    }
}

/// A link that arrived whole, whatever is packed in it: no guess at one would carry the right sum.
fn sealed(packed: &[u8]) -> String {
    let mut bytes = adler32_slice(packed).to_be_bytes().to_vec();
    bytes.extend(packed);
    format!("{VERSION}{}", URL_SAFE_NO_PAD.encode(bytes))
}

/// The bytes as deflate that packs nothing.
fn unpacked(bytes: &[u8]) -> Vec<u8> {
    let mut blocks = Vec::new();
    for part in bytes.chunks(BLOCK) {
        let [low, high] = u16::try_from(part.len()).unwrap_or(u16::MAX).to_le_bytes();
        blocks.extend([0, low, high, !low, !high]);
        blocks.extend(part);
    }
    // The last block is empty.
    blocks.extend([1, 0, 0, 0xff, 0xff]);
    blocks
}
