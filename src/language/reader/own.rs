//! Words that a file declares as its own.

use crate::model::Word;
use std::marker::PhantomData;
use std::sync::Arc;

/// Most words that a file may declare as its own.
pub(in crate::language) const MOST_OWN: usize = 64;

/// The words of one kind that a file declares.
pub(in crate::language) struct Own<W> {
    /// The key they are declared with.
    pub(super) key: &'static str,
    /// What one is called.
    pub(super) one: &'static str,
    /// What declares them.
    pub(super) file: &'static str,
    pub(super) names: Vec<Arc<str>>,
    /// Some could not be read, so nobody complains about unknown ones.
    pub(super) broken: bool,
    of: PhantomData<W>,
}

impl<W: Word> Own<W> {
    /// Nothing declared yet.
    pub fn new(key: &'static str, one: &'static str, file: &'static str) -> Self {
        Self { key, one, file, names: Vec::new(), broken: false, of: PhantomData }
    }
}
