//! Marks the findings that a layout accepts, and tells of entries that accept none.

use crate::base::text::nearest;
use crate::diagnostic::{Finding, Measure, Severity};
use crate::model::{Accepted, Model};
use crate::registry::Registry;

/// How a finding stands in an arrangement.
#[derive(Clone, Copy, PartialEq)]
enum Stands<'a> {
    Open,
    By(&'a Accepted),
    /// It was accepted, and is worse now.
    Worse(&'a Accepted),
}

/// A finding, accepted or not; one that is accepted in some of its arrangements becomes several.
pub(super) fn judged(model: &Model, finding: Finding) -> Vec<Finding> {
    if finding.severity >= Severity::Note {
        return vec![finding];
    }
    let of = |arrangement: Option<&str>| stands(model, &finding, arrangement);
    if finding.arrangements.is_empty() {
        return vec![marked(finding.clone(), of(None))];
    }
    let mut parts: Vec<(Stands<'_>, Vec<String>)> = Vec::new();
    for name in &finding.arrangements {
        let stands = of(Some(name));
        match parts.iter_mut().find(|(known, _)| *known == stands) {
            Some((_, names)) => names.push(name.clone()),
            None => parts.push((stands, vec![name.clone()])),
        }
    }
    let part = |(stands, arrangements)| marked(Finding { arrangements, ..finding.clone() }, stands);
    parts.into_iter().map(part).collect()
}

fn stands<'a>(model: &'a Model, finding: &Finding, arrangement: Option<&str>) -> Stands<'a> {
    let entries = || model.accepted.iter().filter(|entry| entry.means(finding) && entry.holds_in(arrangement));
    match (entries().find(|entry| entry.reaches(finding)), entries().next()) {
        (Some(entry), _) => Stands::By(entry),
        (None, Some(entry)) if finding.measured.is_some() && finding.required.is_some() => Stands::Worse(entry),
        (None, _) => Stands::Open,
    }
}

fn marked(mut finding: Finding, stands: Stands<'_>) -> Finding {
    match stands {
        Stands::Open => finding,
        Stands::By(entry) => {
            finding.accepted = Some(entry.because.clone());
            finding
        }
        Stands::Worse(entry) => {
            let Some((value, measured)) = entry.up_to.zip(finding.measured) else { return finding };
            let at = Measure { value, ..measured };
            finding.spans.push(entry.span);
            finding.accepted_at(at)
        }
    }
}

/// A note for each entry that accepts nothing and has become worse nowhere.
pub(super) fn unused(model: &Model, registry: &Registry, findings: &[Finding]) -> Vec<Finding> {
    let grave: Vec<&Finding> = findings.iter().filter(|finding| finding.severity < Severity::Note).collect();
    let used = |entry: &Accepted| {
        let worse = |finding: &Finding| entry.up_to.is_some() && finding.spans.last() == Some(&entry.span);
        grave.iter().any(|finding| finding.accepted.is_some() && entry.fits(finding) || worse(finding))
    };
    let idle = model.accepted.iter().filter(|entry| !used(entry) && registry.check(&entry.check).is_some());
    idle.map(|entry| note(entry, &grave)).collect()
}

fn note(entry: &Accepted, grave: &[&Finding]) -> Finding {
    let about: String = entry.about.iter().map(|name| format!(" / {name}")).collect();
    let within = match entry.arrangements.as_slice() {
        [] => String::new(),
        names => format!(" in {}", names.join(", ")),
    };
    let message = format!("nothing to accept: `{}` has no finding about `{}{about}`{within}", entry.check, entry.of);
    let mut note = Finding::new(entry.check.clone(), Severity::Note, &entry.of, message).of_acceptance();
    note.spans.push(entry.span);
    note.help = Some(match meant(entry, grave) {
        Some(meant) => format!("did you mean {meant}? if not, delete this entry of `accepted`"),
        None => "delete this entry of `accepted`".to_owned(),
    });
    note
}

/// The finding that an entry may be meant for: of its check on its subject, of its check on a subject with a name like it,
/// the only one of its check, the only one on its subject.
fn meant(entry: &Accepted, grave: &[&Finding]) -> Option<String> {
    let of_check = || grave.iter().filter(|finding| finding.key.check == entry.check);
    let of_subject = || grave.iter().filter(|finding| finding.key.subject.is(&entry.of));
    if let Some(finding) = of_check().find(|finding| finding.key.subject.is(&entry.of)) {
        let key = format!("`{}`", finding.key);
        return Some(match (entry.means(finding), finding.arrangements.as_slice()) {
            (true, _) if entry.up_to.is_some() && finding.measured.is_none() => format!("{key}, which has no figure"),
            (true, [_, ..]) => format!("{key} in {}", finding.arrangements.join(", ")),
            (true, []) => format!("{key}, in every arrangement"),
            (false, _) => key,
        });
    }
    let subjects: Vec<String> = of_check().map(|finding| finding.key.subject.to_string()).collect();
    let near = nearest(&entry.of, subjects.iter().map(String::as_str));
    let near = near.and_then(|near| of_check().find(|finding| finding.key.subject.is(near)));
    let finding = near.or_else(|| only(of_check())).or_else(|| only(of_subject()))?;
    Some(format!("`{}`", finding.key))
}

