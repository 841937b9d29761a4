//! Errors and findings of layouts as a SARIF 2.1.0 log (OASIS standard, errata 01), so that code hosts and editors show
//! them in place.
//!
//! One run with one rule for each check and one, `layout-language`, for what keeps a layout from compiling or makes a draft of it; and one, `unused`, for
//! entries that nothing uses. A fault is an
//! `error`, a caution a `warning`, a note a `note`; a requirement that is met is of kind `pass`; an accepted finding is
//! suppressed with its reason. A tried change is a `fix`. Columns count characters. Files are named from the folder of their
//! layout (`uriBaseId`).

use super::findings_report::Found;
use crate::base::number::micrometres;
use crate::diagnostic::wire::json_text;
use crate::diagnostic::{Diagnostic, Edit, Finding, Key, Measure, Severity, Suggestion, UNUSED};
use crate::source::{FileId, SourceMap, Span};
use percent_encoding::{AsciiSet, CONTROLS, utf8_percent_encode};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// A check, as the log describes its rules.
#[derive(Debug, Clone)]
pub struct Rule {
    /// Its name.
    pub name: String,
    /// One line.
    pub says: String,
    /// Its manual page.
    pub page: String,
}

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
const LANGUAGE: &str = "layout-language";
/// What is written as `%xx` in the path of a URI (RFC 3986, section 3.3), but for the slash.
const ESCAPED: &AsciiSet = &CONTROLS
    .add(b' ')
    .add(b'"')
    .add(b'#')
    .add(b'%')
    .add(b'<')
    .add(b'>')
    .add(b'?')
    .add(b'[')
    .add(b'\\')
    .add(b']')
    .add(b'^')
    .add(b'`')
    .add(b'{')
    .add(b'|')
    .add(b'}');

/// The log of several layouts, each with the number of its folder, from 0: the paths of its files start there.
#[must_use]
pub fn sarif_log(rules: &[Rule], layouts: &[(usize, Found<'_>)]) -> String {
    let language = json!({
        "id": LANGUAGE,
        "shortDescription": { "text": "What keeps a layout from compiling" },
    });
    let unused = json!({
        "id": UNUSED,
        "shortDescription": { "text": "Entries of a layout that nothing uses" },
    });
    let described = rules.iter().map(rule).chain([language, unused]);
    let homes: Vec<Home<'_>> = layouts.iter().map(|(at, found)| Home { at: *at, sources: found.sources }).collect();
    let results = layouts.iter().zip(&homes).flat_map(|((_, found), home)| results(rules, found, home));
    let results: Vec<Value> = results.collect();
    let bases: BTreeMap<String, Value> = homes.iter().map(|home| (home.base(), home.described())).collect();
    json_text(&json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "boxwright",
                "version": env!("CARGO_PKG_VERSION"),
                "rules": described.collect::<Vec<_>>(),
            } },
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": bases,
            "results": results,
        }],
    }))
}

/// The files of a layout, and the folder that their paths start from. Where that lies is not told: the log is the same
/// wherever the command ran.
struct Home<'a> {
    at: usize,
    sources: &'a SourceMap,
}

impl Home<'_> {
    /// The folder's name in `uriBaseId`.
    fn base(&self) -> String {
        format!("LAYOUTS{}", self.at + 1)
    }

    fn described(&self) -> Value {
        json!({ "description": { "text": format!("folder {} of those that hold the layouts", self.at + 1) } })
    }

    /// A file, as the log names it.
    fn artifact(&self, file: FileId) -> Option<Value> {
        Some(json!({ "uri": uri(&self.sources.file(file)?.name), "uriBaseId": self.base() }))
    }
}

fn rule(rule: &Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": { "text": rule.says },
        "help": { "text": rule.page },
    })
}

fn results(rules: &[Rule], found: &Found<'_>, home: &Home<'_>) -> Vec<Value> {
    let errors = found.errors.0.iter().map(|error| language_error(rules.len(), error, home));
    let findings = found.findings.iter().map(|finding| {
        let unused = || (finding.key.check == UNUSED).then_some(rules.len() + 1);
        let index = rules.iter().position(|rule| rule.name == finding.key.check).or_else(unused);
        result(index, finding, home)
    });
    errors.chain(findings).collect()
}

fn language_error(rule: usize, error: &Diagnostic, home: &Home<'_>) -> Value {
    let text = match &error.help {
        Some(help) => format!("{}. {help}", error.message),
        None => error.message.clone(),
    };
    let others = error.notes.iter().filter_map(|note| {
        let mut place = location(home, note.span)?;
        place.insert("message".to_owned(), json!({ "text": note.says }));
        Some(place)
    });
    let mut result = Map::from_iter([
        ("ruleId".to_owned(), json!(LANGUAGE)),
        ("ruleIndex".to_owned(), json!(rule)),
        ("level".to_owned(), json!("error")),
        ("message".to_owned(), json!({ "text": text })),
        ("locations".to_owned(), json!(location(home, error.span).into_iter().collect::<Vec<_>>())),
    ]);
    let others: Vec<_> = others.collect();
    if !others.is_empty() {
        result.insert("relatedLocations".to_owned(), json!(others));
    }
    if let Some(fix) = error.suggestion.as_ref().map(|suggestion| fix(suggestion, home)) {
        result.insert("fixes".to_owned(), json!([fix]));
    }
    result.into()
}

