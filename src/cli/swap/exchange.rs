//! The folder changed in one step: a complete new one is made beside it, with a second name for each foreign file, and
//! the two exchange their names.
//!
//! The journal holds the number of the new folder. If a build is killed, it tells the next one whether the folder that
//! stands beside is the new one, which goes, or the earlier one, from which foreign files that came in the last moment
//! are taken first.

use super::failed::Failed;
use super::keep::bring;
use super::made::MADE;
use super::place::{Place, foreign, list_text};
use super::work::{Work, entries, is_folder, is_there, remove_tree};
use crate::backends::OutputFile;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;

/// Most foreign files and folders that get a second name; with more of them the files are changed in their place.
const MOST_FOREIGN: usize = 1000;

/// How an exchange ended.
pub(super) enum Exchanged {
    /// The folder is new.
    Done,
    /// This disk or this folder does not allow it; nothing is changed.
    NotHere,
}

/// Makes the new folder and exchanges it.
pub(super) fn exchange(
    work: &dyn Work,
    place: &Place,
    files: &[OutputFile],
    names: &BTreeSet<&str>,
) -> Result<Exchanged, Failed> {
    let there = is_there(&place.folder);
    if !prepare(work, place, there, files, names).map_err(Failed::Before)? {
        return Ok(Exchanged::NotHere);
    }
    if !there {
        work.rename(&place.new_folder(), &place.folder).map_err(Failed::Before)?;
        return work.sync_folder(&place.beside).map_err(Failed::After).map(|()| Exchanged::Done);
    }
    work.go_on().map_err(Failed::Before)?;
    if work.exchange(&place.new_folder(), &place.folder).is_err() {
        recover(work, place).map_err(Failed::Before)?;
        return Ok(Exchanged::NotHere);
    }
    work.sync_folder(&place.beside).and_then(|()| recover(work, place)).map_err(Failed::After)?;
    Ok(Exchanged::Done)
}

/// Makes the new folder, and its journal if there is an earlier folder; false if that can't be done on this disk, and
/// then nothing is left of it.
fn prepare(
    work: &dyn Work,
    place: &Place,
    there: bool,
    files: &[OutputFile],
    names: &BTreeSet<&str>,
) -> io::Result<bool> {
    let new = place.new_folder();
    work.make_folder(&new)?;
    if there && carry_over(work, place, &new).is_err() {
        return remove_tree(work, &new).map(|()| false);
    }
    write_all(work, &new, files, names)?;
    if !there {
        return Ok(true);
    }
    let Some(number) = number(&new) else {
        return remove_tree(work, &new).map(|()| false);
    };
    work.write(&place.journal(), number.as_bytes())?;
    work.sync_folder(&place.beside)?;
    Ok(true)
}

/// Writes files and their list into a folder, down to the disk.
pub(super) fn write_all(work: &dyn Work, into: &Path, files: &[OutputFile], names: &BTreeSet<&str>) -> io::Result<()> {
    for file in files {
        work.go_on()?;
        work.write(&into.join(&file.name), &file.bytes)?;
    }
    work.write(&into.join(MADE), list_text(names).as_bytes())?;
    work.sync_folder(into)
}

/// Gives the foreign files of the folder a second name in the new one.
fn carry_over(work: &dyn Work, place: &Place, new: &Path) -> io::Result<()> {
    let mut left = MOST_FOREIGN;
    let mut waiting = vec![(place.folder.clone(), new.to_owned(), foreign(&place.folder)?)];
    while let Some((from, to, names)) = waiting.pop() {
        for name in names {
            left = left.checked_sub(1).ok_or(io::ErrorKind::FileTooLarge)?;
            let (from, to) = (from.join(&name), to.join(&name));
            if is_folder(&from) {
                work.make_folder(&to)?;
                let inner = entries(&from)?;
                waiting.push((from, to, inner));
            } else {
                work.link(&from, &to)?;
            }
        }
        work.permit(&from, &to)?;
    }
    Ok(())
}

/// Clears away what an exchange, done or not, has left beside the folder.
pub(super) fn recover(work: &dyn Work, place: &Place) -> io::Result<()> {
    let (new, journal, gone) = (place.new_folder(), place.journal(), place.gone());
    remove_tree(work, &gone)?;
    if is_there(&new) {
        let said = fs::read_to_string(&journal).unwrap_or_default();
        let exchanged = is_number(&said) && number(&new).is_some_and(|number| number != said);
        if exchanged {
            bring(work, &new, &place.folder)?;
        }
        work.rename(&new, &gone)?;
    }
    if is_there(&journal) {
        work.remove_file(&journal)?;
    }
    remove_tree(work, &gone)
}

/// The number by which the system knows a folder, whatever its name; a line end shows that it is whole.
#[cfg(unix)]
fn number(folder: &Path) -> Option<String> {
    use std::os::unix::fs::MetadataExt;
    fs::symlink_metadata(folder).ok().map(|data| format!("{}\n", data.ino()))
}

#[cfg(not(unix))]
fn number(_: &Path) -> Option<String> {
    None
}

fn is_number(text: &str) -> bool {
    text.strip_suffix('\n').is_some_and(|digits| !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit()))
}
