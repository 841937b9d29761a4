//! Watching the folders of files. A watch on a file is dead once an editor has put another in its place, so folders are
//! watched, and what happens to other files in them is passed over.

use crate::base::lock::{locked, readable, writable};
use crate::base::stop::Stop;
use notify::event::{AccessKind, AccessMode};
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex, RwLock};

/// Who is told when a file of a layout is written.
pub(super) struct Wake {
    /// Ends the work on the text of before.
    pub stop: Stop,
    /// Begins the work on the next one.
    pub begin: Sender<()>,
}

impl Wake {
    fn up(&self) {
        // The beginning first: a request to end that comes too late is taken back by the work that begins.
        let _ = self.begin.send(());
        self.stop.ask();
    }
}

/// The files of one layout, and who is told of them.
struct Followed {
    files: RwLock<BTreeSet<PathBuf>>,
    wake: Wake,
}

/// Watches for all layouts.
pub(super) struct Watch {
    followed: Arc<Vec<Followed>>,
    /// None where the system gives no watch; the files are then looked at from time to time only.
    watcher: Mutex<Option<(RecommendedWatcher, BTreeSet<PathBuf>)>>,
}

impl Watch {
    /// A watch over nothing yet, with one to wake for each layout.
    pub fn new(wakes: Vec<Wake>) -> Self {
        let followed = wakes.into_iter().map(|wake| Followed { files: RwLock::default(), wake });
        let followed = Arc::new(followed.collect::<Vec<_>>());
        let told = Arc::clone(&followed);
        let watcher = notify::recommended_watcher(move |event: notify::Result<Event>| match event {
            Ok(event) if writes(event.kind) => tell(&told, &event.paths),
            Ok(_) => {}
            // Events were lost: anything may have changed.
            Err(_) => told.iter().for_each(|one| one.wake.up()),
        });
        Self { followed, watcher: Mutex::new(watcher.ok().map(|watcher| (watcher, BTreeSet::new()))) }
    }

    /// From now on, a layout hangs on these files.
    pub fn follow(&self, layout: usize, files: Vec<PathBuf>) {
        let files: BTreeSet<PathBuf> = files.iter().map(|file| settled(file)).collect();
        if let Some((watcher, known)) = &mut *locked(&self.watcher) {
            for folder in files.iter().filter_map(|file| file.parent()) {
                if !known.contains(folder) && watcher.watch(folder, RecursiveMode::NonRecursive).is_ok() {
                    known.insert(folder.to_owned());
                }
            }
        }
        if let Some(one) = self.followed.get(layout) {
            *writable(&one.files) = files;
        }
    }
}

/// The path without links and dots, as events have it; of a file that is not there, its folder's.
fn settled(file: &Path) -> PathBuf {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let whole = || Some(std::fs::canonicalize(folder).ok()?.join(file.file_name()?));
    std::fs::canonicalize(file).ok().or_else(whole).unwrap_or_else(|| file.to_owned())
}

/// Whether a file may be another one after an event; that it was read is an event, too.
fn writes(kind: EventKind) -> bool {
    match kind {
        EventKind::Access(AccessKind::Close(AccessMode::Write)) => true,
        EventKind::Access(_) => false,
        _ => true,
    }
}

fn tell(followed: &[Followed], paths: &[PathBuf]) {
    for one in followed {
        let files = readable(&one.files);
        if paths.iter().any(|path| files.contains(path) || files.iter().any(|file| file.parent() == Some(path))) {
            one.wake.up();
        }
    }
}
