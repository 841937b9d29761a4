//! Sheets in work: what lies on them, and what a plan of them costs.

use super::sheet::Sheet;
use super::task::Task;

/// Sheets and the items that are on none of them.
#[derive(Debug, Clone, Default)]
pub(super) struct Packing {
    pub sheets: Vec<Sheet>,
    pub loose: Vec<u32>,
}

impl Packing {
    pub fn cost(&self, task: &Task) -> f64 {
        self.sheets.iter().filter_map(|sheet| task.kinds.get(sheet.kind)).map(|kind| kind.cost).sum()
    }

    /// What a first plan is chosen by, less is better: what is left out, then cost, then free space on many sheets.
    pub fn rank(&self, task: &Task) -> (i64, f64, f64) {
        let fill = |sheet: &Sheet| sheet.used as f64 / sheet.whole.area().max(1) as f64;
        let gathered: f64 = self.sheets.iter().map(|sheet| fill(sheet) * fill(sheet)).sum();
        (area(task, &self.loose), self.cost(task), -gathered)
    }
}

pub(super) fn area(task: &Task, items: &[u32]) -> i64 {
    items.iter().filter_map(|index| task.items.get(*index as usize)).map(|item| item.size.area()).sum()
}
