//! Errors and findings as text for a terminal, each with the lines of the file it speaks of.

use super::error::{Diagnostic, Sink};
use super::finding::Finding;
use super::requirement::Requirement;
use crate::source::{FileId, SourceMap, Span};
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Snippet, normalize_untrusted_str};
use std::ops::Range;

mod lines;
mod render;

pub use lines::{by_check, lines};
use render::{level, rendered};

/// Most places of one finding that are shown.
const MOST_PLACES: usize = 4;

/// The errors one after another, with an empty line after each. Empty without errors.
#[must_use]
pub fn errors(errors: &Sink, sources: &SourceMap, colour: bool) -> String {
    said(errors, Level::ERROR, sources, colour)
}

/// What is odd but no error, one after another with an empty line after each.
#[must_use]
pub fn notes(notes: &Sink, sources: &SourceMap, colour: bool) -> String {
    said(notes, Level::NOTE, sources, colour)
}

fn said(all: &Sink, level: Level<'static>, sources: &SourceMap, colour: bool) -> String {
    let group = |one| said_group(one, level.clone(), sources);
    let mut text: String = all.errors().iter().map(|one| render(group(one), colour)).collect();
    if all.dropped() > 0 {
        text.push_str(&format!("and {} more like these\n\n", all.dropped()));
    }
    text
}

/// The findings one after another, with an empty line after each; accepted ones in two lines with their reason.
#[must_use]
pub fn findings<'a>(findings: impl IntoIterator<Item = &'a Finding>, sources: &'a SourceMap, colour: bool) -> String {
    findings.into_iter().map(|finding| render(finding_group(finding, sources), colour)).collect()
}

fn render(group: Group<'_>, colour: bool) -> String {
    format!("{}\n\n", rendered(group, colour))
}

fn said_group<'a>(error: &'a Diagnostic, level: Level<'static>, sources: &'a SourceMap) -> Group<'a> {
    let mut places = vec![(error.span, error.label.as_str(), true)];
    places.extend(error.notes.iter().map(|note| (note.span, note.says.as_str(), false)));
    let group = Group::with_title(level.primary_title(error.message.as_str()));
    let mut group = snippets(group, &places, sources);
    if let Some(suggestion) = &error.suggestion {
        group = line(group, Level::HELP, "mend", &suggestion.words);
    }
    match &error.help {
        Some(help) => line(group, Level::HELP, "help", help),
        None => group,
    }
}

fn finding_group<'a>(finding: &'a Finding, sources: &'a SourceMap) -> Group<'a> {
    let title = level(finding).primary_title(finding.message.as_str()).id(finding.key.check.as_ref());
    if let Some(reason) = &finding.accepted {
        return line(Group::with_title(title), Level::NOTE, "because", reason);
    }
    let places: Vec<(Span, &str, bool)> =
        finding.spans.iter().take(MOST_PLACES).enumerate().map(|(at, span)| (*span, "", at == 0)).collect();
    let mut group = snippets(Group::with_title(title), &places, sources);
    if let Some(measured) = &finding.measured {
        group = line(group, Level::NOTE, "measured", &measured.to_string());
    }
    if let Some(required) = &finding.required {
        group = line(group, Level::NOTE, "required", &requirement(required));
    }
    if !finding.arrangements.is_empty() {
        group = line(group, Level::NOTE, "in", &finding.arrangements.join(", "));
    }
    if let Some(suggestion) = &finding.suggestion {
        group = line(group, Level::HELP, "suggestion", &suggestion.words);
    }
    match &finding.help {
        Some(help) => line(group, Level::HELP, "help", help),
        None => group,
    }
}

fn line<'a>(group: Group<'a>, level: Level<'a>, name: &'static str, text: &str) -> Group<'a> {
    group.element(level.with_name(name).message(normalize_untrusted_str(text)))
}

fn requirement(required: &Requirement) -> String {
    format!("{} ({})", required.short(), required.origin())
}

/// Places as (span, label, whether it is the main one), one snippet for each file, the main place's file first.
fn snippets<'a>(mut group: Group<'a>, places: &[(Span, &'a str, bool)], sources: &'a SourceMap) -> Group<'a> {
    let mut files: Vec<FileId> = Vec::new();
    for (span, ..) in places {
        if !files.contains(&span.file) {
            files.push(span.file);
        }
    }
    for id in files {
        let Some(file) = sources.file(id) else { continue };
        let mut shown: Vec<Range<usize>> = Vec::new();
        let mut annotations: Vec<Annotation<'a>> = Vec::new();
        for (span, label, main) in places.iter().filter(|(span, ..)| span.file == id) {
            let range = sound_range(&file.text, *span);
            if !main && label.is_empty() && shown.contains(&range) {
                continue;
            }
            shown.push(range.clone());
            let kind = if *main { AnnotationKind::Primary } else { AnnotationKind::Context };
            let annotation = kind.span(range);
            let label = (!label.is_empty()).then(|| normalize_untrusted_str(label));
            annotations.push(annotation.label(label));
        }
        group = group.element(
            Snippet::source(file.text.as_str()).path(normalize_untrusted_str(&file.name)).annotations(annotations),
        );
    }
    group
}

/// The span inside the text, between whole characters, and no further than the end of its first line.
fn sound_range(text: &str, span: Span) -> Range<usize> {
    let floor = |at: u32| {
        let mut at = (at as usize).min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    let end = floor(span.end).max(start);
    let piece = text.get(start..end).unwrap_or("");
    let first_line = piece.find(['\n', '\r']).unwrap_or(piece.len());
    let shown = piece.get(..first_line).unwrap_or("").trim_end();
    start..start + shown.len()
}

#[cfg(test)]
mod tests;
