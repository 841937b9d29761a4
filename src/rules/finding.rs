//! The findings of a rule.

use super::judge::{Judge, Trouble, Value};
use super::kinds::Kind;
use super::rule::{HouseRule, Say};
use super::term::{Of, Term, Thing};
use super::things::Here;
use super::verdict::Measured;
use crate::base::number::trimmed;
use crate::diagnostic::{Bound, Finding, Mark, Measure, Quantity, Requirement, Severity, SourceClass};
use kurbo::Point;

/// Decimals of a figure in a sentence.
const DECIMALS: usize = 1;

/// Things miss the rule.
pub(super) fn missed(
    rule: &HouseRule,
    judge: &mut Judge<'_>,
    things: &[Thing],
    found: &Measured,
) -> Result<Finding, Trouble> {
    let here = judge.here;
    let (subject, parts) = here.subject(things);
    let mut finding = Here::about(Finding::new(rule.name.clone(), rule.severity, subject, String::new()), &parts);
    for say in &rule.says_words {
        let (term, written) = match say {
            Say::Words(words) => {
                finding.message.push_str(words);
                continue;
            }
            Say::Value(term, written) => (term, written),
        };
        let value = judge.value(term)?;
        finding.message += &shown(here, &value, term, found);
        finding = match value {
            Value::Number(value) => finding.figure(written.clone(), value, term.unit.unwrap_or(Quantity::Number)),
            Value::Word(word) => finding.names(written.clone(), word),
            Value::Truth(truth) => finding.names(written.clone(), if truth { "yes" } else { "no" }),
            Value::Thing(_) if matches!(term.of, Of::Slot(_)) => finding,
            Value::Thing(thing) => finding.names(written.clone(), here.name(thing)),
        };
    }
    // One sentence has no full stop.
    while finding.message.ends_with('.') {
        finding.message.pop();
    }
    finding.measured = Some(found.measured);
    // A note misses no limit: nothing is required of it.
    finding.required = (rule.severity < Severity::Note).then(|| found.required.clone());
    finding.marks = if found.marks.is_empty() { middles(here, things) } else { found.marks.clone() };
    finding.spans = things.iter().filter_map(|thing| here.span(*thing)).chain([rule.span]).collect();
    finding.spans.dedup();
    Ok(finding)
}

/// A value in a sentence. The figure that was measured has as many decimals as tell it from its limit.
fn shown(here: Here<'_>, value: &Value, term: &Term, found: &Measured) -> String {
    match value {
        Value::Number(_) if found.term.as_ref() == Some(term) => {
            let text = found.required.shown(found.measured);
            text.strip_suffix(found.measured.quantity.suffix()).unwrap_or(&text).to_owned()
        }
        Value::Number(value) => trimmed(*value, if term.unit.is_some() { DECIMALS } else { 3 }),
        Value::Truth(truth) => (if *truth { "yes" } else { "no" }).to_owned(),
        Value::Word(word) => word.clone(),
        Value::Thing(thing) => match here.name(*thing).split_once(" / ") {
            Some((module, part)) => format!("`{part}` of `{module}`"),
            None => format!("`{}`", here.name(*thing)),
        },
    }
}

/// The middles of things, seen from above.
fn middles(here: Here<'_>, things: &[Thing]) -> Vec<Mark> {
    let placed = things.iter().filter(|thing| thing.kind != Kind::Box);
    let middle = |thing: &Thing| here.bounds(*thing).map(|bounds| bounds.centre());
    placed.filter_map(middle).map(|at| Mark::At(Point::new(at.x, at.y))).collect()
}

/// All things meet the rule; the one that does most narrowly is named.
pub(super) fn met(rule: &HouseRule, here: Here<'_>, tightest: &(Vec<Thing>, Measured), looked_at: usize) -> Finding {
    let (things, found) = tightest;
    let (subject, parts) = match found.term {
        Some(_) => here.subject(things),
        None => (rule.about.as_str().into(), Vec::new()),
    };
    let message = match found.term {
        Some(_) => format!("the rule is met; the tightest of {looked_at} has {}", found.measured),
        None => format!("the rule is met by all of {looked_at}"),
    };
    let mut finding = Here::about(Finding::new(rule.name.clone(), Severity::Met, subject, message), &parts);
    finding = finding.figure("looked at", count(looked_at), Quantity::Count);
    (finding.measured, finding.required) = (Some(found.measured), Some(found.required.clone()));
    finding.spans = vec![rule.span];
    if found.term.is_some() {
        finding.spans = things.iter().filter_map(|thing| here.span(*thing)).chain([rule.span]).collect();
        finding.spans.dedup();
    }
    finding
}

/// The layout has nothing that the rule is about.
pub(super) fn idle(rule: &HouseRule) -> Finding {
    let message = format!("the layout has no {} that the rule is about", rule.about);
    let mut finding = Finding::new(rule.name.clone(), Severity::Note, rule.about.as_str(), message);
    finding.spans = vec![rule.span];
    finding
}

/// It can't be told whether things meet the rule.
pub(super) fn troubled(rule: &HouseRule, here: Here<'_>, things: &[Thing], trouble: &Trouble, more: usize) -> Finding {
    let (subject, parts) = here.subject(things);
    let others = if more > 0 { format!(", nor of {more} more") } else { String::new() };
    let message = format!("the rule can't be judged: {}{others}", trouble.message);
    let severity = rule.severity.min(Severity::Caution);
    let mut finding = Here::about(Finding::new(rule.name.clone(), severity, subject, message).asks("judged"), &parts);
    finding = finding.figure("others", count(more), Quantity::Count).names("why", trouble.message.clone());
    finding.measured = Some(Measure { value: count(more + 1), quantity: Quantity::Count });
    finding.required =
        Some(Requirement::new(Bound::Most(0.0), Quantity::Count, SourceClass::House, rule.because.clone()));
    finding.spans = [trouble.span].into_iter().chain(things.iter().filter_map(|thing| here.span(*thing))).collect();
    finding.help = Some(trouble.help.clone());
    finding
}

#[allow(clippy::cast_precision_loss, reason = "bounded far below 2^53")]
fn count(number: usize) -> f64 {
    number as f64
}
