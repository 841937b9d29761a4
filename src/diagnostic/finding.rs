//! Findings: what a check has measured, what it wanted, where, and what would clear it.

use super::key::{About, Key, Subject};
use super::requirement::{Measure, Quantity, Requirement};
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

/// Something that the words of a finding are made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Argument {
    /// What it is, in a word.
    pub name: Cow<'static, str>,
    /// The figure, name or word.
    pub value: Value,
}

/// A figure, or a name.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A figure.
    Figure(Measure),
    /// A name or a word.
    Name(String),
}

impl Argument {
    fn shows_as(&self, other: &Self) -> bool {
        let same = match (&self.value, &other.value) {
            (Value::Figure(one), Value::Figure(other)) => one.shows_as(other),
            (one, other) => one == other,
        };
        self.name == other.name && same
    }
}

/// The question of a finding about an entry of `accepted`.
const ACCEPTANCE: &str = "accepted";

/// What a finding about an entry of the layout that nothing uses has in place of a check.
pub const UNUSED: &str = "unused";

/// What the figure is called that a finding was accepted at.
pub(super) const ACCEPTED_AT: &str = "accepted at";

/// One result of a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Which finding it is: check, subject, and what tells it from others of the check on the subject.
    pub key: Key,
    /// How grave it is.
    pub severity: Severity,
    /// The arrangements it holds in, by name; empty when it does not depend on them.
    pub arrangements: Vec<String>,
    /// One sentence of fact with figures and units, no full stop; it says no more than key, figures and arguments.
    pub message: String,
    /// What was measured.
    pub measured: Option<Measure>,
    /// What was required.
    pub required: Option<Requirement>,
    /// What else the sentence is made of.
    pub arguments: Vec<Argument>,
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
        subject: impl Into<Subject>,
        message: impl Into<String>,
    ) -> Self {
        Self {
            key: Key { check: check.into(), subject: subject.into(), about: Vec::new() },
            severity,
            arrangements: Vec::new(),
            message: message.into(),
            measured: None,
            required: None,
            arguments: Vec::new(),
            spans: Vec::new(),
            marks: Vec::new(),
            suggestion: None,
            help: None,
            accepted: None,
        }
    }

    /// The same, about a question of its own: a limit's name, or another word.
    #[must_use]
    pub fn asks(self, question: impl Into<Cow<'static, str>>) -> Self {
        self.about(About::Asks(question.into()))
    }

    /// The same, about a solid, a space, a move or a part of its subject.
    #[must_use]
    pub fn of_part(self, name: &str) -> Self {
        self.about(About::Part(name.to_owned()))
    }

    /// The same, about something else, too.
    #[must_use]
    pub fn with_other(self, name: &str) -> Self {
        self.about(About::Other(name.to_owned()))
    }

    /// The same, about an entry of `accepted` that accepts nothing.
    #[must_use]
    pub fn of_acceptance(self) -> Self {
        self.asks(ACCEPTANCE)
    }

    /// Whether it is about an entry of the layout that does nothing: nothing uses it, or it accepts nothing.
    #[must_use]
    pub fn is_of_idle_entry(&self) -> bool {
        self.key.check == UNUSED || self.key.about.contains(&About::Asks(ACCEPTANCE.into()))
    }

    /// The same, which was accepted at a figure and is worse now.
    #[must_use]
    pub fn accepted_at(mut self, at: Measure) -> Self {
        self.message += &format!("; it was {ACCEPTED_AT} {at}");
        self.figure(ACCEPTED_AT, at.value, at.quantity)
    }

    fn about(mut self, about: About) -> Self {
        self.key.about.push(about);
        self
    }

    /// The same, with a figure that its words speak of.
    #[must_use]
    pub fn figure(self, name: impl Into<Cow<'static, str>>, value: f64, quantity: Quantity) -> Self {
        self.argument(name.into(), Value::Figure(Measure { value, quantity }))
    }

    /// The same, with a name or a word that its words speak of.
    #[must_use]
    pub fn names(self, name: impl Into<Cow<'static, str>>, what: impl Into<String>) -> Self {
        self.argument(name.into(), Value::Name(what.into()))
    }

    fn argument(mut self, name: Cow<'static, str>, value: Value) -> Self {
        self.arguments.push(Argument { name, value });
        self
    }

    /// Whether both say the same of one thing, whatever their words: they differ in no more than arrangements and places.
    #[must_use]
    pub fn says_as_much(&self, other: &Self) -> bool {
        let same = |a: &Option<Measure>, b: &Option<Measure>| match (a, b) {
            (Some(a), Some(b)) => a.shows_as(b),
            (None, None) => true,
            _ => false,
        };
        self.key == other.key
            && self.severity == other.severity
            && same(&self.measured, &other.measured)
            && self.required == other.required
            && self.arguments.len() == other.arguments.len()
            && self.arguments.iter().zip(&other.arguments).all(|(a, b)| a.shows_as(b))
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
