//! Words of plug-ins: what can be shown and drawn of them.

use crate::drawing::supports;

/// A text that can be shown and drawn.
pub(super) fn text(text: &str, longest: usize) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err("a text is empty".to_owned());
    }
    if text.chars().count() > longest {
        return Err(format!("a text is longer than {longest} characters"));
    }
    match text.chars().find(|char| !supports(*char)) {
        Some(char) => Err(format!("the sign U+{:04X} in a text can't be drawn: the font has none", u32::from(char))),
        None => Ok(text.to_owned()),
    }
}

/// The beginning of a name that may be anything.
pub(super) fn short(text: &str) -> String {
    let some: String = text.chars().take(40).collect();
    if some.len() < text.len() { some + "..." } else { some }
}
