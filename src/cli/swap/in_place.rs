//! The files changed one by one inside the folder, where folders can't exchange their names.
//!
//! New files are written into a folder within; when all of them are there it gets another name, which is the journal:
//! from then on a build that was killed is finished by the next one. An error while they are moved takes all moves back.

use super::exchange::write_all;
use super::failed::Failed;
use super::keep::set_aside;
use super::made::MADE;
use super::place::{Place, listed};
use super::work::{Work, is_there, remove_tree};
use crate::backends::OutputFile;
use std::collections::BTreeSet;
use std::io;
use std::path::PathBuf;

/// Writes new files within the folder and moves them to their names.
pub(super) fn replace(
    work: &dyn Work,
    place: &Place,
    files: &[OutputFile],
    names: &BTreeSet<&str>,
) -> Result<(), Failed> {
    prepare(work, place, files, names).map_err(Failed::Before)?;
    let mut moves = Moves { work, done: Vec::new() };
    if let Err(error) = arrive(&mut moves, place) {
        let back = moves.undo().and_then(|()| work.rename(&place.ready(), &place.coming()));
        return Err(if back.is_ok() { Failed::Before(error) } else { Failed::Halfway(error) });
    }
    tidy_up(work, place).map_err(Failed::After)
}

fn prepare(work: &dyn Work, place: &Place, files: &[OutputFile], names: &BTreeSet<&str>) -> io::Result<()> {
    let coming = place.coming();
    work.make_folders(&coming)?;
    write_all(work, &coming, files, names)?;
    work.sync_folder(&place.folder)?;
    work.go_on()?;
    work.rename(&coming, &place.ready())
}

/// Finishes what a killed build has begun, and clears away what it has left.
pub(super) fn recover(work: &dyn Work, place: &Place) -> io::Result<()> {
    remove_tree(work, &place.coming())?;
    if is_there(&place.ready()) {
        arrive(&mut Moves { work, done: Vec::new() }, place)?;
    }
    tidy_up(work, place)
}

/// Moves what is ready to its name and earlier files away, the list last; may begin anywhere in the middle.
fn arrive(moves: &mut Moves<'_>, place: &Place) -> io::Result<()> {
    let (ready, leaving) = (place.ready(), place.leaving());
    if !is_there(&ready.join(MADE)) {
        return Ok(());
    }
    moves.work.sync_folder(&place.folder)?;
    if !is_there(&leaving) {
        moves.work.make_folder(&leaving)?;
    }
    let (new, old) = (listed(&ready), listed(&place.folder));
    for name in old.union(&new).map(String::as_str).chain([MADE]) {
        let (from, to, away) = (ready.join(name), place.folder.join(name), leaving.join(name));
        let comes = is_there(&from);
        let goes = comes || !new.contains(name);
        if goes && is_there(&to) {
            if (name == MADE || old.contains(name)) && !is_there(&away) {
                moves.go(to.clone(), away)?;
            } else {
                set_aside(moves.work, &to)?;
            }
        }
        if comes {
            moves.go(from, to)?;
        }
    }
    moves.work.sync_folder(&place.folder)
}

fn tidy_up(work: &dyn Work, place: &Place) -> io::Result<()> {
    remove_tree(work, &place.ready())?;
    remove_tree(work, &place.leaving())
}

/// Renames that can be taken back.
struct Moves<'a> {
    work: &'a dyn Work,
    done: Vec<(PathBuf, PathBuf)>,
}

impl Moves<'_> {
    fn go(&mut self, from: PathBuf, to: PathBuf) -> io::Result<()> {
        self.work.rename(&from, &to)?;
        self.done.push((from, to));
        Ok(())
    }

    fn undo(&mut self) -> io::Result<()> {
        self.done.drain(..).rev().try_for_each(|(from, to)| self.work.rename(&to, &from))
    }
}
