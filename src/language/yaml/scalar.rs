//! Plain scalars after the YAML 1.2 core schema, and the characters that may not stand in a file.

use crate::language::node::NodeValue;

/// The value of a plain scalar (YAML 1.2.2, section 10.3.2), or why it can't be used.
///
/// Numbers with a leading zero (`010`) or an underscore stay texts: readers differ on what they mean.
///
/// # Errors
/// A sentence when the scalar is a number that is not finite.
pub(super) fn resolve(text: &str) -> Result<NodeValue, String> {
    match text {
        "" | "~" | "null" | "Null" | "NULL" => return Ok(NodeValue::Null),
        "true" | "True" | "TRUE" => return Ok(NodeValue::Bool(true)),
        "false" | "False" | "FALSE" => return Ok(NodeValue::Bool(false)),
        _ => {}
    }
    let plain = text.strip_prefix(['-', '+']).unwrap_or(text);
    if matches!(plain, ".inf" | ".Inf" | ".INF") || matches!(text, ".nan" | ".NaN" | ".NAN") {
        return Err(format!("`{text}` is not a number that can be measured"));
    }
    if let Some(number) = radix(text) {
        return Ok(NodeValue::Int(number));
    }
    if is_whole(plain) {
        if let Ok(number) = text.parse::<i64>() {
            return Ok(NodeValue::Int(number));
        }
    } else if !is_decimal(plain) {
        return Ok(NodeValue::Text(text.to_owned(), false));
    }
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(NodeValue::Float(number)),
        Ok(_) => Err(format!("the number `{text}` is too large")),
        Err(_) => Ok(NodeValue::Text(text.to_owned(), false)),
    }
}

/// `0o17` and `0x1F`.
fn radix(text: &str) -> Option<i64> {
    let (digits, radix) = match (text.strip_prefix("0o"), text.strip_prefix("0x")) {
        (Some(digits), _) => (digits, 8),
        (_, Some(digits)) => (digits, 16),
        _ => return None,
    };
    let sound = !digits.is_empty() && digits.chars().all(|digit| digit.is_digit(radix));
    sound.then(|| i64::from_str_radix(digits, radix).ok()).flatten()
}

fn is_whole(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit()) && !(text.len() > 1 && text.starts_with('0'))
}

/// `12.5`, `.5`, `5.`, `1e3`.
fn is_decimal(text: &str) -> bool {
    let (mantissa, exponent) = match text.find(['e', 'E']) {
        Some(at) => (text.get(..at).unwrap_or(""), text.get(at + 1..)),
        None => (text, None),
    };
    let (whole, fraction) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    let sound = digits(whole)
        && digits(fraction)
        && !(whole.is_empty() && fraction.is_empty())
        && !(whole.len() > 1 && whole.starts_with('0'));
    sound
        && exponent.is_none_or(|exponent| {
            let exponent = exponent.strip_prefix(['-', '+']).unwrap_or(exponent);
            !exponent.is_empty() && digits(exponent)
        })
}

/// Why a character may not stand anywhere in a file, if it may not. Line ends and tabs are judged elsewhere.
pub(super) fn refused(character: char) -> Option<&'static str> {
    match character {
        '\n' | '\r' | '\t' => None,
        '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' => Some("turns the direction of the text around it"),
        '\u{2028}' | '\u{2029}' => Some("breaks a line without a line end"),
        _ if character.is_control() => Some("is a control character"),
        _ => None,
    }
}
