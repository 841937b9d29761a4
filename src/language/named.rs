//! Entries under names.

use crate::source::Spanned;
use indexmap::IndexMap;

/// Named entries in file order.
pub type Named<T> = IndexMap<String, Spanned<T>>;
