//! What the tool tells a person: errors that stop a compile, and findings of checks.

mod error;
mod finding;
pub mod report;
pub mod wire;

pub use error::{Diagnostic, Note, Sink};
pub use finding::{Counts, Edit, Finding, Mark, Measure, Quantity, Requirement, Severity, SourceClass, Suggestion};
