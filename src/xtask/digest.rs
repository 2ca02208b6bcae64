//! Digests as browsers want them: `sha256-` and base64 (W3C, Subresource Integrity; Content Security Policy).

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// The digest that a browser holds a script or a file to.
pub fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(content)))
}

/// Bytes as text.
pub fn base64(content: &[u8]) -> String {
    STANDARD.encode(content)
}

/// A short word for what is behind all the digests together.
pub fn version(digests: &[String]) -> String {
    let all = Sha256::digest(digests.concat());
    let (first, _) = all.split_at(8);
    let word = first
        .iter()
        .fold(0, |word: u64, byte| word << 8 | u64::from(*byte));
    format!("{word:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digests_are_those_of_the_standard() {
        // FIPS 180-2, appendix B.1: the digest of "abc".
        assert_eq!(
            integrity(b"abc"),
            "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="
        );
        // FIPS 180-2 gives none for no text; that of the empty text is well known, from memory.
        assert_eq!(version(&[]), "e3b0c44298fc1c14");
    }
}
