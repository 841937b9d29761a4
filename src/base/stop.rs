//! A flag by which one thread asks another to end its work.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// The flag; copies are one flag.
#[derive(Debug, Clone, Default)]
pub struct Stop(Arc<AtomicBool>);

/// The work was ended before it was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stopped;

impl Stop {
    /// Asks whoever looks at the flag to end.
    pub fn ask(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Takes the request back, for the next piece of work.
    pub fn clear(&self) {
        self.0.store(false, Ordering::Relaxed);
    }

    /// Goes on unless it was asked to end.
    ///
    /// # Errors
    /// When it was.
    pub fn check(&self) -> Result<(), Stopped> {
        if self.0.load(Ordering::Relaxed) { Err(Stopped) } else { Ok(()) }
    }
}
