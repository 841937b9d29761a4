//! The schemas of the forms that plug-ins read parts of, each made once.

use crate::backends::{findings_schema, model_schema, report_schema, sheets_schema};
use serde_json::Value;
use std::sync::LazyLock;

static MODEL: LazyLock<Value> = LazyLock::new(model_schema);
static FINDINGS: LazyLock<Value> = LazyLock::new(findings_schema);
static REPORT: LazyLock<Value> = LazyLock::new(report_schema);
static SHEETS: LazyLock<Value> = LazyLock::new(sheets_schema);

/// The schema of a form by its name.
pub(super) fn published(form: &str) -> &'static Value {
    match form {
        "findings" => &FINDINGS,
        "report" => &REPORT,
        "sheets" => &SHEETS,
        _ => &MODEL,
    }
}
