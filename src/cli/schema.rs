//! `boxwright schema`: the JSON Schemas of what the command reads and writes.

use super::arguments::{Form, Schema};
use super::console::Console;
use super::outcome::Outcome;
use crate::backends::{findings_schema, model_schema, nest_schema, report_schema, sheets_schema};
use crate::diagnostic::wire::json_text;
use crate::language::{layout_schema, recipe_schema, rules_schema, symbol_schema, theme_schema};
use crate::plug_ins::{answer_schema, description_schema, question_schema};
use std::io;

/// Prints one schema.
pub(super) fn run(schema: &Schema, console: &mut Console) -> io::Result<Outcome> {
    let schema = match schema.of {
        Form::Model => model_schema(),
        Form::Report => report_schema(),
        Form::Findings => findings_schema(),
        Form::Nest => nest_schema(),
        Form::Layout => layout_schema(),
        Form::Symbol => symbol_schema(),
        Form::Recipe => recipe_schema(),
        Form::Theme => theme_schema(),
        Form::Rules => rules_schema(),
        Form::Sheets => sheets_schema(),
        Form::PlugIn => description_schema(),
        Form::PlugInQuestion => question_schema(),
        Form::PlugInAnswer => answer_schema(),
    };
    console.report(&json_text(&schema))?;
    Ok(Outcome::Clean)
}
