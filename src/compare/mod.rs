//! Two versions of a layout held against each other: what is new, gone or otherwise, told to those who must do something
//! again.
//!
//! Both are compared in the forms that programs read (`model.json`, `report.json`, `findings.json`), so that nothing is
//! left out: what no section of its own tells stands among the values.

mod findings;
mod parts;
mod things;
mod tree;
mod words;

use crate::backends::{Found, Reads, Report, model_wire, report_wire};
use crate::compile::{Compiled, Session, Wanted};
use crate::views::Chosen;
use serde_json::{Value, json};

pub use words::text;

/// One version of a layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// `model.json`, without places in files.
    model: Value,
    /// `report.json`, the same.
    report: Value,
    /// The findings of `findings.json`, the same.
    findings: Vec<Value>,
    /// What is bought, by name and size, and how many.
    bought: Vec<(String, f64)>,
}

impl Side {
    /// A version that compiles; `None` if it does not.
    #[must_use]
    pub fn of(session: &Session, compiled: &Compiled) -> Option<Self> {
        let wanted = Wanted { reads: vec![Reads::Sums], sheets: Chosen::default() };
        let outputs = session.draw(compiled, &wanted).ok()??;
        let product = outputs.product(compiled);
        let Compiled { sources, errors, model, checks, findings, .. } = compiled;
        let found =
            Found { errors: (errors.errors(), errors.dropped()), model: model.as_ref(), checks, findings, sources };
        let plain = |value: Result<Value, serde_json::Error>| tree::without_places(value.unwrap_or_default());
        let report = plain(serde_json::to_value(Report::new("", found)));
        let findings = report.get("findings").and_then(Value::as_array).cloned().unwrap_or_default();
        let size = |size: Option<f64>| size.map_or_else(String::new, |size| format!(" {}", tree::figure(size)));
        let bought = product.figures.purchases().hardware.iter();
        Some(Self {
            model: plain(serde_json::to_value(model_wire(product.figures, sources, 0))),
            report: plain(serde_json::to_value(report_wire(&product))),
            findings,
            bought: bought.map(|one| (one.words() + &size(one.size), f64::from(one.count))).collect(),
        })
    }
}

/// What has become of something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// It was not there.
    New,
    /// It is there no more.
    Gone,
    /// It is otherwise.
    Changed,
}

impl Fate {
    /// In a word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Gone => "gone",
            Self::Changed => "changed",
        }
    }
}

/// One difference.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// What has become of it.
    pub fate: Fate,
    /// What it is about: a module, a part's number, the path of a value.
    pub about: String,
    /// In words, with the figures of both versions.
    pub says: String,
}

impl Difference {
    fn new(fate: Fate, about: impl Into<String>, says: impl Into<String>) -> Self {
        Self { fate, about: about.into(), says: says.into() }
    }
}

/// What differs, by who must know it; nothing at all for two versions that come to the same.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Comparison {
    /// For the designer: findings.
    pub findings: Vec<Difference>,
    /// For the designer: masses and loads of the load cases.
    pub masses: Vec<Difference>,
    /// For the fitter: modules that are new, gone, moved or of another size.
    pub modules: Vec<Difference>,
    /// For the shell maker: openings.
    pub openings: Vec<Difference>,
    /// For the shell maker: inserts, by panel.
    pub inserts: Vec<Difference>,
    /// For the joiner: parts to cut again and parts that are not wanted any more.
    pub parts: Vec<Difference>,
    /// For the joiner: parts that are the same under another number.
    pub renumbered: Vec<Difference>,
    /// Parts that stay as they are, pieces.
    pub kept: u64,
    /// For whoever buys: sheets, bands and hardware.
    pub bought: Vec<Difference>,
    /// Every other value of the layout.
    pub values: Vec<Difference>,
}

impl Comparison {
    /// The sections with their names, in the order of the report.
    #[must_use]
    pub fn sections(&self) -> [(&'static str, &[Difference]); 9] {
        [
            ("findings", &self.findings),
            ("masses", &self.masses),
            ("modules", &self.modules),
            ("openings", &self.openings),
            ("inserts", &self.inserts),
            ("parts", &self.parts),
            ("renumbered", &self.renumbered),
            ("bought", &self.bought),
            ("values", &self.values),
        ]
    }

    /// Whether nothing differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sections().iter().all(|(_, all)| all.is_empty())
    }
}

/// Holds two versions against each other.
#[must_use]
pub fn compare(old: &Side, new: &Side) -> Comparison {
    let (parts, renumbered, kept) = parts::parts(&old.model, &new.model);
    Comparison {
        findings: findings::findings(&old.findings, &new.findings),
        masses: things::masses(&old.report, &new.report),
        modules: things::modules(&old.model, &new.model),
        openings: things::openings(&old.model, &new.model),
        inserts: things::inserts(&old.report, &new.report),
        parts,
        renumbered,
        kept,
        bought: parts::bought(old, new),
        values: tree::values(&old.model, &new.model),
    }
}

/// A comparison as JSON, for programs.
#[must_use]
pub fn to_json(files: [&str; 2], comparison: &Comparison) -> Value {
    let row = |one: &Difference| json!({ "fate": one.fate.word(), "about": one.about, "says": one.says });
    let sections = comparison.sections().map(|(name, all)| (name.to_owned(), all.iter().map(row).collect::<Value>()));
    let mut told = json!({ "format": "boxwright-comparison", "version": 1, "old": files[0], "new": files[1], "parts-kept": comparison.kept });
    if let Some(told) = told.as_object_mut() {
        told.extend(sections);
    }
    told
}
