//! Text of an expression to words, numbers and signs.

use super::ast::Binary;
use crate::diagnostic::Diagnostic;
use crate::source::Span;

/// Where a text stands: byte by byte in a file, or, when offsets do not map, as a whole.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    pub span: Span,
    pub direct: bool,
}

impl Place {
    pub fn at(self, from: usize, to: usize) -> Span {
        if self.direct { self.span.part(from, to) } else { self.span }
    }
}

/// One word, number or sign.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    /// A number, its unit applied.
    Number(f64),
    /// A name, possibly dotted.
    Name(String),
    /// `true` or `false`.
    Bool(bool),
    /// An infix operator; `Subtract` also stands for the prefix minus.
    Infix(Binary),
    /// `not`.
    Not,
    /// `(`.
    Open,
    /// `)`.
    Close,
    /// `,`.
    Comma,
}

/// A token with its bytes in the text.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lexed {
    pub(super) token: Token,
    pub(super) from: usize,
    pub(super) to: usize,
}

/// Units and their millimetres; the inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const UNITS: [(&str, f64); 5] = [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", 25.4), ("ft", 304.8)];

/// Splits a text.
pub(super) fn lex(text: &str, place: Place) -> Result<Vec<Lexed>, Diagnostic> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
        let blank = rest.len() - rest.trim_start().len();
        if blank > 0 {
            at += blank;
            continue;
        }
        let (token, length) = match rest.chars().next() {
            Some(first) if first.is_ascii_digit() || starts_with_point(rest) => number(rest, at, place)?,
            Some(first) if first.is_alphabetic() => word(rest),
            _ => sign(rest, at, place)?,
        };
        tokens.push(Lexed { token, from: at, to: at + length });
        at += length;
    }
    Ok(tokens)
}

fn starts_with_point(text: &str) -> bool {
    text.strip_prefix('.').is_some_and(|rest| rest.starts_with(|digit: char| digit.is_ascii_digit()))
}

/// Length of the name at the start of a text: a letter, then letters and digits; a hyphen or a point belongs to it when
/// a letter or digit follows.
pub(super) fn name_length(text: &str) -> usize {
    let mut end = 0;
    let mut characters = text.char_indices().peekable();
    while let Some((at, character)) = characters.next() {
        let next = characters.peek().map(|(_, next)| *next);
        let joined = matches!(character, '-' | '.') && at > 0 && next.is_some_and(char::is_alphanumeric);
        if !(character.is_alphanumeric() || joined) || (at == 0 && !character.is_alphabetic()) {
            break;
        }
        end = at + character.len_utf8();
    }
    end
}

fn word(text: &str) -> (Token, usize) {
    let length = name_length(text);
    let token = match text.get(..length).unwrap_or("") {
        "and" => Token::Infix(Binary::And),
        "or" => Token::Infix(Binary::Or),
        "not" => Token::Not,
        "true" => Token::Bool(true),
        "false" => Token::Bool(false),
        name => Token::Name(name.to_owned()),
    };
    (token, length)
}

fn digits(text: &str, from: usize) -> usize {
    text.get(from..).map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count())
}

