//! Rounding and printing of numbers, the same everywhere.

use super::tolerance::{NEAR_A_TIE, SURE_WHOLE};

/// Rounds a length in millimetres to whole micrometres, and turns `-0` into `0`.
#[must_use]
pub fn micrometres(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0 + 0.0
}

/// Prints a number with at most `decimals` decimals and no trailing zeros: `620`, `2.35`.
#[must_use]
pub fn trimmed(value: f64, decimals: usize) -> String {
    let mut text = String::new();
    push_trimmed(&mut text, value, decimals);
    text
}

/// Prints a number behind a text, as [`trimmed`] does.
pub fn push_trimmed(text: &mut String, value: f64, decimals: usize) {
    match in_units(value, decimals) {
        Some((units, scale)) => push_units(text, units, scale, decimals),
        None => text.push_str(&by_the_library(value, decimals)),
    }
}

/// Correct for every number, but many times slower.
fn by_the_library(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// The number in whole units of its last decimal, and how many units are 1; `None` where a product in `f64` can't
/// tell which unit is nearest.
#[allow(clippy::cast_possible_truncation, reason = "below 1e12")]
fn in_units(value: f64, decimals: usize) -> Option<(i64, u64)> {
    const SCALES: [u64; 7] = [1, 10, 100, 1000, 10_000, 100_000, 1_000_000];
    let scale = *SCALES.get(decimals)?;
    let scaled = value * scale as f64;
    let sure = scaled.abs() < SURE_WHOLE && (scaled - scaled.floor() - 0.5).abs() > NEAR_A_TIE;
    sure.then(|| (scaled.round() as i64, scale))
}

fn push_units(text: &mut String, units: i64, scale: u64, decimals: usize) {
    if units < 0 {
        text.push('-');
    }
    let (whole, mut part) = (units.unsigned_abs() / scale, units.unsigned_abs() % scale);
    push_digits(text, whole, 1);
    if part > 0 {
        let mut digits = decimals;
        while part.is_multiple_of(10) {
            part /= 10;
            digits -= 1;
        }
        text.push('.');
        push_digits(text, part, digits);
    }
}

/// A whole number with so many digits at least.
fn push_digits(text: &mut String, mut number: u64, least: usize) {
    let mut digits = [b'0'; 20];
    let mut count = 0;
    for digit in digits.iter_mut().rev() {
        *digit = b'0' + (number % 10) as u8;
        number /= 10;
        count += 1;
        if number == 0 && count >= least {
            break;
        }
    }
    digits.iter().skip(digits.len() - count).for_each(|digit| text.push(char::from(*digit)));
}

/// Prints a length for a message: whole millimetres where it is whole, else one decimal.
#[must_use]
pub fn mm(value: f64) -> String {
    format!("{} mm", trimmed(value, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    // The standard library prints every number rightly rounded.
    #[test]
    fn prints_as_the_standard_library() {
        let mut state = 0x2545_f491_4f6c_dd1d_u64;
        let mut random = || {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state
        };
        for _ in 0..200_000 {
            let (a, b) = (random(), random());
            let wide = (a as f64 / u64::MAX as f64 - 0.5) * 10_f64.powi((b % 14) as i32);
            let halves = (a % 2_000_001) as f64 / 2000.0 - 500.0;
            for value in [wide, halves, f64::from_bits(a)] {
                let decimals = (b >> 32) as usize % 8;
                assert_eq!(trimmed(value, decimals), by_the_library(value, decimals), "{value:?} {decimals}");
            }
        }
        for value in [0.0, -0.0, -0.0004, 0.0005, 999.9995, -1e6, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            (0..8).for_each(|decimals| assert_eq!(trimmed(value, decimals), by_the_library(value, decimals)));
        }
    }
}
