//! Findings: what a check has measured, what it wanted, where, and what would clear it.

use super::requirement::{Measure, Requirement};
use super::suggestion::Suggestion;
use crate::source::Span;
use kurbo::{BezPath, Point};
use std::borrow::Cow;

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The layout does not work; drawings are held.
    Fault,
    /// It works, but a designer should look.
    Caution,
    /// A figure worth knowing.
    Note,
    /// Nothing is wrong: the tightest place of what was measured, for the record.
    Met,
}

impl Severity {
    /// The severity in a word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Fault => "fault",
            Self::Caution => "caution",
            Self::Note => "note",
            Self::Met => "met",
        }
    }
}

/// A place on the drawing, in box coordinates in millimetres (x to the rear, y to the right), seen from above.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A point.
    At(Point),
    /// A measured distance between two points.
    Between(Point, Point),
    /// An area, closed.
    Area(BezPath),
}

/// One result of a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The check's name.
    pub check: Cow<'static, str>,
    /// How grave it is.
    pub severity: Severity,
    /// What it is about: a module, an opening, a zone, a route or a person, by name.
    pub subject: String,
    /// The arrangements it holds in, by name; empty when it does not depend on them.
    pub arrangements: Vec<String>,
    /// One sentence of fact with figures and units, no full stop.
    pub message: String,
    /// What was measured.
    pub measured: Option<Measure>,
    /// What was required.
    pub required: Option<Requirement>,
    /// Where in the files; the first is the main place.
    pub spans: Vec<Span>,
    /// Where on the drawing.
    pub marks: Vec<Mark>,
    /// The smallest single change that clears it, tried on the layout.
    pub suggestion: Option<Suggestion>,
    /// Advice that is not a change of one value, in words.
    pub help: Option<String>,
    /// The reason under which the layout accepts it, if it does.
    pub accepted: Option<String>,
}

impl Finding {
    /// A finding with a sentence; the rest is filled in by the `with` functions.
    #[must_use]
    pub fn new(
        check: impl Into<Cow<'static, str>>,
        severity: Severity,
        subject: &str,
        message: impl Into<String>,
    ) -> Self {
        Self {
            check: check.into(),
            severity,
            subject: subject.to_owned(),
            arrangements: Vec::new(),
            message: message.into(),
            measured: None,
            required: None,
            spans: Vec::new(),
            marks: Vec::new(),
            suggestion: None,
            help: None,
            accepted: None,
        }
    }

    /// A fault that the layout does not accept: it holds the drawings.
    #[must_use]
    pub fn is_open_fault(&self) -> bool {
        self.severity == Severity::Fault && self.accepted.is_none()
    }

    /// What it is, in a word: its severity, or that it is accepted.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        if self.accepted.is_some() { "accepted" } else { self.severity.word() }
    }
}

/// How many findings there are of each kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Faults that are not accepted.
    pub faults: usize,
    /// Cautions that are not accepted.
    pub cautions: usize,
    /// Notes.
    pub notes: usize,
    /// Requirements that are met, at their tightest places.
    pub met: usize,
    /// Accepted findings.
    pub accepted: usize,
}

impl Counts {
    /// Counts findings.
    #[must_use]
    pub fn of<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Self {
        let mut counts = Self::default();
        for finding in findings {
            *match (&finding.accepted, finding.severity) {
                (Some(_), _) => &mut counts.accepted,
                (None, Severity::Fault) => &mut counts.faults,
                (None, Severity::Caution) => &mut counts.cautions,
                (None, Severity::Note) => &mut counts.notes,
                (None, Severity::Met) => &mut counts.met,
            } += 1;
        }
        counts
    }
}
