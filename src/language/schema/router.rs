//! The router in the schema.

use super::keys::{Keys, at_most, by_name, full_list, known, named};
use crate::language::lower_layout::MOST_TOOLS;
use crate::language::router::{ROUTER, TOOL};
use crate::language::schema::keys::number;
use crate::model::{RouterFiles, ToolUse};
use serde_json::{Value, json};

pub(super) fn router() -> Value {
    let tool = Keys::of("A tool of the router")
        .need("for", "What it may do", full_list(known::<ToolUse>()))
        .figures(&TOOL)
        .opt("number", "By which the controller knows it; else its place in the table", number())
        .closed();
    let code = || json!({ "type": "string", "pattern": "^[GM][0-9]{1,4}$" });
    Keys::of("The router of the workshop")
        .need("tools", "Its tools", at_most(MOST_TOOLS, named(tool)))
        .opt("files", "What one file is for", known::<RouterFiles>())
        .opt("millimetres", "The controller's word for millimetres", code())
        .opt("change", "Its word for a change of tools; without it each tool has a file of its own", code())
        .opt("pilots", "Pilot holes of screws are drilled, too", by_name("flag"))
        .figures(&ROUTER)
        .closed()
}
