//! Single values: texts, words, numbers, yes or no, pairs and ranges.

use super::Reader;
use super::words::meant;
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, ExprKind, is_check_name, is_name, parse};
use crate::language::node::{Node, NodeValue};
use crate::language::symbol::{EachDoc, OutlinePoint, RangeDoc};
use crate::source::{Span, Spanned};

/// Longest text of a title or note, in characters.
const MOST_TEXT: usize = 400;

impl Reader<'_> {
    /// A text. A bare number or word of YAML (`12`, `true`) counts as the text it is written with.
    pub(in crate::language) fn text(&mut self, node: &Node) -> Option<Spanned<String>> {
        let text = match &node.value {
            NodeValue::Text(text, _) => text.trim().to_owned(),
            NodeValue::Int(_) | NodeValue::Float(_) | NodeValue::Bool(_) => self.sources.text(node.span).to_owned(),
            _ => {
                self.unfit(node, "a text", "write a text; put it in quotes if it has `: ` or ` #` in it");
                return None;
            }
        };
        if text.is_empty() {
            self.error(Diagnostic::new(node.span, "this text is empty").help("write something, or remove the key"));
            return None;
        }
        if text.chars().count() > MOST_TEXT {
            let message = format!("this text has more than {MOST_TEXT} characters");
            self.error(Diagnostic::new(node.span, message).help("make it shorter"));
            return None;
        }
        Some(Spanned::new(text, node.span))
    }

    /// The name of a thing.
    pub(in crate::language) fn name(&mut self, node: &Node) -> Option<Spanned<String>> {
        self.named_by(node, is_name)
    }

    /// The name of a check.
    pub(in crate::language) fn name_of_check(&mut self, node: &Node) -> Option<Spanned<String>> {
        self.named_by(node, is_check_name)
    }

    fn named_by(&mut self, node: &Node, fits: fn(&str) -> bool) -> Option<Spanned<String>> {
        let text = self.text(node)?;
        if fits(&text.value) {
            return Some(text);
        }
        let error =
            Diagnostic::new(node.span, format!("{} needs a name, and `{}` is none", self.subject(), text.value));
        self.error(error.help("a name is a letter, then letters, digits and hyphens"));
        None
    }

    /// A list of names; a single name counts as a list of one.
    pub(in crate::language) fn names(&mut self, node: &Node) -> Option<Vec<Spanned<String>>> {
        if matches!(node.value, NodeValue::Text(..)) {
            return self.name(node).map(|name| vec![name]);
        }
        let owner = self.subject().to_owned();
        Some(self.list(node, &owner, Reader::name).into_iter().map(|name| name.value).collect())
    }

    /// One of a few words; `key` is what it says.
    pub(in crate::language) fn word(&mut self, node: &Node, key: &str, allowed: &[&str]) -> Option<Spanned<String>> {
        #[cfg(test)]
        super::heard::words(node.span, allowed);
        let text = self.text(node)?;
        let padded = matches!(&node.value, NodeValue::Text(written, _) if *written != text.value);
        if allowed.contains(&text.value.as_str()) && !padded {
            return Some(text);
        }
        let error = Diagnostic::new(node.span, format!("`{key}` can't be `{}`", text.value));
        let list = format!("write {}", one_of(allowed.iter().copied()));
        let help = match meant(&text.value, allowed) {
            Some(meant) => format!("did you mean `{meant}`? {list}"),
            None => list,
        };
        self.error(error.help(help));
        None
    }

    /// Yes or no.
    pub(in crate::language) fn flag(&mut self, node: &Node) -> Option<Spanned<bool>> {
        let value = match &node.value {
            NodeValue::Bool(value) => *value,
            NodeValue::Text(text, _) if text == "yes" => true,
            NodeValue::Text(text, _) if text == "no" => false,
            _ => {
                self.unfit(node, "`yes` or `no`", "write `yes` or `no` (`true` or `false` serve too)");
                return None;
            }
        };
        Some(Spanned::new(value, node.span))
    }

    /// A number or an expression.
    pub(in crate::language) fn expr(&mut self, node: &Node) -> Option<Expr> {
        let expr = self.as_written(node)?;
        Some(if node.turn.any() { node.turn.expr(expr) } else { expr })
    }

    /// The expression as it is written.
    fn as_written(&mut self, node: &Node) -> Option<Expr> {
        let kind = match &node.value {
            #[allow(clippy::cast_precision_loss, reason = "beyond 2^53 no length is meant")]
            NodeValue::Int(value) => ExprKind::Number(*value as f64),
            NodeValue::Float(value) => ExprKind::Number(*value),
            NodeValue::Bool(value) => ExprKind::Bool(*value),
            NodeValue::Text(text, quoted) => return self.expression(text, *quoted, node.span),
            _ => {
                self.unfit(node, "a number", "write a number such as `620`, or an expression such as `bench + 20`");
                return None;
            }
        };
        Some(Expr { kind, span: node.span })
    }

    /// A yes-or-no expression; `yes` and `no` are words for true and false.
    pub(in crate::language) fn condition(&mut self, node: &Node) -> Option<Expr> {
        match &node.value {
            NodeValue::Text(text, _) if matches!(text.as_str(), "yes" | "no") => {
                Some(Expr { kind: ExprKind::Bool(text == "yes"), span: node.span })
            }
            _ => self.expr(node),
        }
    }

    fn expression(&mut self, text: &str, quoted: bool, span: Span) -> Option<Expr> {
        let inner = if quoted { self.inside_quotes(text, span) } else { span };
        let expr = self.parsed(parse(text, inner))?;
        self.names_of(&expr);
        Some(expr)
    }

    /// Remembers what an expression names.
    pub(in crate::language) fn names_of(&mut self, expr: &Expr) {
        expr.each_name(&mut |name| {
            self.named.insert(name.to_owned());
        });
    }

    /// What was parsed; a mistake is reported.
    pub(in crate::language) fn parsed<T>(&mut self, parsed: Result<T, Diagnostic>) -> Option<T> {
        parsed.map_err(|error| self.error(error)).ok()
    }

    /// A text as it is written, with its place without quotes.
    pub(in crate::language) fn written(&mut self, node: &Node) -> Option<Spanned<String>> {
        let text = self.text(node)?;
        let NodeValue::Text(text, quoted) = &node.value else { return Some(text) };
        let place = if *quoted { self.inside_quotes(text, node.span) } else { node.span };
        Some(Spanned::new(text.clone(), place))
    }

    /// The place of a quoted text without its quotes, if its bytes are those of the file.
    fn inside_quotes(&self, text: &str, span: Span) -> Span {
        let length = (span.end.saturating_sub(span.start)) as usize;
        let inner = span.part(1, length.saturating_sub(1));
        if self.sources.text(inner) == text { inner } else { span }
    }

    /// `[a, b]`.
    pub(in crate::language) fn pair(&mut self, node: &Node) -> Option<[Expr; 2]> {
        let NodeValue::List(nodes) = &node.value else {
            self.unfit(node, "two numbers", "write `[a, b]`");
            return None;
        };
        let [first, second] = nodes.as_slice() else {
            let error = Diagnostic::new(
                node.span,
                format!("{} needs two numbers, and {} are written", self.subject(), nodes.len()),
            );
            self.error(error.help("write `[a, b]`"));
            return None;
        };
        let (first, second) = (self.expr(first), self.expr(second));
        Some([first?, second?])
    }

    /// `[low, high]`.
    pub(in crate::language) fn range(&mut self, node: &Node) -> Option<RangeDoc> {
        self.pair(node).map(|[low, high]| RangeDoc { low, high })
    }

    /// Corners `[a, b]` and arcs `{ arc: [a, b], through: [a, b] }`.
    pub(in crate::language) fn points(&mut self, node: &Node) -> Option<Vec<OutlinePoint>> {
        let before = self.failures();
        let owner = self.subject().to_owned();
        let points = self.list(node, &owner, Reader::point);
        let arcs = points.iter().filter(|point| matches!(point.value, OutlinePoint::Arc { .. })).count();
        if let (Some(Spanned { value: OutlinePoint::Arc { .. }, span }), true) = (points.first(), arcs > 0) {
            let error = Diagnostic::new(*span, "an outline can't begin with an arc");
            self.error(error.help("write the corner where the arc starts before it"));
        }
        if points.len() < 2 && self.failures() == before {
            let error = Diagnostic::new(
                node.span,
                format!("{} needs points, and {} are written", self.subject(), points.len()),
            );
            self.error(error.help("write `[[0, 0], [run, 0], [run, depth]]`"));
        }
        (self.failures() == before).then(|| points.into_iter().map(|point| point.value).collect())
    }

    fn point(&mut self, node: &Node) -> Option<OutlinePoint> {
        if node.as_map().is_none() {
            return self.pair(node).map(OutlinePoint::Corner);
        }
        let mut fields = self.fields(node, "an arc")?;
        let to = fields.need(self, "arc", Reader::pair);
        let through = fields.need(self, "through", Reader::pair);
        fields.close(self);
        Some(OutlinePoint::Arc { to: to?, through: through? })
    }

    /// `i in 1..3`.
    pub(in crate::language) fn each(&mut self, node: &Node) -> Option<EachDoc> {
        let help = "write `each: i in 1..3`; the name then stands for 1, 2 and 3";
        let NodeValue::Text(text, quoted) = &node.value else {
            self.unfit(node, "a name and a range", help);
            return None;
        };
        let parts = text.split_once(" in ").and_then(|(name, range)| Some((name, range.split_once("..")?)));
        let Some((name, (from, to))) = parts.filter(|(name, _)| is_name(name.trim())) else {
            self.error(Diagnostic::new(node.span, "`each` needs a name and a range").help(help));
            return None;
        };
        let place = if *quoted { self.inside_quotes(text, node.span) } else { node.span };
        let direct = (place.end.saturating_sub(place.start)) as usize == text.len();
        let start = name.len() + " in ".len();
        let span = |at: usize, part: &str| {
            let lead = part.len() - part.trim_start().len();
            if direct { place.part(at + lead, at + lead + part.trim().len()) } else { place }
        };
        let first = self.bound(from, span(start, from));
        let last = self.bound(to, span(start + from.len() + "..".len(), to));
        Some(EachDoc { counter: name.trim().to_owned(), from: first?, to: last?, span: node.span })
    }

    fn bound(&mut self, text: &str, span: Span) -> Option<Expr> {
        self.expression(text.trim(), false, span)
    }
}
