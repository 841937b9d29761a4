//! SIGINT and SIGTERM: obeyed at once, but for the moment in which outputs are put in their place.

use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::flag::{register_conditional_default, register_usize};
use signal_hook::low_level::emulate_default_handler;
use std::io;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, OnceLock};

struct Wishes {
    /// Signals are obeyed at once.
    at_once: Arc<AtomicBool>,
    /// The signal that waits, 0 for none.
    waiting: Arc<AtomicUsize>,
}

static WISHES: OnceLock<Option<Wishes>> = OnceLock::new();

fn wishes() -> Option<&'static Wishes> {
    WISHES.get_or_init(|| listen().ok()).as_ref()
}

fn listen() -> io::Result<Wishes> {
    let wishes = Wishes { at_once: Arc::new(AtomicBool::new(true)), waiting: Arc::new(AtomicUsize::new(0)) };
    for (signal, number) in [(SIGINT, SIGINT.unsigned_abs()), (SIGTERM, SIGTERM.unsigned_abs())] {
        register_conditional_default(signal, Arc::clone(&wishes.at_once))?;
        register_usize(signal, Arc::clone(&wishes.waiting), number as usize)?;
    }
    Ok(wishes)
}

/// Until it is dropped, a signal waits. Then the process ends as the signal wants.
#[derive(Debug)]
pub(super) struct Hold;

/// Lets signals wait.
pub(super) fn hold() -> Hold {
    if let Some(wishes) = wishes() {
        wishes.at_once.store(false, Ordering::SeqCst);
    }
    Hold
}

/// Whether a signal waits.
pub(super) fn asked() -> bool {
    wishes().is_some_and(|wishes| wishes.waiting.load(Ordering::SeqCst) != 0)
}

impl Drop for Hold {
    fn drop(&mut self) {
        let Some(wishes) = wishes() else { return };
        wishes.at_once.store(true, Ordering::SeqCst);
        let waiting = wishes.waiting.swap(0, Ordering::SeqCst);
        if let Some(signal) = [SIGINT, SIGTERM].into_iter().find(|signal| signal.unsigned_abs() as usize == waiting) {
            let _ = emulate_default_handler(signal);
        }
    }
}
