//! How CSV files are written: RFC 4180, UTF-8, and for programs of another language with its separator and decimal sign.
//!
//! A text that starts with `=`, `+`, `-`, `@`, a tab or a line end would be run as a formula by some spreadsheet
//! programs, so it gets an apostrophe in front. Figures are never touched but for their decimal sign.

use super::part_words::plain;

/// What parts the fields of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Separator {
    /// `,`, with `.` as decimal sign.
    #[default]
    Comma,
    /// `;`, with `,` as decimal sign.
    Semicolon,
    /// A tab, with `.` as decimal sign.
    Tab,
}

/// How CSV files are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CsvForm {
    /// What parts the fields.
    pub separator: Separator,
    /// Whether a file begins with a byte order mark.
    pub mark: bool,
}

/// The byte order mark in UTF-8.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// A field.
#[derive(Debug, Clone)]
pub(super) enum Field {
    /// Any text.
    Words(String),
    /// A number, with `.` as decimal sign; nothing where there is none.
    Figure(String),
}

impl From<&str> for Field {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

impl CsvForm {
    /// A file of these rows.
    pub(super) fn file<'r>(self, rows: impl IntoIterator<Item = Vec<&'r Field>>) -> Result<Vec<u8>, String> {
        let separator = match self.separator {
            Separator::Comma => b',',
            Separator::Semicolon => b';',
            Separator::Tab => b'\t',
        };
        let start = if self.mark { MARK.to_vec() } else { Vec::new() };
        let mut form = csv::WriterBuilder::new();
        let mut writer = form.terminator(csv::Terminator::CRLF).delimiter(separator).from_writer(start);
        let failed = |error: csv::Error| format!("the CSV text could not be made: {error}");
        for row in rows {
            writer.write_record(row.into_iter().map(|field| self.text(field))).map_err(failed)?;
        }
        writer.into_inner().map_err(|error| format!("the CSV text could not be made: {error}"))
    }

    fn text(self, field: &Field) -> String {
        match field {
            Field::Words(words) => plain(words),
            Field::Figure(figure) if self.separator == Separator::Semicolon => figure.replace('.', ","),
            Field::Figure(figure) => figure.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_follow_the_separator_and_words_never_run() {
        let row = [Field::from("=1+1; a, b"), Field::Figure("-2.5".to_owned()), Field::from("6.2 wide")];
        let file = |separator, mark| {
            let form = CsvForm { separator, mark };
            String::from_utf8(form.file([row.iter().collect()]).unwrap()).unwrap()
        };
        assert_eq!(file(Separator::Comma, false), "\"'=1+1; a, b\",-2.5,6.2 wide\r\n");
        assert_eq!(file(Separator::Semicolon, true), "\u{feff}\"'=1+1; a, b\";-2,5;6.2 wide\r\n");
        assert_eq!(file(Separator::Tab, false), "'=1+1; a, b\t-2.5\t6.2 wide\r\n");
    }
}
