//! The car that is asked about: out of a file, or out of a link.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;

use geometry::car::Car;

/// The car that `named` names: a car file, or a link that holds one.
///
/// # Errors
/// In lines, what is wrong with it.
pub(crate) fn car(named: &Path) -> Result<Car, Vec<String>> {
    if let Some(token) = named.to_str().and_then(token_in) {
        let told = |fault: &str| format!("the link: {fault}");
        return carfile::from_token(token)
            .map_err(|fault| fault.sentences().iter().map(|it| told(it)).collect());
    }
    let bytes = bytes(named).map_err(|error| vec![crate::told(named, &error)])?;
    carfile::read_bytes(&bytes).map_err(|faults| {
        let name = named.display();
        let told = faults.iter().map(|fault| format!("{name}:{fault}"));
        told.collect()
    })
}

/// The car's part of a link, `...#...car=TOKEN...`. What has no `#` is a file's name.
fn token_in(link: &str) -> Option<&str> {
    let (_, fragment) = link.split_once('#')?;
    fragment
        .split('&')
        .find_map(|part| part.strip_prefix("car="))
}

/// No more of the file than it takes to see that it is too long.
fn bytes(file: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let enough = carfile::MAX_BYTES as u64 + 1;
    File::open(file)?.take(enough).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_is_told_from_a_file() {
        assert_eq!(
            token_in("https://club.example/page/#bench&car=1abc&light"),
            Some("1abc")
        );
        assert_eq!(token_in("#car="), Some(""));
        assert_eq!(token_in("cars/car=1.toml"), None);
        assert_eq!(token_in("cars/#1.toml"), None);
    }
}
