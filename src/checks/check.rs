//! The trait of checks and the narrow context they see.

use super::ground::Grounds;
use super::ways::Floor;
use crate::diagnostic::{Finding, Measure, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::model::{Arrangement, Model};

/// A limit that a layout may change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Name in `limits: { <check>: { <name>: ... } }`.
    pub name: &'static str,
    /// Default, in the unit of `quantity`.
    pub default: f64,
    /// Its unit.
    pub quantity: Quantity,
    /// How sure the source is.
    pub class: SourceClass,
    /// The source in words.
    pub source: &'static str,
}

/// The limits of one check as they hold for one layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    values: Vec<(&'static str, Requirement)>,
}

impl Limits {
    /// Defaults of a check, changed where the layout changes them.
    #[must_use]
    pub fn new(check: &dyn Check, model: &Model) -> Self {
        let values = check.limits().iter().map(|limit| (limit.name, requirement(check.name(), limit, model))).collect();
        Self { values }
    }

    /// The requirement of a name that the check lists; zero, from geometry, for any other name.
    #[must_use]
    pub fn get(&self, name: &str) -> Requirement {
        self.values.iter().find(|(key, _)| *key == name).map_or_else(Requirement::geometry, |(_, r)| r.clone())
    }

    /// All of them, in the order the check lists them.
    pub fn iter(&self) -> impl Iterator<Item = (&'static str, &Requirement)> {
        self.values.iter().map(|(name, required)| (*name, required))
    }

    /// The figure of a name.
    #[must_use]
    pub fn value(&self, name: &str) -> f64 {
        self.get(name).measure.value
    }
}

fn requirement(check: &str, limit: &Limit, model: &Model) -> Requirement {
    let measure = |value| Measure { value, quantity: limit.quantity };
    match model.limits.iter().find(|change| change.check == check && change.name == limit.name) {
        Some(change) => Requirement {
            measure: measure(change.value),
            class: SourceClass::Layout,
            source: format!("set by the layout: {}", change.because),
            most: false,
        },
        None => Requirement {
            measure: measure(limit.default),
            class: limit.class,
            source: limit.source.to_owned(),
            most: false,
        },
    }
}

impl Requirement {
    /// Nothing beyond the geometry: 0 mm.
    #[must_use]
    pub fn geometry() -> Self {
        let measure = Measure { value: 0.0, quantity: Quantity::Length };
        Self { measure, class: SourceClass::Geometry, source: "geometry".to_owned(), most: false }
    }
}

/// The manual page of a check: the leading doc comment of its own file, as plain text.
///
/// Its headings are `# Computes`, `# Why`, `# Limit`, `# Source` and `# Change it`, in this order.
#[must_use]
pub fn manual_page(check: &dyn Check) -> String {
    let lines = check.source_text().lines().map_while(|line| line.strip_prefix("//!"));
    lines.map(|line| line.strip_prefix(' ').unwrap_or(line)).fold(String::new(), |page, line| page + line + "\n")
}

/// A check that was run, with its limits as they held.
#[derive(Debug, Clone, PartialEq)]
pub struct Ran {
    /// The check's name.
    pub name: &'static str,
    /// What it says of itself.
    pub says: &'static str,
    /// What its results on safety are worth.
    pub caution: Option<&'static str>,
    /// Its limits.
    pub limits: Limits,
}

impl Ran {
    /// A check run over a model.
    #[must_use]
    pub fn new(check: &dyn Check, model: &Model) -> Self {
        Self { name: check.name(), says: check.says(), caution: check.caution(), limits: Limits::new(check, model) }
    }
}

/// What a check sees: the model, its walkable floors, and the check's own limits.
#[derive(Debug)]
pub struct Context<'a> {
    /// The resolved layout.
    pub model: &'a Model,
    /// The limits of this check.
    pub limits: Limits,
    grounds: &'a Grounds,
}

impl<'a> Context<'a> {
    /// What this check sees of a model; `grounds` is shared by all that look at it.
    #[must_use]
    pub fn new(check: &dyn Check, model: &'a Model, grounds: &'a Grounds) -> Self {
        Self { model, limits: Limits::new(check, model), grounds }
    }

    /// The walkable floor of an arrangement.
    pub(super) fn floor(&self, arrangement: &'a Arrangement) -> Floor<'a> {
        Floor::new(self.model, arrangement, self.grounds.of(self.model, arrangement))
    }

    /// The arrangements of the layout.
    #[must_use]
    pub fn arrangements(&self) -> &'a [Arrangement] {
        &self.model.arrangements
    }
}

/// A rule over the model.
pub trait Check: Sync {
    /// Name, as in `explain NAME`.
    fn name(&self) -> &'static str;

    /// One line for lists.
    fn says(&self) -> &'static str;

    /// The check's own source file (`include_str!`), whose leading doc comment is its manual page.
    fn source_text(&self) -> &'static str;

    /// What a result on safety is worth, in one sentence without a full stop.
    fn caution(&self) -> Option<&'static str> {
        None
    }

    /// How many times the work of most checks a run takes; of changes to this layout fewer are tried by as much.
    fn work(&self, _model: &Model) -> usize {
        1
    }

    /// The limits that a layout may change.
    fn limits(&self) -> &'static [Limit];

    /// Looks at the model in every arrangement. Findings of several arrangements that are equal in all else may be
    /// given one by one; the caller merges them.
    fn run(&self, context: &Context<'_>) -> Vec<Finding>;

    /// The sums behind its figures for this layout, with formula, inputs and sources.
    fn worked(&self, _context: &Context<'_>) -> Vec<Worked> {
        Vec::new()
    }

    /// The findings that are graver than notes; a check whose notes take their time leaves them out here.
    fn grave(&self, context: &Context<'_>) -> Vec<Finding> {
        self.run(context)
    }
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
}
