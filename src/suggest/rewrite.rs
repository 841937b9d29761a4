//! A change of the document as edits of the text.

use super::candidate::Candidate;
use super::slot::{Group, Owner, SIZES, Slot};
use crate::base::number::trimmed;
use crate::diagnostic::{Edit, edited};
use crate::language::LayoutDoc;
use crate::language::expression::{Binary, Expr, ExprKind};
use crate::source::{SourceMap, Span};

/// The edits of one change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Rewrite {
    pub edits: Vec<Edit>,
    /// What is written for the value then.
    pub value: String,
}

/// Writes a change into the text; `None` where there is no simple way.
pub(super) fn rewrite(candidate: &Candidate, step: f64, doc: &LayoutDoc, sources: &SourceMap) -> Option<Rewrite> {
    let new = candidate.value(step);
    let Some(old) = &candidate.old else {
        let value = literal(&new.kind)?;
        let edits = vec![insert(&candidate.slot, &value, doc, sources)?];
        return Some(Rewrite { edits, value });
    };
    let edit = match &new.kind {
        ExprKind::Binary(Binary::Add, _, by) => add(old, by)?,
        kind => Edit { span: old.span, text: literal(kind)? },
    };
    let shift = |span: Span| Span { start: span.start - old.span.start, end: span.end - old.span.start, ..span };
    let local = Edit { span: shift(edit.span), text: edit.text.clone() };
    let value = edited(sources.text(old.span), old.span.file, &[local]);
    Some(Rewrite { edits: vec![edit], value })
}

/// A value that is written out.
fn literal(kind: &ExprKind) -> Option<String> {
    match kind {
        ExprKind::Number(value) => Some(trimmed(*value, 3)),
        ExprKind::Bool(true) => Some("yes".to_owned()),
        ExprKind::Bool(false) => Some("no".to_owned()),
        ExprKind::Name(word) => Some(word.clone()),
        _ => None,
    }
}

/// Adds a figure to an expression: to the figure at its end if it has one, else behind it.
fn add(old: &Expr, by: &Expr) -> Option<Edit> {
    let ExprKind::Number(by) = by.kind else { return None };
    let (start, sum) = match last_figure(old) {
        Some((start, figure)) => (start, figure + by),
        None => (old.span.end, by),
    };
    let figure = trimmed(sum.abs(), 3);
    let text = match figure.as_str() {
        "0" => String::new(),
        _ if sum < 0.0 => format!(" - {figure}"),
        _ => format!(" + {figure}"),
    };
    Some(Edit { span: Span { start, ..old.span }, text })
}

/// Where the last figure of a sum stands with its sign, and the figure; `None` if it has no place of its own.
fn last_figure(sum: &Expr) -> Option<(u32, f64)> {
    let ExprKind::Binary(operator @ (Binary::Add | Binary::Subtract), first, last) = &sum.kind else { return None };
    let ExprKind::Number(figure) = last.kind else { return None };
    let apart = first.span.end < last.span.start && last.span.end == sum.span.end;
    apart.then_some((first.span.end, if *operator == Binary::Add { figure } else { -figure }))
}

/// Writes a value that is not there yet, behind one that is.
fn insert(slot: &Slot, value: &str, doc: &LayoutDoc, sources: &SourceMap) -> Option<Edit> {
    let key = &slot.key;
    let (anchor, text) = match (slot.group, beside(slot, doc)) {
        (Group::Own, _) => (main(slot.owner, doc)?, format!("{key}: {value}")),
        (_, Some(beside)) => (beside, format!("{key}: {value}")),
        (Group::Size, None) => (main(slot.owner, doc)?, format!("size: {{ {key}: {value} }}")),
        (Group::Set, None) => (main(slot.owner, doc)?, format!("set: {{ {key}: {value} }}")),
        (Group::Place, None) => return None,
    };
    behind(anchor, &text, sources)
}

/// A value of the same map.
fn beside(slot: &Slot, doc: &LayoutDoc) -> Option<Span> {
    let Owner::Module(at) = slot.owner else { return None };
    let module = &doc.modules.get_index(at)?.1.value;
    match slot.group {
        Group::Size => SIZES.iter().zip(&module.size).rev().find_map(|(_, size)| size.as_ref()).map(|expr| expr.span),
        Group::Set => module.set.values().last().map(|entry| entry.value.span),
        Group::Own | Group::Place => None,
    }
}

/// The value that every entry of a section has.
fn main(owner: Owner, doc: &LayoutDoc) -> Option<Span> {
    match owner {
        Owner::Module(at) => doc.modules.get_index(at).map(|(_, entry)| entry.value.symbol.span),
        Owner::Opening(at) => doc.openings.get_index(at).map(|(_, entry)| entry.value.kind.span),
        Owner::Zone(at) => doc.zones.get_index(at).map(|(_, entry)| entry.value.purpose.span),
        Owner::Parameter(_) | Owner::Box => None,
    }
}

/// Puts an entry behind a value of a map: on the same line in a map in braces, else on a line of its own.
fn behind(anchor: Span, entry: &str, sources: &SourceMap) -> Option<Edit> {
    let text = sources.file(anchor.file)?.text.as_str();
    let mut end = anchor.end as usize;
    let (before, mut after) = (text.get(..anchor.start as usize)?, text.get(end..)?);
    if after.starts_with(['"', '\'']) && before.ends_with(['"', '\'']) {
        end += 1;
        after = text.get(end..)?;
    }
    let line = before.rsplit('\n').next().unwrap_or(before);
    let braces = line.contains(['{', ',']) || after.trim_start().starts_with([',', '}']);
    let at = |end: usize| u32::try_from(end).ok().map(|end| Span { start: end, end, ..anchor });
    if braces {
        return Some(Edit { span: at(end)?, text: format!(", {entry}") });
    }
    let indent: String = line.chars().take_while(|c| *c == ' ').collect();
    end += after.find(['\r', '\n']).unwrap_or(after.len());
    Some(Edit { span: at(end)?, text: format!("\n{indent}{entry}") })
}
