//! Findings, limits and places, as in `boxwright schema findings`.

use serde::{Deserialize, Serialize};

/// A limit of a check.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Limit {
    /// Its name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The limit.
    pub value: f64,
    /// `mm`, `degrees`, `litres`, `mm2`, `count`, `kg`, `percent`, `days` or `W`.
    pub unit: String,
    /// `least`, `most` or `between`.
    pub bound: String,
    /// The greater of two limits.
    #[serde(default)]
    pub to: Option<f64>,
    /// A figure that misses the limit by no more than this meets it.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub within: f64,
    /// `geometry`, `published`, `quoted`, `common-practice`, `from-memory` or `layout`.
    pub class: String,
    /// The source in words.
    pub source: String,
}

fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

impl Limit {
    /// A habit of the trade that is written down nowhere.
    pub fn practice(name: &str, bound: &str, value: f64, unit: &str) -> Self {
        let [name, bound, unit] = [name, bound, unit].map(str::to_owned);
        let (class, source) = ("common-practice".to_owned(), "common practice, no source".to_owned());
        Self { name, value, unit, bound, class, source, ..Self::default() }
    }

    /// Whether a figure meets it.
    pub fn holds(&self, value: f64) -> bool {
        let (least, most) = (value >= self.value - self.within, value <= self.value + self.within);
        match self.bound.as_str() {
            "least" => least,
            "most" => most,
            _ => least && value <= self.to.unwrap_or(self.value) + self.within,
        }
    }

    /// How a figure stands to it: 1 just at it, more with some to spare.
    pub fn spare(&self, value: f64) -> f64 {
        let share = |more: f64, less: f64| more / less.max(f64::MIN_POSITIVE);
        let (least, most) = (share(value, self.value), share(self.value, value));
        match self.bound.as_str() {
            "least" => least,
            "most" => most,
            _ => least.min(share(self.to.unwrap_or(self.value), value)),
        }
    }
}

/// One result of a check.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Finding {
    /// The check, without the name of the plug-in.
    pub check: String,
    /// `fault`, `caution`, `note` or `met`.
    pub severity: String,
    /// The module, opening, zone, route or person it is about, `a and b` for two of them, or `box`.
    pub subject: String,
    /// What tells it from other findings of the check on the subject.
    pub about: Vec<About>,
    /// The arrangements it holds in; empty when it does not depend on them.
    pub arrangements: Vec<String>,
    /// One sentence of fact, no full stop.
    pub message: String,
    /// What was measured.
    pub measured: Option<Measure>,
    /// What was required: a limit of the question as it is.
    pub required: Option<Limit>,
    /// What else the message is made of.
    pub arguments: Vec<Argument>,
    /// Where in the files, as the model says it; the place of the subject where none is given.
    pub places: Vec<Place>,
    /// Where on the plan.
    pub marks: Vec<Mark>,
    /// Advice in words.
    pub help: Option<String>,
}

impl Finding {
    /// A finding of a check on a subject.
    pub fn new(check: &str, severity: &str, subject: &str, message: impl Into<String>) -> Self {
        let [check, severity, subject] = [check, severity, subject].map(str::to_owned);
        Self { check, severity, subject, message: message.into(), ..Self::default() }
    }

    /// A figure against a limit: met, or a finding of the severity.
    pub fn judged(
        check: &str,
        severity: &str,
        subject: &str,
        message: impl Into<String>,
        (value, limit): (f64, &Limit),
    ) -> Self {
        let severity = if limit.holds(value) { "met" } else { severity };
        let measured = Some(Measure { value, unit: limit.unit.clone() });
        Self { measured, required: Some(limit.clone()), ..Self::new(check, severity, subject, message) }
    }

    /// The same about a part of its subject.
    pub fn of_part(self, name: &str) -> Self {
        self.about("part", name)
    }

    /// The same about a question of its own.
    pub fn asks(self, question: &str) -> Self {
        self.about("question", question)
    }

    /// The same, about something else, too.
    pub fn with_other(self, name: &str) -> Self {
        self.about("other", name)
    }

    fn about(mut self, kind: &str, name: &str) -> Self {
        self.about.push(About { kind: kind.to_owned(), name: name.to_owned() });
        self
    }

    /// The same at a place on the plan.
    pub fn at(mut self, x: f64, y: f64) -> Self {
        self.marks.push(Mark::At([x, y]));
        self
    }
}

/// What tells findings of one check on one subject apart.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct About {
    /// `question`, `part` or `other`.
    pub kind: String,
    /// The word or the name.
    pub name: String,
}

/// A figure with its unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// The figure.
    pub value: f64,
    /// Its unit.
    pub unit: String,
}

/// A figure, or a name, that the message speaks of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Argument {
    /// What it is, in a word.
    pub name: String,
    /// The figure.
    pub figure: Option<Measure>,
    /// Or the name or word.
    pub says: Option<String>,
}

/// A place in a file: lines and columns from 1.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Place {
    /// Name of the file.
    pub file: String,
    /// Line.
    pub line: usize,
    /// Column.
    pub column: usize,
    /// Line of the end.
    pub end_line: usize,
    /// Column of the end.
    pub end_column: usize,
}

/// A place in the box, seen from above: x to the rear, y to the right, in mm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Mark {
    /// A point.
    At([f64; 2]),
    /// A measured distance.
    Between([[f64; 2]; 2]),
    /// An area, as SVG path data.
    Area(String),
}
