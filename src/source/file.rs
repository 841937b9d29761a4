//! Source files with their line index.

use super::span::{FileId, Span};

/// One source file, kept whole so that every later message can quote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourceFile {
    /// Name as shown in messages.
    pub name: String,
    /// The text.
    pub text: String,
    line_starts: Vec<usize>,
}

/// A place in a file as people and editors count it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Column in UTF-16 units, from 0, as the language server protocol counts.
    pub utf16: usize,
}

impl SourceFile {
    /// Builds the line index of a file.
    #[must_use]
    pub fn new(name: String, text: String) -> Self {
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { name, text, line_starts }
    }

    /// Line and column of a byte offset; offsets past the end count as the end.
    #[must_use]
    pub fn position(&self, byte: usize) -> Position {
        let mut byte = byte.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        let line = self.line_starts.partition_point(|start| *start <= byte).max(1);
        let start = self.line_starts.get(line - 1).copied().unwrap_or(0);
        let before = self.text.get(start..byte).unwrap_or("");
        Position { line, column: before.chars().count() + 1, utf16: before.encode_utf16().count() }
    }
}

impl SourceFile {
    /// The byte of a line and a column, both from 1; `None` where the file has no such place.
    #[must_use]
    pub fn offset(&self, line: usize, column: usize) -> Option<usize> {
        let start = *self.line_starts.get(line.checked_sub(1)?)?;
        let end = self.line_starts.get(line).copied().unwrap_or(self.text.len());
        let text = self.text.get(start..end)?;
        let past = text.trim_end_matches(['\n', '\r']).len();
        let mut places = text.char_indices().map(|(at, _)| at).take_while(|at| *at < past).chain([past]);
        places.nth(column.checked_sub(1)?).map(|at| start + at)
    }
}

/// All files of one run.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SourceMap {
    files: Vec<SourceFile>,
}

impl SourceMap {
    /// Adds a file and returns its number.
    pub fn add(&mut self, name: String, text: String) -> FileId {
        let id = FileId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
        self.files.push(SourceFile::new(name, text));
        id
    }

    /// Gives every file another name.
    pub fn rename(&mut self, name: impl Fn(&str) -> String) {
        for file in &mut self.files {
            file.name = name(&file.name);
        }
    }

    /// The file of a number.
    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(id.0 as usize)
    }

    /// The span from one line and column to another in the file of a name; `None` where there is no such place.
    #[must_use]
    pub fn span(&self, file: &str, start: (usize, usize), end: (usize, usize)) -> Option<Span> {
        let at = self.files.iter().position(|known| known.name == file)?;
        let known = self.files.get(at)?;
        let byte = |(line, column)| known.offset(line, column).and_then(|byte| u32::try_from(byte).ok());
        let (start, end) = (byte(start)?, byte(end)?);
        (start <= end).then_some(Span { file: FileId(u32::try_from(at).ok()?), start, end })
    }

    /// The text of a span, empty if the span is not in the map.
    #[must_use]
    pub fn text(&self, span: Span) -> &str {
        self.file(span.file).and_then(|file| file.text.get(span.start as usize..span.end as usize)).unwrap_or("")
    }

    /// The place where a span starts, with the file's name.
    #[must_use]
    pub fn place(&self, span: Span) -> Option<(&str, Position)> {
        self.file(span.file).map(|file| (file.name.as_str(), file.position(span.start as usize)))
    }
}
