//! Findings in one line each, those that say the same of several things in one line together.

use super::render::{level, rendered};
use crate::diagnostic::finding::ACCEPTED_AT;
use crate::diagnostic::{Argument, Bound, Finding, Quantity, Value};
use crate::source::{SourceMap, shown};
use annotate_snippets::{Group, normalize_untrusted_str};

/// Most things that one line lists; more are counted.
const MOST_THINGS: usize = 4;

/// Most changes that are told below a line.
const MOST_CHANGES: usize = 3;

/// Longest change or advice that stands below a line, in characters.
const LONGEST: usize = 140;

/// The findings, one line for each: how grave, which, measured against needed, arrangements, place; below it the change
/// that clears it.
#[must_use]
pub fn lines<'a>(findings: impl IntoIterator<Item = &'a Finding>, sources: &SourceMap, colour: bool) -> String {
    let mut groups: Vec<(String, Vec<&Finding>)> = Vec::new();
    for finding in findings {
        let says = says(finding);
        match groups
            .iter_mut()
            .find(|(known, all)| *known == says && all.first().is_some_and(|one| alike(one, finding)))
        {
            Some((_, all)) => all.push(finding),
            None => groups.push((says, vec![finding])),
        }
    }
    groups.iter().filter_map(|(says, all)| together(says, all, sources, colour)).collect()
}

/// The checks that have some of the findings, each with how many there are where they are several.
#[must_use]
pub fn by_check<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> String {
    let mut checks: Vec<(&str, usize)> = Vec::new();
    for finding in findings {
        let check = finding.key.check.as_ref();
        match checks.iter_mut().find(|(known, _)| *known == check) {
            Some((_, count)) => *count += 1,
            None => checks.push((check, 1)),
        }
    }
    let told = |(check, count): &(&str, usize)| match count {
        1 => (*check).to_owned(),
        _ => format!("{check} ({count})"),
    };
    checks.iter().map(told).collect::<Vec<_>>().join(", ")
}

fn alike(one: &Finding, other: &Finding) -> bool {
    (&one.key.check, one.kind(), &one.arrangements, &one.accepted)
        == (&other.key.check, other.kind(), &other.arrangements, &other.accepted)
}

/// What is said of the thing: measured against needed with names, or the sentence.
fn says(finding: &Finding) -> String {
    match (&finding.measured, &finding.required) {
        (Some(measured), Some(required)) if !in_words(finding) => {
            let named: String = finding.arguments.iter().filter_map(named).collect();
            format!("{}, {}{named}", required.shown(*measured), required.against())
        }
        _ => finding
            .key
            .subject
            .names()
            .fold(finding.message.clone(), |message, name| message.replace(&format!("`{name}`"), "it")),
    }
}

/// Whether the sentence says more than the figures: they are missing, or count what there must be none of.
fn in_words(finding: &Finding) -> bool {
    let (Some(_), Some(required)) = (&finding.measured, &finding.required) else { return true };
    required.quantity == Quantity::Count && required.bound == Bound::Most(0.0)
}

/// A name among the arguments, with the word that leads to it where one is needed.
fn named(argument: &Argument) -> Option<String> {
    let name = match &argument.value {
        Value::Name(name) => name,
        Value::Figure(at) if argument.name == ACCEPTED_AT => return Some(format!(", {ACCEPTED_AT} {at}")),
        Value::Figure(_) => return None,
    };
    Some(match argument.name.as_ref() {
        _ if name.is_empty() => return None,
        // A half sentence.
        "others" => return None,
        "where" | "room" | "ways" | "how" | "clear" | "edge" | "effect" => format!(", {name}"),
        word => format!(", {word} {name}"),
    })
}

fn together(says: &str, all: &[&Finding], sources: &SourceMap, colour: bool) -> Option<String> {
    let first = all.first()?;
    let says = if all.len() == 1 && in_words(first) { &first.message } else { says };
    let mut things: Vec<String> = all.iter().take(MOST_THINGS).map(|one| one.key.thing()).collect();
    if all.len() > MOST_THINGS {
        things.push(format!("and {} more", all.len() - MOST_THINGS));
    }
    let mut title = format!("{} of {}: {says}", first.key.check, things.join(", "));
    if !first.arrangements.is_empty() {
        title += &format!(" ({})", first.arrangements.join(", "));
    }
    if let Some((file, at)) = first.spans.first().and_then(|span| sources.place(*span)) {
        title += &format!(" {file}:{}:{}", at.line, at.column);
    }
    let title = normalize_untrusted_str(&title);
    let line = rendered(Group::with_title(level(first).primary_title(title.as_str())), colour);
    Some(format!("{line}\n{}", below(all)))
}

