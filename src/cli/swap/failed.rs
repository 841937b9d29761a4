//! How far a swap came that failed.

use std::io;

/// How far a swap came that failed.
#[derive(Debug)]
pub(super) enum Failed {
    /// What a killed build has left can't be finished or cleared away.
    Left(io::Error),
    /// Nothing is changed.
    Before(io::Error),
    /// Some files are new.
    Halfway(io::Error),
    /// All files are new, but something is left that should not be there.
    After(io::Error),
}
