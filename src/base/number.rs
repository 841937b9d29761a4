//! Rounding and printing of numbers, the same everywhere.

/// Rounds a length in millimetres to whole micrometres, and turns `-0` into `0`.
#[must_use]
pub fn micrometres(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0 + 0.0
}

/// Prints a number with at most `decimals` decimals and no trailing zeros: `620`, `2.35`.
#[must_use]
pub fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Prints a length for a message: whole millimetres where it is whole, else one decimal.
#[must_use]
pub fn mm(value: f64) -> String {
    format!("{} mm", trimmed(value, 1))
}
