//! Digests as browsers want them, `sha256-` and base64 (W3C, Subresource Integrity; Content Security Policy), and as
//! whoever hosts the page can check them.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// The digest that a browser holds a script or a file to.
pub fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(content)))
}

/// The digest as `sha256sum` writes and checks it.
pub fn hexadecimal(content: &[u8]) -> String {
    Sha256::digest(content)
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .filter_map(|digit| char::from_digit(u32::from(digit), 16))
        .collect()
}

/// Every file under a folder by its address in it, with its digest, in the order of the addresses.
pub fn of_files(folder: &Path, digest: fn(&[u8]) -> String) -> Result<Vec<(String, String)>> {
    let mut files = Vec::new();
    list(folder, "", digest, &mut files)?;
    files.sort_unstable();
    Ok(files)
}

fn list(
    folder: &Path,
    address: &str,
    digest: fn(&[u8]) -> String,
    files: &mut Vec<(String, String)>,
) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name();
        let name = name.to_str().context("a file's name is no text")?;
        let address = format!("{address}{name}");
        if entry.file_type()?.is_dir() {
            list(&entry.path(), &format!("{address}/"), digest, files)?;
        } else {
            files.push((address, digest(&fs::read(entry.path())?)));
        }
    }
    Ok(())
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
        assert_eq!(
            hexadecimal(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        // FIPS 180-2 gives none for no text; that of the empty text is well known, from memory.
        assert_eq!(version(&[]), "e3b0c44298fc1c14");
    }
}
