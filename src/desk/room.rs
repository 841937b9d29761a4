//! What the threads of a desk share: each layout with its session and what is seen of it now.

use super::hub::Hub;
use super::sight::Sight;
use super::{Layout, Setup};
use crate::base::lock::{readable, writable};
use crate::compile::Session;
use std::sync::{Arc, RwLock};

/// One layout.
pub(super) struct Seat {
    pub layout: Layout,
    pub session: Session,
    now: RwLock<Arc<Sight>>,
}

impl Seat {
    /// What is seen now.
    pub fn now(&self) -> Arc<Sight> {
        Arc::clone(&readable(&self.now))
    }

    /// Puts a new sight in the place of the last one.
    pub fn show(&self, sight: Sight) {
        *writable(&self.now) = Arc::new(sight);
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
