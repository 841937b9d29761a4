//! What the tool tells a person: errors that stop a compile, and findings of checks.

mod error;
mod finding;
mod limits;
pub mod report;
mod suggestion;
pub mod wire;
mod worked;

pub use error::{Diagnostic, Note, Sink};
pub use finding::{Counts, Finding, Mark, Measure, Quantity, Requirement, Severity, SourceClass};
pub use limits::{Limit, Limits, Ran};
pub use suggestion::{Edit, Suggestion, edited};
pub use worked::{Step, Worked};
