//! The list of what builds have made in a folder.

use std::path::{Component, Path};

/// Lists the files that an earlier build has made, so that only those are ever removed.
pub(super) const MADE: &str = ".made-by-boxwright";

/// Whether a name stays inside a folder and is not hidden.
pub(super) fn is_plain(name: &str) -> bool {
    let mut parts = Path::new(name).components();
    matches!((parts.next(), parts.next()), (Some(Component::Normal(_)), None))
        && !name.starts_with('.')
        && !name.contains(['/', '\\', '\n'])
}
