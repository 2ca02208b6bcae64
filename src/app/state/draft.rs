//! What somebody is typing: kept as typed until it is understood, told what is wrong until it is right.

/// Text typed over a shown value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// The text as typed.
    pub text: String,
    /// What was shown when the typing began. Once something else is shown, the draft is stale.
    pub over: String,
    /// What is wrong with the text, once it was handed in.
    pub fault: Option<String>,
}

impl Draft {
    /// What the box holds while `shown` is the value's own text.
    pub fn text<'a>(draft: Option<&'a Self>, shown: &'a str) -> &'a str {
        Self::fresh(draft, shown).map_or(shown, |draft| &draft.text)
    }

    /// What is wrong with what the box holds.
    pub fn fault<'a>(draft: Option<&'a Self>, shown: &str) -> Option<&'a str> {
        Self::fresh(draft, shown)?.fault.as_deref()
    }

    fn fresh<'a>(draft: Option<&'a Self>, shown: &str) -> Option<&'a Self> {
        draft.filter(|draft| draft.over == shown)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_text_stays_until_the_value_changes() {
        let draft = Draft {
            text: "7 5/".into(),
            over: "7 in".into(),
            fault: Some("cut off".into()),
        };
        assert_eq!(Draft::text(Some(&draft), "7 in"), "7 5/");
        assert_eq!(Draft::fault(Some(&draft), "7 in"), Some("cut off"));
        assert_eq!(Draft::text(Some(&draft), "6 in"), "6 in");
        assert_eq!(Draft::fault(Some(&draft), "6 in"), None);
        assert_eq!(Draft::text(None, "6 in"), "6 in");
    }
}
