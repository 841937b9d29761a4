//! What all forms of the report share: how grave a finding is shown, and text that no terminal obeys.

use crate::diagnostic::{Finding, Severity};
use crate::source::is_shown;
use annotate_snippets::{Group, Level, Renderer};

/// The word for a finding, in its colour.
pub(super) fn level(finding: &Finding) -> Level<'static> {
    let level = match finding.severity {
        _ if finding.accepted.is_some() => Level::INFO,
        Severity::Fault => Level::ERROR,
        Severity::Caution => Level::WARNING,
        Severity::Note | Severity::Met => Level::NOTE,
    };
    level.with_name(finding.kind())
}

/// The lines of a group, without a line end.
pub(super) fn rendered(group: Group<'_>, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let text = renderer.render(&[group]);
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    without_wide_controls(&lines.join("\n"))
}

/// The renderer shows the control characters of ASCII; some terminals obey those beyond it, too.
fn without_wide_controls(text: &str) -> String {
    let bad = |c: &char| !c.is_ascii() && !is_shown(*c);
    text.chars().map(|c| if bad(&c) { c.escape_unicode().to_string() } else { c.to_string() }).collect()
}