/// Length of `12`, `12.5`, `.5`, `1e3`, `1.5e-3`.
fn number_length(text: &str) -> usize {
    let mut end = digits(text, 0);
    if text.get(end..).is_some_and(starts_with_point) {
        end += 1 + digits(text, end + 1);
    }
    if text.get(end..).is_some_and(|rest| rest.starts_with(['e', 'E'])) {
        let sign = usize::from(text.get(end + 1..).is_some_and(|rest| rest.starts_with(['-', '+'])));
        let exponent = digits(text, end + 1 + sign);
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    end
}

fn number(text: &str, at: usize, place: Place) -> Result<(Token, usize), Diagnostic> {
    let length = number_length(text);
    let digits = text.get(..length).unwrap_or("");
    let here = place.at(at, at + length);
    if digits.len() > 1 && digits.starts_with('0') && !digits.starts_with("0.") && !digits.starts_with("0e") {
        let error = Diagnostic::new(here, format!("the number `{digits}` begins with a zero"));
        return Err(error.help(format!("write `{}`", digits.trim_start_matches('0'))));
    }
    let value = digits.parse::<f64>().ok().filter(|value| value.is_finite());
    let Some(value) = value else {
        return Err(Diagnostic::new(here, format!("the number `{digits}` is too large")).help("write fewer digits"));
    };
    let (factor, length) = unit(text, length, at, place)?;
    Ok((Token::Number(value * factor), length))
}

/// The unit after a number, if there is one, and where the number then ends.
fn unit(text: &str, length: usize, at: usize, place: Place) -> Result<(f64, usize), Diagnostic> {
    let rest = text.get(length..).unwrap_or("");
    if rest.starts_with('_') {
        let error = Diagnostic::new(place.at(at + length, at + length + 1), "a number has a `_` in it");
        return Err(error.help("write the digits together: `1000`"));
    }
    let blank = rest.len() - rest.trim_start().len();
    let word = rest.get(blank..).unwrap_or("");
    let word = word.get(..name_length(word)).unwrap_or("");
    match UNITS.iter().find(|(unit, _)| *unit == word) {
        Some((_, factor)) => Ok((*factor, length + blank + word.len())),
        None if word.is_empty() || blank > 0 => Ok((1.0, length)),
        None => {
            let from = at + length;
            let error = Diagnostic::new(place.at(from, from + word.len()), format!("there is no unit `{word}`"));
            Err(error.help("units are mm, cm, m, in and ft; to multiply, write `*`"))
        }
    }
}

fn sign(text: &str, at: usize, place: Place) -> Result<(Token, usize), Diagnostic> {
    const SIGNS: [(&str, Token); 13] = [
        ("==", Token::Infix(Binary::Equal)),
        ("!=", Token::Infix(Binary::NotEqual)),
        ("<=", Token::Infix(Binary::LessOrEqual)),
        (">=", Token::Infix(Binary::GreaterOrEqual)),
        ("<", Token::Infix(Binary::Less)),
        (">", Token::Infix(Binary::Greater)),
        ("+", Token::Infix(Binary::Add)),
        ("-", Token::Infix(Binary::Subtract)),
        ("*", Token::Infix(Binary::Multiply)),
        ("/", Token::Infix(Binary::Divide)),
        ("(", Token::Open),
        (")", Token::Close),
        (",", Token::Comma),
    ];
    let wrong_double = text.starts_with("**") || text.starts_with("//");
    match SIGNS.iter().find(|(sign, _)| text.starts_with(sign)) {
        Some((sign, token)) if !wrong_double => Ok((token.clone(), sign.len())),
        _ => Err(unknown_sign(text, at, place)),
    }
}

fn unknown_sign(text: &str, at: usize, place: Place) -> Diagnostic {
    const MEANT: [(&str, &str); 17] = [
        ("=", "to compare, write `==`"),
        ("&&", "write `and`"),
        ("&", "write `and`"),
        ("||", "write `or`"),
        ("|", "write `or`"),
        ("!", "write `not`, or `!=` to compare"),
        ("**", "write `x * x`; there are no powers"),
        ("^", "write `x * x`; there are no powers"),
        ("//", "write `floor(a / b)` for a whole quotient"),
        ("%", "write `a - b * floor(a / b)` for a remainder"),
        ("×", "write `*`"),
        ("÷", "write `/`"),
        ("−", "write the plain minus `-`"),
        ("–", "write the plain minus `-`"),
        ("\"", "write inches as `60 in`"),
        ("_", "names have hyphens: `side-door`"),
        (".", "write numbers as `0.5`, and names as `bed.rear`"),
    ];
    let meant = MEANT.iter().find(|(sign, _)| text.starts_with(sign));
    let first = text.chars().next().map_or(0, char::len_utf8);
    let length = meant.map_or(first, |(sign, _)| sign.len());
    let shown = text.get(..length).unwrap_or("");
    let help = meant.map_or("use numbers, names and + - * / ( ) < <= > >= == != and or not", |(_, help)| help);
    let says = if shown == "=" {
        "a single `=` does not compare".to_owned()
    } else {
        format!("`{shown}` is not a sign of an expression")
    };
    Diagnostic::new(place.at(at, at + length), says).help(help)
}
