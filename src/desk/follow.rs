//! Following one layout: read, check, show; then draw all sheets and look for suggestions, until its files change again.

use super::hub::News;
use super::room::Room;
use super::watch::Watch;
use crate::base::stop::Stopped;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::Duration;

/// Editors save in several steps: so long nothing may happen before the files are read.
const QUIET: Duration = Duration::from_millis(8);
/// But no longer than so many times.
const MOST_QUIET: usize = 12;
/// The files are looked at so often even if nothing is told: a folder of another machine may tell nothing.
const PATIENCE: Duration = Duration::from_secs(3);

/// Follows a layout for as long as the watch is there.
pub(super) fn follow(room: &Room, watch: &Watch, layout: usize, woken: &Receiver<()>) {
    let mut told = true;
    loop {
        // What came while this was at work is in the next reading.
        if look(room, watch, layout, told) == Err(Stopped) {
            told = true;
            continue;
        }
        told = match woken.recv_timeout(PATIENCE) {
            Ok(()) => true,
            Err(RecvTimeoutError::Timeout) => false,
            Err(RecvTimeoutError::Disconnected) => return,
        };
        let mut left = MOST_QUIET;
        while told && left > 0 && woken.recv_timeout(QUIET).is_ok() {
            left -= 1;
        }
    }
}

/// Reads the layout and shows what came of it; nothing is shown again if nobody has told of a change and its texts are the
/// same.
fn look(room: &Room, watch: &Watch, layout: usize, told: bool) -> Result<(), Stopped> {
    let Some(seat) = room.seats.get(layout) else { return Ok(()) };
    let session = &seat.session;
    session.stop().clear();
    let read = || {
        let world = (seat.layout.open)();
        let compiled = session.read(&*world, &seat.layout.path);
        watch.follow(layout, world.asked_for());
        compiled
    };
    let before = seat.now();
    let mut compiled = read();
    let same = compiled.sources == before.compiled.sources
        && compiled.errors.errors().len() == before.compiled.errors.errors().len();
    if before.revision > 0 && same && !told {
        return Ok(());
    }
    session.check(&mut compiled)?;
    let sight = before.next(compiled);
    let revision = sight.revision;
    seat.show(sight);
    room.hub.tell(layout, revision, News::Checked);
    let now = seat.now();
    if let Some(pictures) = now.pictures.as_ref().filter(|pictures| pictures.revision == revision) {
        pictures.draw(session)?;
        room.hub.tell(layout, revision, News::Drawn);
    }
    let mut compiled = read();
    if compiled.sources == now.compiled.sources && compiled.model.is_some() {
        session.check(&mut compiled)?;
        session.suggest(&mut compiled)?;
        let sight = now.with(compiled);
        if let Some(pictures) = &sight.pictures {
            pictures.draw(session)?;
        }
        seat.show(sight);
        room.hub.tell(layout, revision, News::Suggested);
    }
    Ok(())
}
