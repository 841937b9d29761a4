//! Puts a set of files into a folder so that either all of them arrive or the folder stays as it was, even if the process
//! is killed on the way.
//!
//! One build writes a folder at a time (`lock`). Where the system can, a whole new folder is made and exchanged in one
//! step (`exchange`); elsewhere the files are moved one by one, and what was begun is finished by the next build
//! (`in_place`).

mod exchange;
mod failed;
mod in_place;
mod keep;
mod lock;
mod made;
mod place;
#[cfg(test)]
mod tests;
mod work;

use super::signals;
use crate::backends::OutputFile;
use crate::source::{folded, refused_name};
use exchange::{Exchanged, exchange};
use failed::Failed;
use in_place::replace;
use lock::{Lock, NotHad};
use made::is_plain;
use place::{Place, listed};
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::Path;
use work::{Real, Work, entries, is_folder, is_there};

/// How often a folder is looked at that another build writes into: some ten seconds.
const LOOKS: u32 = 400;

/// What a swap has done.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Swapped {
    /// Files put there.
    pub made: usize,
    /// Files of an earlier build taken away.
    pub removed: usize,
}

/// Puts files into `folder`. Files of an earlier build that are not among them are removed, all others stay.
///
/// # Errors
/// A sentence for the user; the folder is then as it was, if the sentence does not say otherwise.
pub(super) fn swap(folder: &Path, files: &[OutputFile]) -> Result<Swapped, String> {
    let _hold = signals::hold();
    swap_with(&Real, folder, files, LOOKS)
}

fn swap_with(work: &dyn Work, folder: &Path, files: &[OutputFile], looks: u32) -> Result<Swapped, String> {
    let names = plain_names(files)?;
    let before = |error| sentence(folder, &Failed::Before(error));
    let beside = folder.parent().filter(|beside| !beside.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if !is_there(beside) {
        work.make_folders(beside).map_err(before)?;
    }
    refuse_alike(beside, folder)?;
    let place = Place::new(folder).map_err(before)?;
    let lock = Lock::take(work, &place.lock(), looks).map_err(|why| match why {
        NotHad::Busy => format!(
            "another build is writing into `{}`; wait until it has ended, or choose another `--out`",
            folder.display()
        ),
        NotHad::Failed(error) => before(error),
    })?;
    let swapped = locked(work, &place, files, &names, folder);
    lock.release(work);
    clear_beside(work, &place);
    swapped
}

/// The swap itself, once no other build can come between.
fn locked(
    work: &dyn Work,
    place: &Place,
    files: &[OutputFile],
    names: &BTreeSet<&str>,
    folder: &Path,
) -> Result<Swapped, String> {
    let told = |failed: Failed| sentence(folder, &failed);
    recover(work, place).map_err(Failed::Left).map_err(told)?;
    let earlier = listed(&place.folder);
    refuse_foreign(place, names, &earlier)?;
    let stale = earlier.iter().filter(|name| !names.contains(name.as_str()) && is_there(&place.folder.join(name)));
    let swapped = Swapped { made: names.len(), removed: stale.count() };
    let done = exchange(work, place, files, names).and_then(|exchanged| match exchanged {
        Exchanged::Done => Ok(()),
        Exchanged::NotHere => replace(work, place, files, names),
    });
    if let Err(failed) = done {
        if matches!(failed, Failed::Before(_)) {
            // What is left is cleared away by the next build.
            let _ = recover(work, place);
        }
        return Err(told(failed));
    }
    Ok(swapped)
}

/// Ends what a build that was killed has begun in a folder.
fn recover(work: &dyn Work, place: &Place) -> io::Result<()> {
    exchange::recover(work, place)?;
    in_place::recover(work, place)
}

/// Clears away what killed builds of other layouts have left; what can't be cleared away is left to their next build.
fn clear_beside(work: &dyn Work, place: &Place) {
    for other in place.locked_beside() {
        if let Ok(lock) = Lock::take(work, &other.lock(), 0) {
            let _ = recover(work, &other);
            lock.release(work);
        }
    }
}

fn sentence(folder: &Path, failed: &Failed) -> String {
    let folder = folder.display();
    match failed {
        Failed::Left(error) => {
            format!("`{folder}` can't be written: what a stopped build has left there can't be cleared away: {error}")
        }
        Failed::Before(error) => {
            format!("`{folder}` can't be written: {error}; its earlier files are as they were")
        }
        Failed::Halfway(error) => {
            format!("`{folder}` is half written: {error}; mend that and build again, which finishes it")
        }
        Failed::After(error) => {
            format!("`{folder}` has the new files, but what was there can't be cleared away: {error}; build again")
        }
    }
}

/// Refuses a folder beside one whose name differs in case only.
fn refuse_alike(beside: &Path, folder: &Path) -> Result<(), String> {
    let Some(name) = folder.file_name().and_then(|name| name.to_str()) else { return Ok(()) };
    let names = entries(beside).unwrap_or_default();
    let alike =
        names.iter().filter_map(|other| other.to_str()).find(|other| *other != name && folded(other) == folded(name));
    alike.map_or(Ok(()), |other| {
        let (folder, other) = (folder.display(), beside.join(other));
        let other = other.display();
        Err(format!(
            "`{folder}` and `{other}`, which is there, would be one folder where case is ignored; \
             remove or rename that, or choose another `--out`"
        ))
    })
}

/// Refuses to write over what no earlier build has made.
fn refuse_foreign(place: &Place, names: &BTreeSet<&str>, earlier: &BTreeSet<String>) -> Result<(), String> {
    for name in names {
        let path = place.folder.join(name);
        let shown = path.display();
        if is_folder(&path) {
            return Err(format!("a folder named `{shown}` is in the way; move it away or choose another `--out`"));
        }
        if is_there(&path) && !earlier.contains(*name) {
            return Err(format!("`{shown}` is there and no build has made it; move it away or choose another `--out`"));
        }
    }
    Ok(())
}

fn plain_names(files: &[OutputFile]) -> Result<BTreeSet<&str>, String> {
    let (mut names, mut alike) = (BTreeSet::new(), BTreeMap::new());
    for name in files.iter().map(|file| file.name.as_str()) {
        if !is_plain(name) {
            return Err(format!("an output is named `{name}`, which is no plain file name; nothing was written"));
        }
        if let Some(why) = refused_name(name) {
            return Err(format!("an output would be named `{name}`: {why}; nothing was written"));
        }
        match alike.insert(folded(name), name) {
            None => {}
            Some(other) if other == name => {
                return Err(format!("two outputs are named `{name}`; nothing was written"));
            }
            Some(other) => {
                return Err(format!(
                    "outputs named `{other}` and `{name}` would be one file where case is ignored; \
                     give what they are named after names that differ in more; nothing was written"
                ));
            }
        }
        names.insert(name);
    }
    Ok(names)
}
