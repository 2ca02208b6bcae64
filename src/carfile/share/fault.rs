//! What can be wrong with a token.

use crate::fault::FileFault;

/// Why no car came out of a token.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TokenFault {
    /// There is nothing in it.
    Empty,
    /// It is longer, packed or unpacked, than any car.
    TooLong,
    /// It was made by a newer program.
    Newer,
    /// Characters were lost or changed on the way.
    Damaged,
    /// It arrived whole, and the car in it is faulty.
    Car(Vec<FileFault>),
}

impl TokenFault {
    /// Everything that is wrong, a sentence each.
    pub fn sentences(&self) -> Vec<String> {
        match self {
            TokenFault::Car(faults) => faults.iter().map(ToString::to_string).collect(),
            _ => vec![self.to_string()],
        }
    }
}

/// What was found; what would be accepted.
impl std::fmt::Display for TokenFault {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let text = match self {
            TokenFault::Empty => {
                "the link holds no car; copy the whole link, from its start to its end"
            }
            TokenFault::TooLong => {
                "the link is longer than any car; copy a link that this page made"
            }
            TokenFault::Newer => {
                "the link was made by a newer Lip to Rail; load the page anew, or ask for the car file"
            }
            TokenFault::Damaged => {
                "the link is damaged: characters are missing or changed; copy the whole link, from its start to its end"
            }
            TokenFault::Car(faults) => {
                let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
                return write!(out, "the car in the link has faults: {}", lines.join("; "));
            }
        };
        out.write_str(text)
    }
}

impl std::error::Error for TokenFault {}
