//! Texts that spreadsheet programs leave alone.

/// A text that no spreadsheet program takes for a formula.
pub(super) fn plain(text: &str) -> String {
    let risky = ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];
    if text.trim_start_matches(' ').starts_with(risky) { format!("'{text}") } else { text.to_owned() }
}
