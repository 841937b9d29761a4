//! Text to the tree of an expression, operators by binding power (Pratt).

use super::ast::{Binary, Expr, ExprKind, Function, Gather, Things, Unary};
use super::lexer::{Lexed, Place, Token, lex};
use crate::base::text::nearest;
use crate::diagnostic::Diagnostic;
use crate::source::Span;

/// Greatest length of an expression in characters.
pub const MOST_CHARACTERS: usize = 1000;
/// Greatest depth of an expression's tree.
pub const MOST_DEPTH: usize = 64;

/// A function: name, count of arguments (least, most), form for messages.
type Known = (&'static str, Function, usize, usize, &'static str);

const FUNCTIONS: [Known; 19] = [
    ("if", Function::If, 3, 3, "if(condition, value, other)"),
    ("min", Function::Min, 1, usize::MAX, "min(a, b, ...)"),
    ("max", Function::Max, 1, usize::MAX, "max(a, b, ...)"),
    ("abs", Function::Abs, 1, 1, "abs(a)"),
    ("round", Function::Round, 1, 1, "round(a)"),
    ("floor", Function::Floor, 1, 1, "floor(a)"),
    ("ceil", Function::Ceil, 1, 1, "ceil(a)"),
    ("sqrt", Function::Sqrt, 1, 1, "sqrt(a)"),
    ("sin", Function::Sin, 1, 1, "sin(degrees)"),
    ("cos", Function::Cos, 1, 1, "cos(degrees)"),
    ("tan", Function::Tan, 1, 1, "tan(degrees)"),
    ("atan", Function::Atan, 1, 1, "atan(a)"),
    ("hypot", Function::Hypot, 2, 2, "hypot(a, b)"),
    ("roof", Function::Roof, 1, 1, "roof(y)"),
    ("ceiling", Function::Ceiling, 2, 2, "ceiling(u, v)"),
    ("left", Function::Left, 1, 1, "left(height)"),
    ("right", Function::Right, 1, 1, "right(height)"),
    ("front", Function::Front, 1, 1, "front(height)"),
    ("rear", Function::Rear, 1, 1, "rear(height)"),
];

/// Functions of house rules, beside the others.
const OF_RULES: [Known; 8] = [
    ("distance", Function::Distance, 2, 2, "distance(a, b)"),
    ("way", Function::Way, 2, 2, "way(a, b)"),
    ("above", Function::Above, 2, 2, "above(a, b)"),
    ("sees", Function::Sees, 2, 2, "sees(a, b)"),
    ("inside", Function::Inside, 2, 2, "inside(a, b)"),
    ("has", Function::Has, 1, 1, "has(a.worktop)"),
    ("tagged", Function::Tagged, 2, 2, "tagged(a, hob)"),
    ("joined", Function::Joined, 2, 2, "joined(a, gas)"),
];

/// Parses an expression.
///
/// `span` is where the text stands. When it is as long as the text, every piece gets its own bytes; otherwise (a
/// text with escapes, or folded over several lines) every piece gets the whole span.
///
/// # Errors
/// The first mistake, at its place.
pub fn parse(text: &str, span: Span) -> Result<Expr, Diagnostic> {
    whole(text, span, false, |parser| parser.expression(0, 0).map(|tree| tree.expr))
}

/// Parses an expression of a house rule.
///
/// # Errors
/// The first mistake, at its place.
pub fn parse_rule(text: &str, span: Span) -> Result<Expr, Diagnostic> {
    whole(text, span, true, |parser| parser.expression(0, 0).map(|tree| tree.expr))
}

/// Parses what a house rule is about: `module m where m.height > 900`.
///
/// # Errors
/// The first mistake, at its place.
pub fn parse_things(text: &str, span: Span) -> Result<Things, Diagnostic> {
    whole(text, span, true, |parser| parser.things(2, 0).map(|(things, _)| things))
}

fn whole<T>(
    text: &str,
    span: Span,
    rules: bool,
    read: impl FnOnce(&mut Parser<'_>) -> Result<T, Diagnostic>,
) -> Result<T, Diagnostic> {
    let place = Place { span, direct: (span.end.saturating_sub(span.start)) as usize == text.len() };
    if text.chars().count() > MOST_CHARACTERS {
        let error = Diagnostic::new(span, format!("the expression has more than {MOST_CHARACTERS} characters"));
        return Err(error.help("give parts of it a name under `parameters` or `let`"));
    }
    let tokens = lex(text, place)?;
    if tokens.is_empty() {
        return Err(Diagnostic::new(span, "a value is missing").help("write a number, a name or an expression"));
    }
    let mut parser = Parser { text, place, tokens: &tokens, at: 0, rules };
    let read = read(&mut parser)?;
    match parser.peek() {
        None => Ok(read),
        Some(left) => Err(parser.left_over(left)),
    }
}

/// Whether a text may name a thing: a letter, then letters, digits and hyphens between them.
#[must_use]
pub fn is_name(text: &str) -> bool {
    !text.is_empty() && !text.contains('.') && super::lexer::name_length(text) == text.len()
}

/// Whether a text may name a check: a name, or that of who brings the check, a colon and a name, as `rule:worktop`.
#[must_use]
pub fn is_check_name(text: &str) -> bool {
    text.split_once(':').map_or_else(|| is_name(text), |(whose, name)| is_name(whose) && is_name(name))
}

/// An expression with the depth of its tree.
pub(super) struct Tree {
    pub(super) expr: Expr,
    pub(super) depth: usize,
}

pub(super) struct Parser<'a> {
    pub(super) text: &'a str,
    pub(super) place: Place,
    pub(super) tokens: &'a [Lexed],
    pub(super) at: usize,
    /// The words of house rules are known.
    rules: bool,
}

