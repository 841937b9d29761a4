//! Limits that a layout may change, and what is told of a check that was run.

use super::{Measure, Quantity, Requirement, SourceClass};

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
    /// The limits of a check; `changed` gives the layout's own value of one, with its reason.
    #[must_use]
    pub fn new<'a>(limits: &[Limit], changed: impl Fn(&str) -> Option<(f64, &'a str)>) -> Self {
        let of = |limit: &Limit| (limit.name, limit.requirement(changed(limit.name)));
        Self { values: limits.iter().map(of).collect() }
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

impl Limit {
    /// What is required by default, or as a layout changes it, with its reason.
    fn requirement(&self, changed: Option<(f64, &str)>) -> Requirement {
        let measure = |value| Measure { value, quantity: self.quantity };
        match changed {
            Some((value, because)) => Requirement {
                measure: measure(value),
                class: SourceClass::Layout,
                source: format!("set by the layout: {because}"),
                most: false,
            },
            None => Requirement {
                measure: measure(self.default),
                class: self.class,
                source: self.source.to_owned(),
                most: false,
            },
        }
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
