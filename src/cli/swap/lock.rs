//! One writer at a time: a locked file beside the folder. The system frees it when its process ends in any way.

use super::work::Work;
use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

/// Time between two looks at a lock that another build holds.
const STEP: Duration = Duration::from_millis(25);

/// A held lock.
#[derive(Debug)]
pub(super) struct Lock {
    path: PathBuf,
    _file: File,
}

/// Why a lock was not had.
#[derive(Debug)]
pub(super) enum NotHad {
    /// Another build holds it.
    Busy,
    /// The disk does not let itself be locked, or not written.
    Failed(io::Error),
}

impl Lock {
    /// Takes the lock; looks again up to so many times while another build holds it.
    pub fn take(work: &dyn Work, path: &Path, looks: u32) -> Result<Self, NotHad> {
        let mut left = looks;
        loop {
            let file = work.open(path).map_err(NotHad::Failed)?;
            match file.try_lock() {
                Ok(()) if is_still(&file, path) => return Ok(Self { path: path.to_owned(), _file: file }),
                // The build before has removed the file since it was opened.
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => {}
                Err(TryLockError::Error(error)) => return Err(NotHad::Failed(error)),
            }
            if left == 0 {
                return Err(NotHad::Busy);
            }
            left -= 1;
            sleep(STEP);
        }
    }

    /// Gives the lock up. Its file goes where it can be told whether another build has opened it meanwhile.
    pub fn release(self, work: &dyn Work) {
        if cfg!(unix) {
            // A file that stays does no harm: it is not locked any more.
            let _ = work.remove_file(&self.path);
        }
    }
}

/// Whether the open file still has its name.
#[cfg(unix)]
fn is_still(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let number = |data: fs::Metadata| (data.dev(), data.ino());
    let named = fs::symlink_metadata(path).map(number);
    file.metadata().map(number).is_ok_and(|open| named.is_ok_and(|named| named == open))
}

#[cfg(not(unix))]
fn is_still(_: &File, path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}
