//! How a command ended.

use std::process::ExitCode;

/// How a command ended; worse is greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Outcome {
    /// Nothing to mend.
    Clean,
    /// A layout has faults.
    Faults,
    /// A layout does not compile, or the command could not do its work.
    Broken,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Clean => Self::SUCCESS,
            Outcome::Faults => Self::from(1),
            Outcome::Broken => Self::from(2),
        }
    }
}
