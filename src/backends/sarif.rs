//! Errors and findings of layouts as a SARIF 2.1.0 log (OASIS standard, errata 01), so that code hosts and editors show
//! them in place.
//!
//! One run with one rule for each check and one, `layout-language`, for what keeps a layout from compiling. A fault is an
//! `error`, a caution a `warning`, a note a `note`; a requirement that is met is of kind `pass`; an accepted finding is
//! suppressed with its reason. A tried change is a `fix`. Columns count characters.

use super::findings_report::Found;
use crate::base::number::micrometres;
use crate::diagnostic::wire::json_text;
use crate::diagnostic::{Diagnostic, Edit, Finding, Measure, Severity, Suggestion};
use crate::source::{SourceMap, Span};
use percent_encoding::{AsciiSet, CONTROLS, utf8_percent_encode};
use serde_json::{Map, Value, json};

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

/// The log of several layouts.
#[must_use]
pub fn sarif_log(rules: &[Rule], layouts: &[Found<'_>]) -> String {
    let language = json!({
        "id": LANGUAGE,
        "shortDescription": { "text": "What keeps a layout from compiling" },
    });
    let described = rules.iter().map(rule).chain([language]);
    let results: Vec<Value> = layouts.iter().flat_map(|found| results(rules, found)).collect();
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
            "results": results,
        }],
    }))
}

fn rule(rule: &Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": { "text": rule.says },
        "help": { "text": rule.page },
    })
}

fn results(rules: &[Rule], found: &Found<'_>) -> Vec<Value> {
    let errors = found.errors.0.iter().map(|error| language_error(rules.len(), error, found.sources));
    let findings = found.findings.iter().map(|finding| {
        let index = rules.iter().position(|rule| rule.name == finding.check);
        result(index, finding, found.sources)
    });
    errors.chain(findings).collect()
}

fn language_error(rule: usize, error: &Diagnostic, sources: &SourceMap) -> Value {
    let text = match &error.help {
        Some(help) => format!("{}. {help}", error.message),
        None => error.message.clone(),
    };
    let others = error.notes.iter().filter_map(|note| {
        let mut place = location(sources, note.span)?;
        place.insert("message".to_owned(), json!({ "text": note.says }));
        Some(place)
    });
    let mut result = Map::from_iter([
        ("ruleId".to_owned(), json!(LANGUAGE)),
        ("ruleIndex".to_owned(), json!(rule)),
        ("level".to_owned(), json!("error")),
        ("message".to_owned(), json!({ "text": text })),
        ("locations".to_owned(), json!(location(sources, error.span).into_iter().collect::<Vec<_>>())),
    ]);
    let others: Vec<_> = others.collect();
    if !others.is_empty() {
        result.insert("relatedLocations".to_owned(), json!(others));
    }
    result.into()
}

fn result(rule: Option<usize>, finding: &Finding, sources: &SourceMap) -> Value {
    let (kind, level) = match finding.severity {
        Severity::Fault => ("fail", "error"),
        Severity::Caution => ("fail", "warning"),
        Severity::Note => ("fail", "note"),
        Severity::Met => ("pass", "none"),
    };
    let mut places = locations(sources, &finding.spans).into_iter();
    let mut result = Map::from_iter([
        ("ruleId".to_owned(), json!(finding.check)),
        ("kind".to_owned(), json!(kind)),
        ("level".to_owned(), json!(level)),
        ("message".to_owned(), json!({ "text": finding.message })),
        ("locations".to_owned(), json!(places.next().into_iter().collect::<Vec<_>>())),
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
    if let Some(fix) = finding.suggestion.as_ref().map(|suggestion| fix(suggestion, sources)) {
        result.insert("fixes".to_owned(), json!([fix]));
    }
    result.into()
}

/// What SARIF has no word for.
fn properties(finding: &Finding) -> Value {
    let figure = |measure: &Measure| json!({ "value": micrometres(measure.value), "text": measure.to_string() });
    let required = finding.required.as_ref().map(|required| {
        let value = micrometres(required.value());
        json!({ "value": value, "text": required.words(), "source": required.origin() })
    });
    json!({
        "subject": finding.subject,
        "arrangements": finding.arrangements,
        "measured": finding.measured.as_ref().map(figure),
        "required": required,
        "help": finding.help,
    })
}

fn fix(suggestion: &Suggestion, sources: &SourceMap) -> Value {
    let changes = suggestion.edits.iter().filter_map(|edit| change(edit, sources));
    json!({
        "description": { "text": suggestion.words },
        "artifactChanges": changes.collect::<Vec<_>>(),
    })
}

fn change(edit: &Edit, sources: &SourceMap) -> Option<Value> {
    let name = &sources.file(edit.span.file)?.name;
    Some(json!({
        "artifactLocation": { "uri": uri(name) },
        "replacements": [{ "deletedRegion": region(sources, edit.span)?, "insertedContent": { "text": edit.text } }],
    }))
}

fn location(sources: &SourceMap, span: Span) -> Option<Map<String, Value>> {
    let name = &sources.file(span.file)?.name;
    let physical = json!({ "artifactLocation": { "uri": uri(name) }, "region": region(sources, span)? });
    Some(Map::from_iter([("physicalLocation".to_owned(), physical)]))
}

/// Each place once, as the standard wants it.
fn locations(sources: &SourceMap, spans: &[Span]) -> Vec<Map<String, Value>> {
    let mut places: Vec<Map<String, Value>> = Vec::new();
    for place in spans.iter().filter_map(|span| location(sources, *span)) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places
}

/// Lines and columns from 1; the end column is one past the last character.
fn region(sources: &SourceMap, span: Span) -> Option<Value> {
    let file = sources.file(span.file)?;
    let (start, end) = (file.position(span.start as usize), file.position(span.end.max(span.start) as usize));
    Some(json!({
        "startLine": start.line,
        "startColumn": start.column,
        "endLine": end.line,
        "endColumn": end.column,
    }))
}

/// A path as a URI reference: relative stays relative, absolute becomes `file:`.
fn uri(path: &str) -> String {
    let path = path.replace('\\', "/");
    let escaped = utf8_percent_encode(&path, ESCAPED);
    match path.chars().next() {
        Some('/') => format!("file://{escaped}"),
        _ if path.split('/').next().is_some_and(|first| first.contains(':')) => format!("./{escaped}"),
        _ => escaped.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 3986: a relative reference may have no colon in its first segment; spaces and non-ASCII are escaped.
    #[test]
    fn paths_become_uri_references() {
        assert_eq!(uri("layouts/marram.yaml"), "layouts/marram.yaml");
        assert_eq!(uri("/plans/für uns.yaml"), "file:///plans/f%C3%BCr%20uns.yaml");
        assert_eq!(uri("a:b.yaml"), "./a:b.yaml");
        assert_eq!(uri("50%.yaml"), "50%25.yaml");
    }
}
