//! The tables of a plan: its modules, and the findings that hold in it.

use super::chains::numbered;
use super::numbers::{holds_in, kind};
use super::scene::Scene;
use crate::base::number::trimmed;
use crate::diagnostic::Finding;
use crate::drawing::{Column, Table};
use crate::model::{Module, Wall};

/// Height of letters in tables, mm.
pub(super) const LETTERS: f64 = 1.8;
/// Least width of a table, mm.
pub(super) const LEAST: f64 = 90.0;

/// A table that can be made for any width.
#[derive(Debug, Clone)]
pub(super) struct Flexible {
    /// Words over it.
    pub heading: &'static str,
    /// Heads with a fixed width in mm, or a share of what is left when negative; the last says figures.
    columns: Vec<(&'static str, f64, bool)>,
    /// All rows.
    pub rows: Vec<Vec<String>>,
}

impl Flexible {
    /// A table; widths are mm, or shares of what is left where negative; the flag says figures.
    pub fn new(heading: &'static str, columns: &[(&'static str, f64, bool)], rows: Vec<Vec<String>>) -> Self {
        Self { heading, columns: columns.to_vec(), rows }
    }

    /// The table in a width, with the rows from one index to another.
    pub fn table(&self, width: f64, from: usize, to: usize) -> Table {
        let fixed: f64 = self.columns.iter().map(|column| column.1.max(0.0)).sum();
        let shares: f64 = self.columns.iter().map(|column| (-column.1).max(0.0)).sum();
        let left = (width - fixed).max(0.0);
        let columns = self.columns.iter().map(|(head, size, figures)| {
            let width = if *size < 0.0 { left * -size / shares } else { *size };
            if *figures { Column::figures(head, width) } else { Column::words(head, width) }
        });
        let rows = self.rows.get(from..to).unwrap_or_default().to_vec();
        Table { columns: columns.collect(), rows, letters: LETTERS }
    }

    /// How many rows, from one on, fit a height.
    pub fn fitting(&self, width: f64, from: usize, height: f64) -> usize {
        let (mut low, mut high) = (from, self.rows.len());
        while low < high {
            let middle = (low + high).div_ceil(2);
            if self.table(width, from, middle).height() <= height { low = middle } else { high = middle - 1 }
        }
        low - from
    }
}

/// The modules of an arrangement.
pub(super) fn modules(scene: &Scene<'_>) -> Flexible {
    let rows = numbered(scene).map(|(number, module, state)| {
        vec![number.to_string(), module.name.clone(), module.says.clone(), size(module), state.name.clone()]
    });
    let columns = [
        ("no.", 8.0, true),
        ("module", -0.42, false),
        ("what it is", -0.58, false),
        ("run × depth × height", 32.0, false),
        ("pose", 17.0, false),
    ];
    Flexible::new("Modules", &columns, rows.collect())
}

/// Run along the facing side, depth and height.
fn size(module: &Module) -> String {
    let plan = module.extent.plan();
    let (run, depth) = match module.faces {
        Wall::Front | Wall::Rear => (plan.height(), plan.width()),
        _ => (plan.width(), plan.height()),
    };
    let height = module.extent.z.1 - module.extent.z.0;
    [run, depth, height].map(|value| trimmed(value, 1)).join(" × ")
}

/// The findings that hold in an arrangement.
pub(super) fn findings(scene: &Scene<'_>, findings: &[(usize, &Finding)]) -> Flexible {
    let holding = findings.iter().filter(|(_, finding)| holds_in(finding, scene.arrangement));
    let rows = holding.map(|(number, finding)| {
        vec![number.to_string(), kind(finding).to_owned(), finding.check.to_owned(), words(finding)]
    });
    let columns = [("no.", 8.0, true), ("kind", 16.0, false), ("check", 23.0, false), ("finding", -1.0, false)];
    Flexible::new("Findings", &columns, rows.collect())
}

/// What is found, and why it is accepted.
pub(super) fn words(finding: &Finding) -> String {
    match &finding.accepted {
        Some(reason) => format!("{}. Accepted: {reason}", finding.message),
        None => finding.message.clone(),
    }
}
