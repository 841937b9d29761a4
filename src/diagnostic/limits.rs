//! Limits that a layout may change, and what is told of a check that was run.

use super::{Bound, Quantity, Requirement, SourceClass};
use std::borrow::Cow;

/// A limit that a layout may change.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Name in `limits: { <check>: { <name>: ... } }`.
    pub name: Cow<'static, str>,
    /// Default, in the unit of `quantity`, with its direction.
    pub default: Bound,
    /// Its unit.
    pub quantity: Quantity,
    /// How sure the source is.
    pub class: SourceClass,
    /// The source in words.
    pub source: Cow<'static, str>,
}

/// The limits of one check as they hold for one layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    values: Vec<(Cow<'static, str>, Requirement)>,
}

impl Limits {
    /// The limits of a check; `changed` gives the layout's own value of one, with its reason.
    #[must_use]
    pub fn new<'a>(limits: &[Limit], changed: impl Fn(&str) -> Option<(f64, &'a str)>) -> Self {
        let of = |limit: &Limit| (limit.name.clone(), limit.requirement(changed(&limit.name)));
        Self { values: limits.iter().map(of).collect() }
    }

    /// The requirement of a name that the check lists; zero, from geometry, for any other name.
    #[must_use]
    pub fn get(&self, name: &str) -> Requirement {
        let zero = || Requirement::geometry(Bound::Least(0.0), Quantity::Length);
        self.values.iter().find(|(key, _)| *key == name).map_or_else(zero, |(_, r)| r.clone())
    }

    /// All of them, in the order the check lists them.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Requirement)> {
        self.values.iter().map(|(name, required)| (name.as_ref(), required))
    }

    /// The figure of a name.
    #[must_use]
    pub fn value(&self, name: &str) -> f64 {
        self.get(name).value()
    }
}

impl Limit {
    /// A limit of a check that is built in.
    #[must_use]
    pub const fn new(
        name: &'static str,
        default: Bound,
        quantity: Quantity,
        class: SourceClass,
        source: &'static str,
    ) -> Self {
        Self { name: Cow::Borrowed(name), default, quantity, class, source: Cow::Borrowed(source) }
    }

    /// A habit of the trade that is written down nowhere.
    #[must_use]
    pub const fn practice(name: &'static str, default: Bound, quantity: Quantity) -> Self {
        Self::new(name, default, quantity, SourceClass::CommonPractice, "common practice, no source")
    }

    /// What is required by default, or as a layout changes it, with its reason.
    #[must_use]
    pub fn requirement(&self, changed: Option<(f64, &str)>) -> Requirement {
        match changed {
            Some((value, because)) => {
                let source = format!("set by the layout: {because}");
                Requirement::new(self.default.at(value), self.quantity, SourceClass::Layout, source)
            }
            None => Requirement::new(self.default, self.quantity, self.class, self.source.as_ref()),
        }
    }
}

/// A check that was run, with its limits as they held.
#[derive(Debug, Clone, PartialEq)]
pub struct Ran {
    /// The check's name.
    pub name: String,
    /// What it says of itself.
    pub says: String,
    /// What its results on safety are worth.
    pub caution: Option<String>,
    /// Its limits.
    pub limits: Limits,
}
