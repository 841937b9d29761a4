//! What the threads of a desk share: each layout with its session and what is seen of it now.

use super::hub::Hub;
use super::sight::Sight;
use super::{Layout, Setup};
use crate::compile::Session;
use std::sync::{Arc, PoisonError, RwLock};

/// One layout.
pub(super) struct Seat {
    pub layout: Layout,
    pub session: Session,
    now: RwLock<Arc<Sight>>,
}

impl Seat {
    /// What is seen now.
    pub fn now(&self) -> Arc<Sight> {
        Arc::clone(&self.now.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Puts a new sight in the place of the last one.
    pub fn show(&self, sight: Sight) {
        *self.now.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(sight);
    }
}

/// All layouts of a desk, and the pages that listen.
pub(super) struct Room {
    pub seats: Vec<Seat>,
    pub hub: Hub,
}

impl Room {
    /// A room in which nothing is seen yet.
    pub fn new(setup: Setup) -> Self {
        let Setup { layouts, registry, options, .. } = setup;
        let seat = |layout| {
            let session = Session::new(registry.clone(), options);
            Seat { layout, session, now: RwLock::default() }
        };
        Self { seats: layouts.into_iter().map(seat).collect(), hub: Hub::default() }
    }
}
