//! Foreign files brought from one folder to another, none written over.

use super::place::foreign;
use super::work::{Work, entries, is_folder, is_there};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Most names that are tried for a file whose own name is taken.
const MOST_NAMES: u32 = 1000;

/// Brings foreign files of `from` that `to` lacks. Of two different files of one name the later one gets the name, the
/// other stands beside it.
pub(super) fn bring(work: &dyn Work, from: &Path, to: &Path) -> io::Result<()> {
    let mut waiting = vec![(from.to_owned(), to.to_owned(), foreign(from)?)];
    while let Some((from, to, names)) = waiting.pop() {
        for name in names {
            let (from, to) = (from.join(&name), to.join(&name));
            if !is_there(&to) {
                work.rename(&from, &to)?;
            } else if is_folder(&from) && is_folder(&to) {
                let inner = entries(&from)?;
                waiting.push((from, to, inner));
            } else if !is_same(&from, &to)? {
                if is_later(&from, &to) && !is_folder(&to) {
                    set_aside(work, &to)?;
                    work.rename(&from, &to)?;
                } else {
                    work.rename(&from, &free_name(&to)?)?;
                }
            }
        }
    }
    Ok(())
}

/// Gives what has a name another one beside it.
pub(super) fn set_aside(work: &dyn Work, path: &Path) -> io::Result<()> {
    work.rename(path, &free_name(path)?)
}

/// `notes.txt` becomes `notes.txt.kept-1`.
fn free_name(path: &Path) -> io::Result<PathBuf> {
    let name = |number| {
        let mut name = path.as_os_str().to_owned();
        name.push(format!(".kept-{number}"));
        PathBuf::from(name)
    };
    (1..=MOST_NAMES).map(name).find(|path| !is_there(path)).ok_or_else(|| io::ErrorKind::AlreadyExists.into())
}

fn is_later(one: &Path, other: &Path) -> bool {
    let time = |path: &Path| fs::symlink_metadata(path).and_then(|data| data.modified()).ok();
    time(one) > time(other)
}

/// Whether two names have one file, or two that do not differ.
fn is_same(one: &Path, other: &Path) -> io::Result<bool> {
    let (first, second) = (fs::symlink_metadata(one)?, fs::symlink_metadata(other)?);
    if is_one(&first, &second) {
        return Ok(true);
    }
    if first.file_type() != second.file_type() || first.len() != second.len() {
        return Ok(false);
    }
    if first.is_symlink() {
        return Ok(fs::read_link(one)? == fs::read_link(other)?);
    }
    Ok(first.is_file() && fs::read(one)? == fs::read(other)?)
}

#[cfg(unix)]
fn is_one(one: &fs::Metadata, other: &fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    one.dev() == other.dev() && one.ino() == other.ino()
}

#[cfg(not(unix))]
fn is_one(_: &fs::Metadata, _: &fs::Metadata) -> bool {
    false
}
