//! Findings: what a check has measured, what it wanted, where, and what would clear it.

use super::suggestion::Suggestion;
use crate::base::tolerance::ROUNDING;
use crate::source::Span;
use kurbo::{BezPath, Point};

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

/// A unit of a measured or required value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Millimetres.
    Length,
    /// Degrees.
    Angle,
    /// Litres.
    Volume,
    /// Square millimetres.
    Area,
    /// A plain count.
    Count,
    /// Kilograms.
    Mass,
    /// Parts of a hundred.
    Percent,
    /// Days.
    Days,
    /// Watts.
    Power,
}

impl Quantity {
    /// What is written behind a figure, with its space: ` mm`.
    #[must_use]
    pub fn suffix(self) -> &'static str {
        match self {
            Self::Length => " mm",
            Self::Angle => "°",
            Self::Volume => " l",
            Self::Area => " mm²",
            Self::Count => "",
            Self::Mass => " kg",
            Self::Percent => " %",
            Self::Days => " d",
            Self::Power => " W",
        }
    }
}

/// A value with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// The figure.
    pub value: f64,
    /// Its unit.
    pub quantity: Quantity,
}

/// How sure we are of where a limit comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SourceClass {
    /// Follows from the geometry alone.
    Geometry,
    /// A published text that was read.
    Published,
    /// A habit of the trade, no source.
    CommonPractice,
    /// A value from memory, not verified.
    FromMemory,
    /// Set by the layout, with a reason.
    Layout,
}

/// What was required, and on whose word.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirement {
    /// The limit.
    pub measure: Measure,
    /// How sure the source is.
    pub class: SourceClass,
    /// The source in words.
    pub source: String,
    /// The figure is to be at most this, not at least.
    pub most: bool,
}

impl SourceClass {
    /// The class in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Geometry => "geometry",
            Self::Published => "published",
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "from memory, not verified",
            Self::Layout => "set by the layout",
        }
    }
}

impl Requirement {
    /// A least value.
    #[must_use]
    pub fn at_least(value: f64, quantity: Quantity, class: SourceClass, source: &str) -> Self {
        Self { measure: Measure { value, quantity }, class, source: source.to_owned(), most: false }
    }

    /// The same limit as a greatest value.
    #[must_use]
    pub fn at_most(self) -> Self {
        Self { most: true, ..self }
    }

    /// Whether a figure meets it, but for rounding.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        let limit = self.measure.value;
        let slack = ROUNDING * limit.abs().max(1.0);
        if self.most { value <= limit + slack } else { value >= limit - slack }
    }

    /// The limit with its direction: "at most 3200 kg".
    #[must_use]
    pub fn words(&self) -> String {
        format!("{} {}", if self.most { "at most" } else { "at least" }, self.measure)
    }

    /// The source, with how sure it is unless it says so itself.
    #[must_use]
    pub fn origin(&self) -> String {
        let class = self.class.words();
        let first = class.split(',').next().unwrap_or(class);
        match self.source.as_str() {
            "" => class.to_owned(),
            source if source.contains(first) => source.to_owned(),
            source => format!("{source}; {class}"),
        }
    }
}

impl std::fmt::Display for Measure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let decimals = if matches!(self.quantity, Quantity::Count | Quantity::Area) { 0 } else { 1 };
        let unit = self.quantity.suffix();
        write!(f, "{}{unit}", crate::base::number::trimmed(self.value, decimals))
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
    pub check: &'static str,
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
    pub fn new(check: &'static str, severity: Severity, subject: &str, message: impl Into<String>) -> Self {
        Self {
            check,
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
