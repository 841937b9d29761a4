//! Byte ranges in source files, and values that remember where they were written.

/// A file of the [`super::SourceMap`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A range of bytes in one file, end not included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The part of this span from byte `from` to byte `to`, both counted from the span's start and kept inside it.
    #[must_use]
    pub fn part(self, from: usize, to: usize) -> Self {
        let at = |offset: usize| self.start.saturating_add(u32::try_from(offset).unwrap_or(u32::MAX)).min(self.end);
        Self { file: self.file, start: at(from), end: at(to).max(at(from)) }
    }
}

/// A value with the place it was written at.
#[derive(Debug, Clone, PartialEq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value at a place.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }
}
