//! A table of results kept by the content of what they were made from: `(stage, key) -> result`.
//!
//! Nobody waits: threads that ask for the same result at the same time may both make it, and the first one stays (see
//! `Once` for the reason). What nobody has asked for in some rounds is dropped. A result is the same whether it is found or made, so the table changes how long a compile takes and nothing
//! else; [`Memo::proving`] makes every result again and compares.

use super::content::Key;
use super::lock::locked;
use std::any::Any;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard};

/// Rounds after which a result that nobody asks for is dropped.
const ROUNDS: u64 = 8;

type Made = Arc<dyn Any + Send + Sync>;
type Entries = HashMap<(&'static str, Key), (u64, Made)>;

/// The table.
#[derive(Default)]
pub struct Memo {
    entries: Mutex<(u64, Entries)>,
    proving: bool,
}

impl Memo {
    /// A table that finds nothing: it makes each result again and stops the program if one differs from what it kept. For
    /// tests.
    #[must_use]
    pub fn proving() -> Self {
        Self { proving: true, ..Self::default() }
    }

    /// The result of a stage for a key, made if it is not there.
    pub fn get<T: PartialEq + Send + Sync + 'static>(
        &self,
        stage: &'static str,
        key: Key,
        make: impl Fn() -> T,
    ) -> Arc<T> {
        let made = self.find(stage, key, || Some(make()));
        made.unwrap_or_else(|| Arc::new(make()))
    }

    /// The result of a stage that may give none; none is not kept.
    pub fn find<T: PartialEq + Send + Sync + 'static>(
        &self,
        stage: &'static str,
        key: Key,
        mut make: impl FnMut() -> Option<T>,
    ) -> Option<Arc<T>> {
        if let Some(known) = self.known::<T>(stage, key) {
            let mut differs = || make().is_none_or(|made| *known != made);
            assert!(!self.proving || !differs(), "`{stage}` gave another result for the same content");
            return Some(known);
        }
        let made = Arc::new(make()?);
        let (round, entries) = &mut *self.lock();
        entries.insert((stage, key), (*round, Arc::<T>::clone(&made)));
        Some(made)
    }

    fn known<T: Send + Sync + 'static>(&self, stage: &'static str, key: Key) -> Option<Arc<T>> {
        let (round, entries) = &mut *self.lock();
        let (last, made) = entries.get_mut(&(stage, key))?;
        *last = *round;
        Arc::clone(made).downcast().ok()
    }

    /// Begins a round: what was not asked for in the last eight is dropped.
    pub fn next_round(&self) {
        let (round, entries) = &mut *self.lock();
        *round += 1;
        entries.retain(|_, (last, _)| *last + ROUNDS > *round);
    }

    /// How many results are kept.
    #[must_use]
    pub fn len(&self) -> usize {
        self.lock().1.len()
    }

    /// Whether none is kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    fn lock(&self) -> MutexGuard<'_, (u64, Entries)> {
        locked(&self.entries)
    }
}

impl std::fmt::Debug for Memo {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Memo of {} results", self.len())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn a_result_is_made_once_and_dropped_by_age() {
        let (memo, made) = (Memo::default(), Cell::new(0));
        let get = |of: f64| {
            memo.get("double", Key::of(&of), || {
                made.set(made.get() + 1);
                2.0 * of
            })
        };
        assert_eq!((*get(1.0), *get(1.0), *get(2.0)), (2.0, 2.0, 4.0));
        assert_eq!(made.get(), 2);
        (0..ROUNDS).for_each(|_| {
            memo.next_round();
            get(2.0);
        });
        assert_eq!((memo.len(), made.get()), (1, 2));
    }

    #[test]
    #[should_panic(expected = "another result")]
    fn proving_finds_a_stage_that_reads_more_than_its_key() {
        let (memo, count) = (Memo::proving(), Cell::new(0));
        memo.get("count", Key::of("same"), || count.replace(count.get() + 1));
        memo.get("count", Key::of("same"), || count.replace(count.get() + 1));
    }
}
