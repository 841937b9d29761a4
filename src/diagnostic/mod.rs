//! What the tool tells a person: errors that stop a compile, and findings of checks.

mod error;
mod finding;
mod held;
mod key;
mod limits;
pub mod report;
mod requirement;
mod suggestion;
pub mod wire;
mod worked;

pub use error::{Diagnostic, Note, Sink};
pub use finding::{Argument, Counts, Finding, Mark, Severity, UNUSED, Value};
pub use held::Held;
pub use key::{About, Key, Subject};
pub use limits::{Limit, Limits, Ran};
pub use requirement::{Bound, Measure, Quantity, Requirement, SourceClass};
pub use suggestion::{Edit, Suggestion, edited};
pub use worked::{Step, Worked};
