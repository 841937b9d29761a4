//! One version of a layout, in the forms that programs read.

use super::tree;
use crate::backends::{Found, Reads, Report, model_wire, report_wire};
use crate::compile::{Compiled, Session, Wanted};
use crate::views::Chosen;
use serde_json::Value;

/// One version of a layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// `model.json`, without places in files.
    pub(super) model: Value,
    /// `report.json`, the same.
    pub(super) report: Value,
    /// The findings of `findings.json`, the same.
    pub(super) findings: Vec<Value>,
    /// What is bought, by name and size, and how many.
    pub(super) bought: Vec<(String, f64)>,
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
