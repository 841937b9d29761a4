//! Sheets that are tables: findings, schedules, cut list, labels.

pub(super) mod check_table;
pub(super) mod cut_list_sheet;
pub(super) mod findings_sheet;
pub(super) mod part_labels;
pub(super) mod schedules;
