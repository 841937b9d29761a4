//! Where the outputs of one layout go, the names used beside and in their folder, and what in it was made by a build.

use super::made::{MADE, is_plain};
use super::work::{entries, is_folder, is_there};
use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Begins the names that are used in the folder itself.
const INSIDE: &str = ".boxwright-";
/// Ends the name of a lock.
const LOCK: &str = ".boxwright-lock";

/// A folder of outputs with the names that a swap uses.
#[derive(Debug, Clone)]
pub(super) struct Place {
    /// The folder, links followed.
    pub folder: PathBuf,
    /// The folder it stands in.
    pub beside: PathBuf,
    name: OsString,
}

impl Place {
    /// The place of a folder, whose parent is there.
    ///
    /// # Errors
    /// If the folder is a link that leads nowhere, or has no parent.
    pub fn new(folder: &Path) -> io::Result<Self> {
        let folder = if is_there(folder) { fs::canonicalize(folder)? } else { folder.to_owned() };
        let (Some(beside), Some(name)) = (folder.parent(), folder.file_name()) else {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "it is no folder in a folder"));
        };
        let beside = if beside.as_os_str().is_empty() { Path::new(".") } else { beside }.to_owned();
        Ok(Self { name: name.to_owned(), beside, folder })
    }

    /// Places beside this folder whose locks a build has left.
    pub fn locked_beside(&self) -> Vec<Self> {
        let other = |name: OsString| {
            let name = name.to_str()?.strip_prefix('.')?.strip_suffix(LOCK)?.to_owned();
            is_plain(&name).then_some(())?;
            Some(Self { folder: self.beside.join(&name), beside: self.beside.clone(), name: name.into() })
        };
        let others = entries(&self.beside).unwrap_or_default().into_iter().filter_map(other);
        others.filter(|other| other.name != self.name).collect()
    }

    fn beside(&self, ending: &str) -> PathBuf {
        let mut name = OsString::from(".");
        name.push(&self.name);
        name.push(ending);
        self.beside.join(name)
    }

    /// The lock's file.
    pub fn lock(&self) -> PathBuf {
        self.beside(LOCK)
    }

    /// The new folder while it is made; after the exchange the earlier one.
    pub fn new_folder(&self) -> PathBuf {
        self.beside(".boxwright-new")
    }

    /// Says which folder the new one is, from when it is complete until its exchange is.
    pub fn journal(&self) -> PathBuf {
        self.beside(".boxwright-journal")
    }

    /// The earlier folder once nothing in it is wanted.
    pub fn gone(&self) -> PathBuf {
        self.beside(".boxwright-gone")
    }

    /// New files inside the folder while they are written.
    pub fn coming(&self) -> PathBuf {
        self.folder.join(format!("{INSIDE}coming"))
    }

    /// New files inside the folder when all of them are written.
    pub fn ready(&self) -> PathBuf {
        self.folder.join(format!("{INSIDE}ready"))
    }

    /// Earlier files inside the folder that were moved out of the way.
    pub fn leaving(&self) -> PathBuf {
        self.folder.join(format!("{INSIDE}leaving"))
    }
}

/// The list of what was made, as a build writes it.
pub(super) fn list_text(names: &BTreeSet<&str>) -> String {
    names.iter().map(|name| format!("{name}\n")).collect()
}

/// Names that a build has made in a folder, there or not.
pub(super) fn listed(folder: &Path) -> BTreeSet<String> {
    let list = fs::read_to_string(folder.join(MADE)).unwrap_or_default();
    list.lines().filter(|name| is_plain(name)).map(str::to_owned).collect()
}

/// Names in a folder that no build has made.
pub(super) fn foreign(folder: &Path) -> io::Result<Vec<OsString>> {
    let made = listed(folder);
    let ours = |name: &OsString| {
        let shown = name.to_str().unwrap_or("");
        let wrote = shown == MADE || made.contains(shown);
        shown.starts_with(INSIDE) || wrote && !is_folder(&folder.join(name))
    };
    Ok(entries(folder)?.into_iter().filter(|name| !ours(name)).collect())
}
