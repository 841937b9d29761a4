//! House rules.

use crate::diagnostic::Diagnostic;
use crate::language::Named;
use crate::language::expression::{Expr, ExprKind, Unary, parse_rule, parse_things};
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::language::rule::{RuleDoc, SaysDoc};
use crate::source::{Span, Spanned};

/// Most limits of one rule.
pub const MOST_LIMITS: usize = 16;
/// How grave what misses a rule is.
pub const SEVERITIES: [&str; 3] = ["fault", "caution", "note"];

/// The rules of a layout or of a file.
pub fn rules(r: &mut Reader<'_>, node: &Node) -> Named<RuleDoc> {
    r.named(node, "`rules`", rule)
}

fn rule(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<RuleDoc> {
    let mut f = r.fields(node, &format!("rule `{name}`"))?;
    let each = f.need(r, "each", |r, node| {
        let text = r.written(node)?;
        let things = r.parsed(parse_things(&text.value, text.span))?;
        things.filter.iter().for_each(|filter| r.names_of(filter));
        Some((things, one_line(&text.value)))
    });
    let needs = f.need(r, "needs", |r, node| {
        let text = r.written(node)?;
        rule_expr(r, &text.value, text.span).map(|expr| (expr, one_line(&text.value)))
    });
    let says = f.need(r, "says", says);
    let because = f.need(r, "because", Reader::text);
    let severity = f.word(r, "severity", &SEVERITIES);
    let limits = f.opt(r, "limits", limits).unwrap_or_default();
    f.close(r);
    let ((each, each_text), (needs, needs_text)) = (each?, needs?);
    Some(RuleDoc { each, each_text, needs, needs_text, says: says?, because: because?, severity, limits })
}

fn rule_expr(r: &mut Reader<'_>, text: &str, span: Span) -> Option<Expr> {
    let expr = r.parsed(parse_rule(text, span))?;
    r.names_of(&expr);
    Some(expr)
}

/// A text without its line ends and what stands around them.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `{ least: 900 }`: figures, with units if need be.
fn limits(r: &mut Reader<'_>, node: &Node) -> Option<Vec<(Spanned<String>, f64)>> {
    if r.refuse_many(node, "limits", MOST_LIMITS) {
        return None;
    }
    let named = r.named(node, "`limits`", |r, name, node| {
        if name == "because" {
            let error = Diagnostic::new(node.span, "a limit can't be called `because`");
            r.error(error.help("in a layout, `because` beside a changed limit is the reason"));
        }
        let expr = r.expr(node)?;
        figure(r, &expr)
    });
    Some(named.into_iter().map(|(name, entry)| (Spanned::new(name, entry.span), entry.value)).collect())
}

fn figure(r: &mut Reader<'_>, expr: &Expr) -> Option<f64> {
    match &expr.kind {
        ExprKind::Number(value) => Some(*value),
        ExprKind::Unary(Unary::Minus, inner) => figure(r, inner).map(|value| -value),
        _ => {
            r.error(Diagnostic::new(expr.span, "a limit of a rule is a figure").help("write it out, such as `900`"));
            None
        }
    }
}

/// Words with expressions in braces.
fn says(r: &mut Reader<'_>, node: &Node) -> Option<Vec<SaysDoc>> {
    let Spanned { value: text, span } = r.written(node)?;
    let direct = (span.end.saturating_sub(span.start)) as usize == text.len();
    let place = |from: usize, to: usize| if direct { span.part(from, to) } else { span };
    let (mut pieces, mut at) = (Vec::new(), 0);
    while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
        let open = rest.find('{').unwrap_or(rest.len());
        let words = rest.get(..open).unwrap_or_default();
        if let Some(stray) = words.find('}') {
            let error = Diagnostic::new(place(at + stray, at + stray + 1), "this `}` closes nothing");
            r.error(error.help("figures stand in braces: `{m.height} mm`"));
            return None;
        }
        if !words.is_empty() {
            pieces.push(SaysDoc::Words(words.to_owned()));
        }
        let Some(inner) = rest.get(open + 1..) else { break };
        let from = at + open + 1;
        let Some(length) = inner.find('}') else {
            let error = Diagnostic::new(place(from - 1, from), "this `{` is never closed");
            r.error(error.help("figures stand in braces: `{m.height} mm`"));
            return None;
        };
        let written = inner.get(..length).unwrap_or_default();
        let expr = rule_expr(r, written, place(from, from + length))?;
        pieces.push(SaysDoc::Value(expr, one_line(written)));
        at = from + length + 1;
    }
    Some(pieces)
}
