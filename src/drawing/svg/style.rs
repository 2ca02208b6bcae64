//! The style of a drawing that stands alone: the page's own sheets, with every color written out.
//!
//! Viewers other than browsers know neither `var()` nor `light-dark()`, so both are resolved here: once
//! for light, and once more for dark screens.

const TOKENS: &str = include_str!("../../../style/tokens.css");
const DRAWING: &str = include_str!("../../../style/drawing.css");

/// What a drawing's colors are chosen for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scheme {
    /// Light paper.
    Light,
    /// Dark paper.
    Dark,
}

/// The style sheet, with its colors written out.
pub fn standalone() -> String {
    format!(
        "{}@media screen and (prefers-color-scheme: dark) {{\n{}}}\n",
        resolved(Scheme::Light),
        resolved(Scheme::Dark)
    )
}

/// The drawing's sheet with each `var(--name)` replaced by its token.
pub fn resolved(scheme: Scheme) -> String {
    let mut out = String::with_capacity(DRAWING.len());
    let mut rest = DRAWING;
    while let Some((before, after)) = rest.split_once("var(") {
        out.push_str(before);
        let (name, after) = after.split_once(')').unwrap_or((after, ""));
        out.push_str(token(name, scheme).unwrap_or("currentColor"));
        rest = after;
    }
    out.push_str(rest);
    out
}

fn token(name: &str, scheme: Scheme) -> Option<&'static str> {
    let value = TOKENS.split(['{', ';', '}']).find_map(|declaration| {
        let bare = declaration
            .rsplit_once("*/")
            .map_or(declaration, |(_, bare)| bare);
        let (token, value) = bare.split_once(':')?;
        (token.trim() == name).then(|| value.trim())
    })?;
    match value
        .strip_prefix("light-dark(")
        .and_then(|pair| pair.strip_suffix(')'))
    {
        Some(pair) => {
            let (light, dark) = pair.split_once(',')?;
            Some(match scheme {
                Scheme::Light => light.trim(),
                Scheme::Dark => dark.trim(),
            })
        }
        None => Some(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::role::Role;

    #[test]
    fn every_variable_is_a_token() {
        for name in DRAWING
            .split("var(")
            .skip(1)
            .filter_map(|rest| rest.split_once(')'))
        {
            assert!(
                token(name.0, Scheme::Light).is_some(),
                "{} is no token",
                name.0
            );
        }
        let sheet = standalone();
        assert!(!sheet.contains("var(") && !sheet.contains("light-dark("));
    }

    #[test]
    fn light_and_dark_differ() {
        assert_ne!(
            token("--paper", Scheme::Light),
            token("--paper", Scheme::Dark)
        );
    }

    #[test]
    fn every_role_has_a_style() {
        for role in Role::ALL {
            assert!(
                DRAWING.contains(&format!(".{}", role.class())),
                "{role:?} has no style"
            );
        }
    }
}
