//! What YAML 1.2.2 refuses and the event parser lets pass: tabs that indent, and signs that stand too close.

use super::syntax;
use crate::diagnostic::Diagnostic;
use crate::source::Span;
use granit_parser::{ErrorKind, StructureStyle};

/// Refuses a list or map on lines of its own behind a tab (section 6.1), and one in brackets that touches its `&name`
/// (section 6.9: blanks stand between).
pub(super) fn collection(text: &str, span: Span, style: StructureStyle, named: bool) -> Result<(), Diagnostic> {
    let before = text.get(..span.start as usize).unwrap_or("");
    if style == StructureStyle::Flow {
        if named && before.ends_with(|last: char| !last.is_whitespace()) {
            let error = Diagnostic::new(span.part(0, 1), "a space is missing after the `&name`");
            return Err(error.help("write one between the name and the value, or remove the `&name`"));
        }
        return Ok(());
    }
    let bare = before.trim_end_matches([' ', '\t']);
    let begins = bare.is_empty() || bare.ends_with(['\n', '\u{feff}', '-', '?', ':']);
    if let (true, Some(at)) = (begins, before.get(bare.len()..).and_then(|blanks| blanks.find('\t'))) {
        let at = bare.len() + at;
        return Err(syntax::diagnostic(&ErrorKind::TabInIndentation, Span { start: 0, ..span }.part(at, at + 1)));
    }
    Ok(())
}

/// Refuses a lone `?` or `:` as a value before a comma or bracket (section 7.3.3).
pub(super) fn plain_in_brackets(text: &str, value: &str, span: Span) -> Result<(), Diagnostic> {
    let next = text.get(span.end as usize..).and_then(|rest| rest.chars().next());
    if !matches!(value, "?" | ":") || !next.is_some_and(|next| ",[]{}".contains(next)) {
        return Ok(());
    }
    Err(Diagnostic::new(span, format!("a lone `{value}` is no value")).help("put it in quotes if it is meant as text"))
}
