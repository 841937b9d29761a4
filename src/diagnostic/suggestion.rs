//! Changes of the text that clear a finding.

use crate::source::{FileId, Span};

/// A change of one written value that clears a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggestion {
    /// The change in words, as an order, no full stop.
    pub words: String,
    /// The same for the text of the files; no two overlap.
    pub edits: Vec<Edit>,
}

/// A piece of a file to be replaced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced; of no length where something is inserted.
    pub span: Span,
    /// What stands there instead.
    pub text: String,
}

/// The text of a file with the edits that are for this file. An edit outside the text, or inside a character, is left
/// out.
#[must_use]
pub fn edited(text: &str, file: FileId, edits: &[Edit]) -> String {
    let mut here: Vec<&Edit> = edits.iter().filter(|edit| edit.span.file == file).collect();
    here.sort_by_key(|edit| (edit.span.start, edit.span.end));
    let (mut made, mut done) = (String::new(), 0);
    for edit in here {
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        let Some(kept) = text.get(done..start).filter(|_| text.get(start..end).is_some()) else { continue };
        made += kept;
        made += &edit.text;
        done = end;
    }
    made + text.get(done..).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edit(file: u32, start: u32, end: u32, text: &str) -> Edit {
        Edit { span: Span { file: FileId(file), start, end }, text: text.to_owned() }
    }

    #[test]
    fn edits_replace_and_insert_in_their_file() {
        let edits = [edit(0, 6, 6, "!"), edit(1, 0, 3, "no"), edit(0, 0, 2, "ü")];
        assert_eq!(edited("ab cde", FileId(0), &edits), "ü cde!");
        assert_eq!(edited("ab cde", FileId(2), &edits), "ab cde");
    }

    #[test]
    fn odd_edits_are_left_out() {
        let edits = [edit(0, 1, 1, "x"), edit(0, 9, 12, "x"), edit(0, 3, 2, "x")];
        assert_eq!(edited("ü c", FileId(0), &edits), "ü c");
        assert_eq!(edited("abc", FileId(0), &[edit(0, 0, 2, "x"), edit(0, 1, 3, "y")]), "xc");
    }
}
