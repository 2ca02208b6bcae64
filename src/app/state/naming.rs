//! Names that people type.

use geometry::car::Car;

/// A name as it is kept: no longer than a car file's, nothing round it.
///
/// # Errors
/// What is wrong with it, and what would be accepted, of a thing called `of`.
pub fn named(text: &str, of: &str) -> Result<String, String> {
    let name = text.trim();
    let count = name.chars().count();
    if count == 0 {
        return Err(format!("The {of} needs a name. Type one."));
    }
    if count > Car::LONGEST_NAME {
        return Err(format!(
            "The name has {count} characters. Type up to {}.",
            Car::LONGEST_NAME
        ));
    }
    Ok(name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_kept_as_typed_unless_there_is_none_or_too_much_of_it() {
        assert_eq!(
            named("  Two-door wagon ", "car"),
            Ok("Two-door wagon".to_owned())
        );
        let longest = "\u{e9}".repeat(Car::LONGEST_NAME);
        assert_eq!(named(&longest, "car"), Ok(longest.clone()));
        assert!(named(" ", "part").is_err_and(|words| words.contains("part needs a name")));
        assert!(named(&format!("{longest}!"), "car").is_err_and(|words| words.contains("81")));
    }
}
