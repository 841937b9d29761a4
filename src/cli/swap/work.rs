//! Everything that changes the disk during a swap, one call for each step, so that a test can stop at every one of them.

use crate::cli::signals;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;

/// The steps that change the disk.
pub(super) trait Work {
    /// Fails when the user has asked to stop.
    fn go_on(&self) -> io::Result<()>;
    /// Opens a lock's file, which is made if it is not there.
    fn open(&self, path: &Path) -> io::Result<File>;
    /// Makes a folder and those above it.
    fn make_folders(&self, path: &Path) -> io::Result<()>;
    /// Makes a folder that is not there.
    fn make_folder(&self, path: &Path) -> io::Result<()>;
    /// Writes a file that is not there, down to the disk.
    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Gives a file a second name.
    fn link(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Gives `to` the permissions of `from`.
    fn permit(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Renames, in place of a file that has the name.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Exchanges the names of two folders in one step.
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()>;
    /// Removes a file.
    fn remove_file(&self, path: &Path) -> io::Result<()>;
    /// Removes an empty folder.
    fn remove_folder(&self, path: &Path) -> io::Result<()>;
    /// Waits until the names in a folder are on the disk.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
}

/// The disk.
#[derive(Debug, Clone, Copy)]
pub(super) struct Real;

impl Work for Real {
    fn go_on(&self) -> io::Result<()> {
        if signals::asked() { Err(io::Error::other("the build was told to stop")) } else { Ok(()) }
    }

    fn open(&self, path: &Path) -> io::Result<File> {
        OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)
    }

    fn make_folders(&self, path: &Path) -> io::Result<()> {
        fs::create_dir_all(path)
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        fs::create_dir(path)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = File::create_new(path)?;
        file.write_all(bytes)?;
        file.sync_all()
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::hard_link(from, to)
    }

    fn permit(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::set_permissions(to, fs::metadata(from)?.permissions())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    #[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        Ok(renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)?)
    }

    #[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
    fn exchange(&self, _: &Path, _: &Path) -> io::Result<()> {
        Err(io::ErrorKind::Unsupported.into())
    }

    fn remove_file(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        fs::remove_dir(path)
    }

    #[cfg(unix)]
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        match File::open(path)?.sync_all() {
            // Some file systems have nothing to wait for and say so.
            Err(error) if matches!(error.kind(), io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported) => Ok(()),
            result => result,
        }
    }

    #[cfg(not(unix))]
    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        Ok(())
    }
}

/// Whether a name is taken, by a link that leads nowhere too.
pub(super) fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Whether a name is that of a folder itself.
pub(super) fn is_folder(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|data| data.is_dir())
}

/// Names in a folder, sorted; none if it is not there.
pub(super) fn entries(folder: &Path) -> io::Result<Vec<std::ffi::OsString>> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries?,
    };
    let mut names = entries.map(|entry| entry.map(|entry| entry.file_name())).collect::<io::Result<Vec<_>>>()?;
    names.sort();
    Ok(names)
}

/// Removes a folder and what is in it, if it is there; the list of what was made goes last, so that a half removed
/// folder still says what in it was made.
pub(super) fn remove_tree(work: &dyn Work, folder: &Path) -> io::Result<()> {
    if !is_there(folder) {
        return Ok(());
    }
    let mut names = entries(folder)?;
    names.sort_by_key(|name| name == super::made::MADE);
    for name in names {
        let path = folder.join(name);
        if is_folder(&path) { remove_tree(work, &path)? } else { work.remove_file(&path)? }
    }
    work.remove_folder(folder)
}