pub(super) type Parsed = Result<Tree, Diagnostic>;

const NOT_POWER: u8 = 3;
const COMPARE_POWER: u8 = 4;
const MINUS_POWER: u8 = 7;

fn power(operator: Binary) -> u8 {
    match operator {
        Binary::Or => 1,
        Binary::And => 2,
        Binary::Equal
        | Binary::NotEqual
        | Binary::Less
        | Binary::LessOrEqual
        | Binary::Greater
        | Binary::GreaterOrEqual => COMPARE_POWER,
        Binary::Add | Binary::Subtract => 5,
        Binary::Multiply | Binary::Divide => 6,
    }
}

impl<'a> Parser<'a> {
    pub(super) fn peek(&self) -> Option<&'a Lexed> {
        self.tokens.get(self.at)
    }

    pub(super) fn next(&mut self) -> Option<&'a Lexed> {
        let token = self.peek();
        self.at += 1;
        token
    }

    pub(super) fn source(&self, token: &Lexed) -> &'a str {
        self.text.get(token.from..token.to).unwrap_or("")
    }

    pub(super) fn span(&self, token: &Lexed) -> Span {
        self.place.at(token.from, token.to)
    }

    /// Operators that bind at least as tightly as `least`; `nested` counts brackets and prefixes around.
    pub(super) fn expression(&mut self, least: u8, nested: usize) -> Parsed {
        let mut left = self.operand(nested)?;
        let mut compared = false;
        while let Some(Lexed { token: Token::Infix(operator), .. }) = self.peek() {
            let power = power(*operator);
            if power < least {
                break;
            }
            if power == COMPARE_POWER && compared {
                return Err(self.chained());
            }
            compared = power == COMPARE_POWER;
            self.at += 1;
            let right = self.expression(power + 1, nested)?;
            let span = Span { end: right.expr.span.end, ..left.expr.span };
            let depth = left.depth.max(right.depth);
            left =
                self.tree(ExprKind::Binary(*operator, Box::new(left.expr), Box::new(right.expr)), span, depth + 1)?;
        }
        Ok(left)
    }

    pub(super) fn tree(&self, kind: ExprKind, span: Span, depth: usize) -> Parsed {
        if depth > MOST_DEPTH {
            return Err(too_deep(span));
        }
        Ok(Tree { expr: Expr { kind, span }, depth })
    }

    fn operand(&mut self, nested: usize) -> Parsed {
        let Some(token) = self.next() else { return Err(self.missing(None)) };
        let span = self.span(token);
        if nested >= MOST_DEPTH {
            return Err(too_deep(span));
        }
        match &token.token {
            Token::Number(value) => self.tree(ExprKind::Number(*value), span, 1),
            Token::Bool(value) => self.tree(ExprKind::Bool(*value), span, 1),
            Token::Name(name) if matches!(self.peek(), Some(Lexed { token: Token::Open, .. })) => {
                self.call(name, token, nested)
            }
            Token::Name(name) if name == "if" => {
                Err(Diagnostic::new(span, "after `if` a `(` is missing").help("write `if(condition, value, other)`"))
            }
            Token::Name(name) => self.tree(ExprKind::Name(name.clone()), span, 1),
            Token::Infix(Binary::Subtract) => self.prefix(Unary::Minus, MINUS_POWER, span, nested),
            Token::Not => self.prefix(Unary::Not, NOT_POWER, span, nested),
            Token::Open => self.bracket(token, nested),
            Token::Infix(_) | Token::Close | Token::Comma => Err(self.missing(Some(token))),
        }
    }

    fn prefix(&mut self, operator: Unary, power: u8, span: Span, nested: usize) -> Parsed {
        let operand = self.expression(power, nested + 1)?;
        let span = Span { end: operand.expr.span.end, ..span };
        self.tree(ExprKind::Unary(operator, Box::new(operand.expr)), span, operand.depth + 1)
    }

    fn bracket(&mut self, open: &Lexed, nested: usize) -> Parsed {
        let mut inner = self.expression(0, nested + 1)?;
        let close = self.close(open)?;
        inner.expr.span = self.place.at(open.from, close.to);
        Ok(inner)
    }

    pub(super) fn close(&mut self, open: &Lexed) -> Result<&'a Lexed, Diagnostic> {
        match self.next() {
            Some(token) if token.token == Token::Close => Ok(token),
            Some(token) if matches!(token.token, Token::Comma) => Err(self.stray_comma(token)),
            Some(token) => Err(self.left_over(token)),
            None => Err(Diagnostic::new(self.span(open), "this `(` is never closed").help("add the missing `)`")),
        }
    }

    fn call(&mut self, name: &str, word: &Lexed, nested: usize) -> Parsed {
        if let Some(gather) = Gather::of(name).filter(|_| self.rules) {
            return self.over(gather, word, nested);
        }
        let more: &[Known] = if self.rules { &OF_RULES } else { &[] };
        let known = || FUNCTIONS.iter().chain(more);
        let Some((_, function, least, most, form)) = known().find(|(known, ..)| *known == name) else {
            return Err(unknown_function(name, known().map(|(known, ..)| *known), self.span(word)));
        };
        let Some(open) = self.next() else { return Err(self.missing(None)) };
        let mut arguments = Vec::new();
        let mut depth = 0;
        let close = loop {
            if let (true, Some(close @ Lexed { token: Token::Close, .. })) = (arguments.is_empty(), self.peek()) {
                self.at += 1;
                break close;
            }
            let argument = self.expression(0, nested + 1)?;
            depth = depth.max(argument.depth);
            arguments.push(argument.expr);
            if matches!(self.peek(), Some(Lexed { token: Token::Comma, .. })) {
                self.at += 1;
            } else {
                break self.close(open)?;
            }
        };
        let span = self.place.at(word.from, close.to);
        if !(*least..=*most).contains(&arguments.len()) {
            return Err(wrong_count(name, (*least, *most), arguments.len(), form, span));
        }
        self.tree(ExprKind::Call(*function, arguments), span, depth + 1)
    }

    /// A value is missing at `found`, or at the end.
    fn missing(&self, found: Option<&Lexed>) -> Diagnostic {
        let here = self.at.saturating_sub(1);
        let before = here.checked_sub(1).and_then(|at| self.tokens.get(at));
        let help = "write a number, a name or an expression there";
        let error = match (before, found) {
            (Some(before), Some(found)) if before.token == Token::Open && found.token == Token::Close => {
                Diagnostic::new(self.place.at(before.from, found.to), "nothing stands between these brackets")
            }
            (Some(before), _) => {
                Diagnostic::new(self.span(before), format!("a value is missing after `{}`", self.source(before)))
            }
            (None, Some(found)) => {
                Diagnostic::new(self.span(found), format!("a value is missing before `{}`", self.source(found)))
            }
            (None, None) => Diagnostic::new(self.place.at(0, self.text.len()), "a value is missing"),
        };
        error.help(help)
    }

    /// Something follows a finished expression.
    fn left_over(&self, token: &Lexed) -> Diagnostic {
        let span = self.span(token);
        match token.token {
            Token::Close => Diagnostic::new(span, "this `)` closes nothing").help("remove it, or add a `(` before"),
            Token::Comma => self.stray_comma(token),
            _ => {
                let word = self.source(token);
                let error = Diagnostic::new(span, format!("an operator is missing before `{word}`"));
                error.help(format!("write for example `* {word}` or `+ {word}`; units are mm, cm, m, in and ft"))
            }
        }
    }

    fn stray_comma(&self, token: &Lexed) -> Diagnostic {
        let error = Diagnostic::new(self.span(token), "a comma can't stand here");
        error.help("decimals are written with a point: `1.5`; commas part the arguments of a function")
    }

    fn chained(&self) -> Diagnostic {
        let span = self.peek().map_or(self.place.at(0, self.text.len()), |token| self.span(token));
        Diagnostic::new(span, "a comparison follows a comparison").help("write `a < b and b < c`")
    }
}