fn only<T>(mut all: impl Iterator<Item = T>) -> Option<T> {
    all.next().filter(|_| all.next().is_none())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::{Bound, Quantity, Requirement};
    use crate::model::testing::{model, space};
    use crate::source::Span;

    fn slide(part: &str, value: f64) -> Finding {
        Finding {
            arrangements: vec!["day".to_owned(), "night".to_owned()],
            measured: Some(Measure { value, quantity: Quantity::Length }),
            required: Some(Requirement::geometry(Bound::Least(400.0), Quantity::Length)),
            ..Finding::new("slide", Severity::Fault, "galley", format!("`{part}` slides {value} mm")).of_part(part)
        }
    }

    fn entry() -> Accepted {
        let [check, of, because] = ["slide", "galley", "why"].map(str::to_owned);
        let span = Span { start: 7, end: 9, ..Span::default() };
        Accepted { check, of, about: Vec::new(), arrangements: Vec::new(), up_to: None, because, span }
    }

    fn with(entries: &[Accepted]) -> Model {
        Model { accepted: entries.to_vec(), ..model(space(4000.0, 2000.0, 1900.0)) }
    }

    fn names(all: &[&str]) -> Vec<String> {
        all.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn a_new_finding_is_not_swallowed() {
        let one = with(&[Accepted { about: names(&["drawer 1"]), ..entry() }]);
        let accepted = |part| judged(&one, slide(part, 300.0)).iter().all(|finding| finding.accepted.is_some());
        assert!(accepted("drawer 1") && !accepted("drawer 2"));
        let all = judged(&with(&[entry()]), slide("drawer 2", 300.0));
        assert_eq!((all.len(), all[0].accepted.as_deref()), (1, Some("why")));
    }

    #[test]
    fn what_is_accepted_by_night_stands_by_day() {
        let found = judged(&with(&[Accepted { arrangements: names(&["night"]), ..entry() }]), slide("drawer", 300.0));
        let told: Vec<_> = found.iter().map(|one| (one.arrangements.join(" "), one.accepted.is_some())).collect();
        assert_eq!(told, [("day".to_owned(), false), ("night".to_owned(), true)]);
    }

    #[test]
    fn what_gets_worse_comes_back_and_says_so() {
        let model = with(&[Accepted { up_to: Some(300.0), ..entry() }]);
        assert!(judged(&model, slide("drawer", 310.0))[0].accepted.is_some());
        let worse = judged(&model, slide("drawer", 290.0));
        assert!(worse[0].is_open_fault());
        assert_eq!(worse[0].message, "`drawer` slides 290 mm; it was accepted at 300 mm");
        assert_eq!(worse[0].spans.last(), Some(&entry().span));
        assert!(unused(&model, &Registry::standard(), &worse).is_empty(), "the entry has its finding");
    }

    #[test]
    fn an_entry_that_fits_nothing_says_what_it_may_have_meant() {
        let help = |entry: Accepted, found: &[Finding]| {
            let mut notes = unused(&with(&[entry]), &Registry::standard(), found);
            assert_eq!(notes.len(), 1);
            notes.remove(0).help.unwrap_or_default()
        };
        let open = [slide("drawer 1", 300.0)];
        let delete = "delete this entry of `accepted`";
        let meant = |what: &str| format!("did you mean {what}? if not, {delete}");
        let key = "`slide of galley / drawer 1`";
        assert_eq!(help(Accepted { about: names(&["drawer"]), ..entry() }, &open), meant(key));
        assert_eq!(help(Accepted { of: "gally".to_owned(), ..entry() }, &open), meant(key));
        assert_eq!(help(Accepted { of: "bench".to_owned(), ..entry() }, &open), meant(key));
        assert_eq!(help(Accepted { check: "swing".to_owned(), ..entry() }, &open), meant(key));
        let travel = Accepted { arrangements: names(&["travel"]), ..entry() };
        assert_eq!(help(travel, &open), meant(&format!("{key} in day, night")));
        assert_eq!(help(entry(), &[]), delete);
        let note = Finding { severity: Severity::Note, ..slide("drawer 1", 300.0) };
        assert_eq!(help(entry(), &[note]), delete);
    }
}
