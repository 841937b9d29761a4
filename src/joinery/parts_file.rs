//! Lists of parts from other programs: a table (CSV) or jobs with their sheets (JSON).

mod figures;
mod job;
mod json;
mod place;
mod table;
#[cfg(test)]
mod tests;

use crate::diagnostic::Sink;
use crate::source::FileId;
pub use job::{PartsJob, PartsList, Saw};

/// Reads a list: JSON if it begins with `{`, a table otherwise.
///
/// # Errors
/// What is wrong with it, with the places.
pub fn read_parts(id: &str, text: &str, file: FileId, saw: &Saw) -> Result<PartsList, Sink> {
    if text.trim_start().starts_with('{') {
        return json::jobs(text, file, saw);
    }
    table::job(id, text, file, saw)
}