/// Why it is accepted, or what clears it.
fn below(all: &[&Finding]) -> String {
    let mut told: Vec<String> = Vec::new();
    for finding in all {
        let line = match (&finding.accepted, &finding.suggestion, &finding.help) {
            (Some(because), ..) => format!("because: {because}"),
            (None, Some(change), _) => format!("mend: {}", change.words),
            (None, None, Some(help)) => format!("help: {help}"),
            (None, None, None) => continue,
        };
        if line.chars().count() <= LONGEST && !told.contains(&line) {
            told.push(line);
        }
    }
    told.iter().take(MOST_CHANGES).map(|line| format!("  {}\n", shown(line))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::{Limit, Measure, Severity, Suggestion};
    use crate::source::{FileId, Span};

    fn map() -> SourceMap {
        let mut sources = SourceMap::default();
        sources.add("a.yaml".to_owned(), "boxwright: 1\nmodules:\n  bed:\n".to_owned());
        sources
    }

    fn narrow(subject: &str, mm: f64) -> Finding {
        let required = Limit::practice("least", Bound::Least(450.0), Quantity::Length).requirement(None);
        Finding {
            arrangements: vec!["day".to_owned(), "night".to_owned()],
            measured: Some(Measure { value: mm, quantity: Quantity::Length }),
            required: Some(required),
            spans: vec![Span { file: FileId(0), start: 24, end: 27 }],
            ..Finding::new("walkway", Severity::Fault, subject, format!("the way to `{subject}` is narrow"))
        }
    }

    #[test]
    fn what_there_must_be_none_of_is_told_in_words() {
        let required = Limit::practice("pieces", Bound::Most(0.0), Quantity::Count).requirement(None);
        let loose = |part: &str| Finding {
            measured: Some(Measure { value: 1.0, quantity: Quantity::Count }),
            required: Some(required.clone()),
            ..Finding::new("part-loose", Severity::Fault, "desk", "a leg of `desk` hangs").of_part(part)
        };
        assert_eq!(told(&[loose("leg")]), "fault: part-loose of desk / leg: a leg of `desk` hangs\n");
        let both = "fault: part-loose of desk / leg, desk / rail: a leg of it hangs\n";
        assert_eq!(told(&[loose("leg"), loose("rail")]), both);
    }

    fn told(findings: &[Finding]) -> String {
        lines(findings, &map(), false)
    }

    #[test]
    fn a_line_has_all_and_the_change_stands_below() {
        let change = Suggestion { words: "move `bed` 38 mm to the rear".to_owned(), edits: Vec::new() };
        let one = Finding { suggestion: Some(change), ..narrow("bed", 412.46) };
        let one = one.of_part("stand").names("where", "between `a` and `b`").names("under", "roof");
        assert_eq!(
            told(&[one]),
            "fault: walkway of bed / stand: 412.5 mm, needs 450 mm, between `a` and `b`, under roof (day, night) \
             a.yaml:3:3\n  mend: move `bed` 38 mm to the rear\n"
        );
    }

    #[test]
    fn what_several_things_have_is_one_line() {
        let all = ["a", "b", "c", "d", "e", "f"].map(|name| narrow(name, 300.0));
        assert_eq!(
            told(&all),
            "fault: walkway of a, b, c, d, and 2 more: 300 mm, needs 450 mm (day, night) a.yaml:3:3\n"
        );
        let apart = |other: Finding| told(&[narrow("a", 300.0), other]).lines().count() == 2;
        assert!(!apart(narrow("b", 300.04)), "a reader sees one figure");
        assert!(apart(narrow("b", 310.0)));
        assert!(apart(Finding { severity: Severity::Caution, ..narrow("b", 300.0) }));
        assert!(apart(Finding { arrangements: vec!["day".to_owned()], ..narrow("b", 300.0) }));
        assert!(apart(narrow("b", 300.0).names("where", "within `bed`")));
    }

    #[test]
    fn without_a_figure_the_sentence_is_told() {
        let radius = |name: &str| Finding { measured: None, ..narrow(name, 0.0) };
        let line = |things: &str, says: &str| format!("fault: walkway of {things}: {says} (day, night) a.yaml:3:3\n");
        assert_eq!(told(&[radius("vent")]), line("vent", "the way to `vent` is narrow"));
        assert_eq!(told(&[radius("vent"), radius("hatch")]), line("vent, hatch", "the way to it is narrow"));
    }

    #[test]
    fn an_accepted_one_has_its_reason_and_long_advice_waits() {
        let accepted = Finding { accepted: Some("owner asked".to_owned()), ..narrow("bed", 300.0) };
        assert!(told(&[accepted]).starts_with("accepted: walkway of bed: 300 mm"));
        let worse = narrow("bed", 300.0).accepted_at(Measure { value: 310.0, quantity: Quantity::Length });
        assert!(told(&[worse]).contains("300 mm, needs 450 mm, accepted at 310 mm (day, night)"));
        let help = |length| Finding { help: Some("x".repeat(length)), ..narrow("bed", 300.0) };
        assert_eq!(told(&[help(20)]).lines().count(), 2);
        assert_eq!(told(&[help(200)]).lines().count(), 1);
    }

    #[test]
    fn nothing_of_the_layout_reaches_the_terminal_raw() {
        let odd = |text: &str| Finding { help: Some(text.to_owned()), ..narrow(text, 300.0).names("where", text) };
        for colour in [false, true] {
            let told = lines(&[odd("x\u{1b}[2J\u{202e}\n\u{9b}y")], &map(), colour);
            assert!(!told.contains("\u{1b}[2J") && !told.contains(['\u{202e}', '\u{9b}']), "{told:?}");
        }
    }

    #[test]
    fn checks_are_counted_in_their_order() {
        let swing = Finding::new("swing", Severity::Fault, "a", "b");
        assert_eq!(by_check(&[swing, narrow("a", 1.0), narrow("b", 2.0)]), "swing, walkway (2)");
    }
}