fn result(rule: Option<usize>, finding: &Finding, home: &Home<'_>) -> Value {
    let (kind, level) = match finding.severity {
        Severity::Fault => ("fail", "error"),
        Severity::Caution => ("fail", "warning"),
        Severity::Note => ("fail", "note"),
        Severity::Met => ("pass", "none"),
    };
    let mut places = locations(home, &finding.spans).into_iter();
    let mut result = Map::from_iter([
        ("ruleId".to_owned(), json!(finding.key.check)),
        ("kind".to_owned(), json!(kind)),
        ("level".to_owned(), json!(level)),
        ("message".to_owned(), json!({ "text": finding.message })),
        ("locations".to_owned(), json!(places.next().into_iter().collect::<Vec<_>>())),
        ("partialFingerprints".to_owned(), json!({ "boxwrightFinding/v1": fingerprint(finding) })),
        ("properties".to_owned(), properties(finding)),
    ]);
    let others: Vec<_> = places.collect();
    if let Some(rule) = rule {
        result.insert("ruleIndex".to_owned(), json!(rule));
    }
    if !others.is_empty() {
        result.insert("relatedLocations".to_owned(), json!(others));
    }
    if let Some(reason) = &finding.accepted {
        result.insert("suppressions".to_owned(), json!([{ "kind": "inSource", "justification": reason }]));
    }
    if let Some(fix) = finding.suggestion.as_ref().map(|suggestion| fix(suggestion, home)) {
        result.insert("fixes".to_owned(), json!([fix]));
    }
    result.into()
}

/// The key of a finding with the first arrangement that it holds in: the same after a change of figures or words.
fn fingerprint(finding: &Finding) -> String {
    let Key { check, subject, about } = &finding.key;
    let about: Vec<[&str; 2]> = about.iter().map(|about| [about.kind(), about.name()]).collect();
    json!([check, subject.to_string(), about, finding.arrangements.first()]).to_string()
}

/// What SARIF has no word for.
fn properties(finding: &Finding) -> Value {
    let figure = |measure: &Measure| json!({ "value": micrometres(measure.value), "text": measure.to_string() });
    let required = finding.required.as_ref().map(|required| {
        let value = micrometres(required.value());
        json!({ "value": value, "text": required.words(), "source": required.origin() })
    });
    json!({
        "subject": finding.key.subject.to_string(),
        "arrangements": finding.arrangements,
        "measured": finding.measured.as_ref().map(figure),
        "required": required,
        "help": finding.help,
    })
}

fn fix(suggestion: &Suggestion, home: &Home<'_>) -> Value {
    let changes = suggestion.edits.iter().filter_map(|edit| change(edit, home));
    json!({
        "description": { "text": suggestion.words },
        "artifactChanges": changes.collect::<Vec<_>>(),
    })
}

fn change(edit: &Edit, home: &Home<'_>) -> Option<Value> {
    Some(json!({
        "artifactLocation": home.artifact(edit.span.file)?,
        "replacements": [{ "deletedRegion": region(home, edit.span)?, "insertedContent": { "text": edit.text } }],
    }))
}

fn location(home: &Home<'_>, span: Span) -> Option<Map<String, Value>> {
    let physical = json!({ "artifactLocation": home.artifact(span.file)?, "region": region(home, span)? });
    Some(Map::from_iter([("physicalLocation".to_owned(), physical)]))
}

/// Each place once, as the standard wants it.
fn locations(home: &Home<'_>, spans: &[Span]) -> Vec<Map<String, Value>> {
    let mut places: Vec<Map<String, Value>> = Vec::new();
    for place in spans.iter().filter_map(|span| location(home, *span)) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places
}

/// Lines and columns from 1; the end column is one past the last character.
fn region(home: &Home<'_>, span: Span) -> Option<Value> {
    let file = home.sources.file(span.file)?;
    let (start, end) = (file.position(span.start as usize), file.position(span.end.max(span.start) as usize));
    Some(json!({
        "startLine": start.line,
        "startColumn": start.column,
        "endLine": end.line,
        "endColumn": end.column,
    }))
}

/// A path as a relative URI reference.
fn uri(path: &str) -> String {
    let escaped = utf8_percent_encode(path, ESCAPED);
    let colon = path.split('/').next().is_some_and(|first| first.contains(':'));
    if colon { format!("./{escaped}") } else { escaped.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SARIF 2.1.0, 3.27.17: what takes part in a fingerprint should not change where the result is the same one.
    #[test]
    fn a_fingerprint_outlives_figures_words_and_severity() {
        let mut old = Finding::new("walkway", Severity::Fault, "galley", "the way is 312 mm wide").of_part("stand");
        old.arrangements = vec!["day".to_owned(), "night".to_owned()];
        let mut new =
            Finding { message: "the way is 412 mm wide".to_owned(), severity: Severity::Caution, ..old.clone() };
        new = new.figure("width", 412.0, crate::diagnostic::Quantity::Length);
        assert_eq!(fingerprint(&old), fingerprint(&new));
        assert_eq!(fingerprint(&old), r#"["walkway","galley",[["part","stand"]],"day"]"#);
        let others = [old.clone().with_other("bed"), Finding { arrangements: Vec::new(), ..old.clone() }];
        assert!(others.iter().all(|other| fingerprint(other) != fingerprint(&old)));
    }

    /// RFC 3986: a relative reference may have no colon in its first segment; spaces and non-ASCII are escaped.
    #[test]
    fn paths_become_uri_references() {
        assert_eq!(uri("layouts/marram.yaml"), "layouts/marram.yaml");
        assert_eq!(uri("plans/für uns.yaml"), "plans/f%C3%BCr%20uns.yaml");
        assert_eq!(uri("a:b.yaml"), "./a:b.yaml");
        assert_eq!(uri("50%.yaml"), "50%25.yaml");
    }
}
