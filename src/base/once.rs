//! A value made when it is first asked for, without anybody waiting for anybody.
//!
//! A thread of the pool that waits inside a lock may be handed another task that wants the same lock, and then waits for
//! itself. Here two threads that ask at the same time both make the value, and the first one stays; who wants to spare
//! that asks once before the work is shared out.

use std::sync::OnceLock;

/// The value, or room for it.
#[derive(Debug, Default, Clone)]
pub struct Once<T>(OnceLock<T>);

impl<T> Once<T> {
    /// Not made yet.
    #[must_use]
    pub const fn new() -> Self {
        Self(OnceLock::new())
    }

    /// Whether it is made.
    #[must_use]
    pub fn is_made(&self) -> bool {
        self.0.get().is_some()
    }

    /// The value, made if it is not there yet; `make` gives the same each time.
    pub fn get(&self, make: impl FnOnce() -> T) -> &T {
        match self.0.get() {
            Some(made) => made,
            None => {
                let value = make();
                self.0.get_or_init(|| value)
            }
        }
    }
}