fn too_deep(span: Span) -> Diagnostic {
    let error = Diagnostic::new(span, format!("the expression is more than {MOST_DEPTH} operations deep"));
    error.help("give parts of it a name under `parameters` or `let`")
}

fn unknown_function<'k>(name: &str, known: impl Iterator<Item = &'k str> + Clone, span: Span) -> Diagnostic {
    let error = Diagnostic::new(span, format!("there is no function `{name}`"));
    if Gather::of(name).is_some() || OF_RULES.iter().any(|(of_rules, ..)| *of_rules == name) {
        return error.help(format!("`{name}(...)` can only stand in house rules"));
    }
    let help = match nearest(name, known.clone()) {
        Some(known) => format!("did you mean `{known}`?"),
        None => {
            let names: Vec<&str> = known.collect();
            format!("functions are {}; to multiply, write `{name} * (...)`", names.join(", "))
        }
    };
    error.help(help)
}

fn wrong_count(name: &str, (least, most): (usize, usize), found: usize, form: &str, span: Span) -> Diagnostic {
    let wanted = if least == most { least.to_string() } else { format!("at least {least}") };
    let values = if least == 1 { "value" } else { "values" };
    let given = if found == 1 { "is given" } else { "are given" };
    let error = Diagnostic::new(span, format!("`{name}` takes {wanted} {values}, and {found} {given}"));
    error.help(format!("write `{form}`"))
}

#[cfg(test)]
mod tests;
