//! The pages that listen, and what they are told.

use crate::base::lock::locked;
use std::sync::Mutex;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};

/// The most pages that listen at a time.
const MOST_LISTENERS: usize = 32;
/// News that wait for a page that does not take them; one that has missed some asks for everything again.
const MOST_WAITING: usize = 64;

/// What has come of a layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum News {
    /// Findings, or errors, of another text.
    Checked,
    /// All sheets of it.
    Drawn,
    /// Suggestions for its findings.
    Suggested,
}

impl News {
    fn word(self) -> &'static str {
        match self {
            Self::Checked => "checked",
            Self::Drawn => "drawn",
            Self::Suggested => "suggested",
        }
    }
}

/// The listeners.
#[derive(Default)]
pub(super) struct Hub(Mutex<Vec<SyncSender<String>>>);

impl Hub {
    /// A new listener; `None` when there are too many.
    pub fn listen(&self) -> Option<Receiver<String>> {
        let mut all = locked(&self.0);
        if all.len() >= MOST_LISTENERS {
            return None;
        }
        let (sender, receiver) = sync_channel(MOST_WAITING);
        all.push(sender);
        Some(receiver)
    }

    /// Tells every listener; those that have gone, or do not listen, are let go.
    pub fn tell(&self, layout: usize, revision: u64, news: News) {
        let line = format!("{{\"layout\":{layout},\"revision\":{revision},\"what\":\"{}\"}}", news.word());
        locked(&self.0).retain(|one| one.try_send(line.clone()).is_ok());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn listeners_hear_everything_and_leave() {
        let hub = Hub::default();
        let (one, other) = (hub.listen().unwrap(), hub.listen().unwrap());
        hub.tell(2, 7, News::Checked);
        drop(other);
        hub.tell(2, 7, News::Drawn);
        let heard: Vec<String> = one.try_iter().collect();
        assert_eq!(heard[0], r#"{"layout":2,"revision":7,"what":"checked"}"#);
        assert_eq!((heard.len(), hub.0.lock().unwrap().len()), (2, 1));
    }

    #[test]
    fn there_is_an_end_to_listeners_and_to_what_waits() {
        let hub = Hub::default();
        let all: Vec<_> = (0..MOST_LISTENERS).map(|_| hub.listen().unwrap()).collect();
        assert!(hub.listen().is_none());
        (0..MOST_WAITING + 1).for_each(|at| hub.tell(0, at as u64, News::Drawn));
        assert_eq!(all[0].try_iter().count(), MOST_WAITING);
        assert!(hub.listen().is_some(), "those that did not take their news are gone");
    }
}
