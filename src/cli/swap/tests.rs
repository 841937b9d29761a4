//! Tests of the swap, among them a disk that dies, or fails once, at every single step.

use super::made::MADE;
use super::*;
use std::cell::{Cell, RefCell};
use std::fs::{self, File};

fn file(name: &str, text: &str) -> OutputFile {
    OutputFile { name: name.to_owned(), bytes: text.as_bytes().to_vec() }
}

/// Files in a folder with their texts; folders within have a `/` at their end.
fn texts(folder: &Path) -> Vec<(String, String)> {
    let names = entries(folder).unwrap().into_iter().map(|name| name.into_string().unwrap());
    let text = |name: &String| fs::read_to_string(folder.join(name)).unwrap_or_default();
    let dash = |name: &str| if is_folder(&folder.join(name)) { "/" } else { "" };
    names.filter(|name| name != MADE).map(|name| (format!("{name}{}", dash(&name)), text(&name))).collect()
}

fn pair(name: &str, text: &str) -> (String, String) {
    (name.to_owned(), text.to_owned())
}

#[test]
fn stale_files_go_and_foreign_files_stay() {
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("marram");
    swap(&folder, &[file("a.svg", "1"), file("b.svg", "1")]).unwrap();
    fs::write(folder.join("notes.txt"), "mine").unwrap();
    let swapped = swap(&folder, &[file("b.svg", "2"), file("c.csv", "2")]).unwrap();
    assert_eq!(swapped, Swapped { made: 2, removed: 1 });
    assert_eq!(texts(&folder), [pair("b.svg", "2"), pair("c.csv", "2"), pair("notes.txt", "mine")]);
    assert_eq!(fs::read_dir(out.path()).unwrap().count(), 1, "nothing is left beside it");
}

#[test]
fn a_failed_swap_leaves_the_folder_as_it_was() {
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("marram");
    swap(&folder, &[file("a.svg", "1"), file("b.svg", "1")]).unwrap();
    let before = texts(&folder);
    fs::create_dir(folder.join("c.csv")).unwrap();
    let error = swap(&folder, &[file("a.svg", "2"), file("c.csv", "2")]).unwrap_err();
    assert!(error.contains("c.csv` is in the way"), "{error}");
    fs::remove_dir(folder.join("c.csv")).unwrap();
    assert_eq!(texts(&folder), before);
    assert_eq!(fs::read_dir(out.path()).unwrap().count(), 1);
}

#[test]
fn a_file_that_no_build_has_made_is_not_written_over() {
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("marram");
    fs::create_dir(&folder).unwrap();
    fs::write(folder.join("a.svg"), "mine").unwrap();
    let error = swap(&folder, &[file("a.svg", "1"), file("b.svg", "1")]).unwrap_err();
    assert!(error.contains("a.svg` is there and no build has made it"), "{error}");
    assert_eq!(texts(&folder), [pair("a.svg", "mine")]);
}

#[test]
fn names_that_leave_the_folder_or_fit_nowhere_are_refused() {
    let out = tempfile::tempdir().unwrap();
    for name in ["../a", "a/b", "/a", "", ".", "..", ".made-by-boxwright", "a\\b", "nul.svg", "a:b", "a."] {
        assert!(swap(&out.path().join("x"), &[file(name, "")]).is_err(), "{name}");
    }
    assert!(swap(&out.path().join("x"), &[file("a", "1"), file("a", "2")]).is_err());
    let error = swap(&out.path().join("x"), &[file("plan-Day.svg", "1"), file("plan-day.svg", "2")]).unwrap_err();
    assert!(error.contains("case is ignored"), "{error}");
    fs::create_dir(out.path().join("y")).unwrap();
    fs::write(out.path().join("kept"), "").unwrap();
    fs::write(out.path().join("y").join(MADE), "../kept\n").unwrap();
    swap(&out.path().join("y"), &[file("a", "1")]).unwrap();
    assert!(out.path().join("kept").exists());
}

#[test]
fn a_folder_that_differs_in_case_only_is_refused() {
    let out = tempfile::tempdir().unwrap();
    swap(&out.path().join("Marram"), &[file("a", "1")]).unwrap();
    let error = swap(&out.path().join("marram"), &[file("a", "2")]).unwrap_err();
    assert!(error.contains("Marram`, which is there, would be one folder"), "{error}");
    assert_eq!(texts(&out.path().join("Marram")), [pair("a", "1")]);
}

#[test]
fn a_second_build_waits_and_then_says_why_not() {
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("marram");
    swap(&folder, &[file("a", "1")]).unwrap();
    let held = Lock::take(&Real, &Place::new(&folder).unwrap().lock(), 0).unwrap();
    let error = swap_with(&Real, &folder, &[file("a", "2")], 2).unwrap_err();
    assert!(error.contains("another build is writing into"), "{error}");
    assert_eq!(texts(&folder), [pair("a", "1")]);
    std::thread::scope(|scope| {
        let second = scope.spawn(|| swap(&folder, &[file("a", "2")]));
        std::thread::sleep(std::time::Duration::from_millis(100));
        held.release(&Real);
        second.join().unwrap().unwrap();
    });
    assert_eq!(texts(&folder), [pair("a", "2")]);
    assert_eq!(fs::read_dir(out.path()).unwrap().count(), 1);
}

#[cfg(unix)]
#[test]
fn a_folder_that_is_a_link_stays_one() {
    let (out, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    fs::create_dir(other.path().join("real")).unwrap();
    std::os::unix::fs::symlink(other.path().join("real"), out.path().join("marram")).unwrap();
    swap(&out.path().join("marram"), &[file("a", "1")]).unwrap();
    swap(&out.path().join("marram"), &[file("a", "2")]).unwrap();
    assert!(out.path().join("marram").is_symlink());
    assert_eq!(texts(&other.path().join("real")), [pair("a", "2")]);
}

#[cfg(unix)]
#[test]
fn permissions_and_links_of_the_user_stay() {
    use std::os::unix::fs::PermissionsExt;
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("marram");
    swap(&folder, &[file("a", "1")]).unwrap();
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o750)).unwrap();
    std::os::unix::fs::symlink("gone", folder.join("link")).unwrap();
    swap(&folder, &[file("a", "2")]).unwrap();
    assert_eq!(fs::metadata(&folder).unwrap().permissions().mode() & 0o777, 0o750);
    assert_eq!(fs::read_link(folder.join("link")).unwrap(), Path::new("gone"));
}

/// A disk on which one step fails.
struct Faulty {
    /// Steps until the one that fails.
    left: Cell<usize>,
    /// After it every step fails, as if the process were killed; otherwise it alone.
    dies: bool,
    dead: Cell<bool>,
    /// Folders can't exchange their names.
    no_exchange: bool,
    /// Files can't have a second name.
    no_links: bool,
    /// Done once, before the step that fails: what a user does meanwhile.
    meanwhile: RefCell<Option<Box<dyn FnOnce()>>>,
}

impl Faulty {
    fn new(left: usize, dies: bool, (no_exchange, no_links): (bool, bool)) -> Self {
        Self {
            left: Cell::new(left),
            dies,
            dead: Cell::new(false),
            no_exchange,
            no_links,
            meanwhile: RefCell::default(),
        }
    }

    /// Whether this step fails.
    fn fails(&self) -> bool {
        let left = self.left.get();
        self.left.set(left.wrapping_sub(1));
        if left == 0 {
            if let Some(act) = self.meanwhile.take() {
                act();
            }
            self.dead.set(self.dies);
            return true;
        }
        self.dead.get()
    }

    fn step<T>(&self, real: impl FnOnce() -> io::Result<T>) -> io::Result<T> {
        if self.fails() { Err(io::Error::other("made to fail")) } else { real() }
    }
}

impl Work for Faulty {
    fn go_on(&self) -> io::Result<()> {
        Ok(())
    }
    fn open(&self, path: &Path) -> io::Result<File> {
        self.step(|| Real.open(path))
    }
    fn make_folders(&self, path: &Path) -> io::Result<()> {
        self.step(|| Real.make_folders(path))
    }
    fn make_folder(&self, path: &Path) -> io::Result<()> {
        self.step(|| Real.make_folder(path))
    }
    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let dead = self.dead.get();
        self.step(|| fs::write(path, bytes)).inspect_err(|_| {
            if !dead {
                fs::write(path, &bytes[..bytes.len() / 2]).unwrap();
            }
        })
    }
    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(|| if self.no_links { Err(io::ErrorKind::Unsupported.into()) } else { Real.link(from, to) })
    }
    fn permit(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(|| Real.permit(from, to))
    }
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(|| Real.rename(from, to))
    }
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        self.step(|| if self.no_exchange { Err(io::ErrorKind::Unsupported.into()) } else { Real.exchange(one, other) })
    }
    fn remove_file(&self, path: &Path) -> io::Result<()> {
        self.step(|| Real.remove_file(path))
    }
    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        self.step(|| Real.remove_folder(path))
    }
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.step(|| Real.sync_folder(path))
    }
}

/// Disks with and without names that exchange, and with and without second names.
const KINDS: [(bool, bool); 3] = [(false, false), (true, false), (false, true)];

fn old_files() -> [OutputFile; 3] {
    [file("a.svg", "old"), file("b.svg", "old"), file("c.csv", "old")]
}

fn new_files() -> [OutputFile; 3] {
    [file("b.svg", "new"), file("c.csv", "new"), file("d.json", "new")]
}

/// A folder with outputs and foreign files.
fn start(folder: &Path) {
    swap(folder, &old_files()).unwrap();
    fs::write(folder.join("notes.txt"), "mine").unwrap();
    fs::create_dir_all(folder.join("photos/van")).unwrap();
    fs::write(folder.join("photos/van/rear.txt"), "mine too").unwrap();
}

/// What must never be lost.
fn foreign_is_whole(folder: &Path) -> bool {
    let text = |name: &str| fs::read_to_string(folder.join(name)).unwrap_or_default();
    text("notes.txt") == "mine" && text("photos/van/rear.txt") == "mine too"
}

fn outputs(folder: &Path) -> Vec<(String, String)> {
    texts(folder).into_iter().filter(|(name, _)| name != "notes.txt" && name != "photos/").collect()
}

fn of(files: &[OutputFile]) -> Vec<(String, String)> {
    files.iter().map(|one| pair(&one.name, std::str::from_utf8(&one.bytes).unwrap())).collect()
}

/// The steps that a swap over an earlier one takes.
fn steps(kind: (bool, bool)) -> usize {
    let out = tempfile::tempdir().unwrap();
    start(&out.path().join("marram"));
    let disk = Faulty::new(usize::MAX, false, kind);
    swap_with(&disk, &out.path().join("marram"), &new_files(), 0).unwrap();
    usize::MAX - disk.left.get()
}

#[test]
fn killed_at_any_step_the_outputs_are_all_old_or_all_new_and_the_next_build_works() {
    for kind in KINDS {
        let (steps, mut old, mut new) = (steps(kind), 0, 0);
        assert!(steps > 15, "{steps}");
        for at in 0..steps {
            let out = tempfile::tempdir().unwrap();
            let folder = out.path().join("marram");
            start(&folder);
            let _ = swap_with(&Faulty::new(at, true, kind), &folder, &new_files(), 0);
            let in_one_step = kind == (false, false);
            if !in_one_step {
                // The files move one by one: what is begun is finished by the next start.
                recover(&Real, &Place::new(&folder).unwrap()).unwrap();
            }
            let found = outputs(&folder);
            assert!(found == of(&old_files()) || found == of(&new_files()), "{kind:?} {at}: {found:?}");
            old += usize::from(found == of(&old_files()));
            new += usize::from(found == of(&new_files()));
            assert!(foreign_is_whole(&folder), "{kind:?} {at}");
            swap(&folder, &[file("e.svg", "next")]).unwrap_or_else(|error| panic!("{kind:?} {at}: {error}"));
            assert_eq!(outputs(&folder), [pair("e.svg", "next")], "{kind:?} {at}");
            assert!(foreign_is_whole(&folder), "{kind:?} {at}");
            assert_eq!(entries(out.path()).unwrap(), ["marram"], "{kind:?} {at}: nothing is left beside it");
        }
        assert!(old > 5 && new > 5, "{kind:?}: {old} old, {new} new");
    }
}

#[test]
fn killed_again_while_it_mends_it_mends_all_the_same() {
    for kind in KINDS {
        let steps = steps(kind);
        let pairs = (0..steps).step_by(2).flat_map(|first| (0..12).step_by(3).map(move |second| (first, second)));
        for (first, second) in pairs {
            let out = tempfile::tempdir().unwrap();
            let folder = out.path().join("marram");
            start(&folder);
            let _ = swap_with(&Faulty::new(first, true, kind), &folder, &new_files(), 0);
            let _ = swap_with(&Faulty::new(second, true, kind), &folder, &new_files(), 0);
            recover(&Real, &Place::new(&folder).unwrap()).unwrap();
            let found = outputs(&folder);
            assert!(found == of(&old_files()) || found == of(&new_files()), "{kind:?} {first} {second}: {found:?}");
            assert!(foreign_is_whole(&folder), "{kind:?} {first} {second}");
        }
    }
}

#[test]
fn an_error_at_any_step_is_told_truly_and_leaves_nothing_behind() {
    for kind in KINDS {
        for at in 0..steps(kind) {
            let out = tempfile::tempdir().unwrap();
            let folder = out.path().join("marram");
            start(&folder);
            let told = swap_with(&Faulty::new(at, false, kind), &folder, &new_files(), 0);
            let found = outputs(&folder);
            match &told {
                Ok(_) => assert_eq!(found, of(&new_files()), "{kind:?} {at}"),
                Err(error) if error.contains("as they were") || error.contains("stopped build") => {
                    assert_eq!(found, of(&old_files()), "{kind:?} {at}: {error}");
                }
                Err(error) => {
                    assert!(error.contains("has the new files"), "{kind:?} {at}: {error}");
                    let ours = found.into_iter().filter(|(name, _)| !name.starts_with('.')).collect::<Vec<_>>();
                    assert_eq!(ours, of(&new_files()), "{kind:?} {at}");
                }
            }
            assert!(foreign_is_whole(&folder), "{kind:?} {at}");
            swap(&folder, &new_files()).unwrap();
            assert_eq!(outputs(&folder), of(&new_files()), "{kind:?} {at}");
            assert_eq!(entries(out.path()).unwrap(), ["marram"], "{kind:?} {at}");
        }
    }
}

#[test]
fn what_a_user_saves_meanwhile_is_never_lost() {
    for kind in KINDS {
        for at in 0..steps(kind) {
            let out = tempfile::tempdir().unwrap();
            let folder = out.path().join("marram");
            start(&folder);
            let disk = Faulty::new(at, true, kind);
            let inside = folder.clone();
            *disk.meanwhile.borrow_mut() = Some(Box::new(move || {
                fs::write(inside.join("late.txt"), "late").unwrap();
                // As editors save: a new file in place of the old one.
                fs::write(inside.join("notes.new"), "changed").unwrap();
                fs::rename(inside.join("notes.new"), inside.join("notes.txt")).unwrap();
            }));
            let _ = swap_with(&disk, &folder, &new_files(), 0);
            swap(&folder, &new_files()).unwrap();
            let found = texts(&folder);
            assert!(found.contains(&pair("late.txt", "late")), "{kind:?} {at}: {found:?}");
            assert!(found.contains(&pair("notes.txt", "changed")), "{kind:?} {at}: {found:?}");
        }
    }
}

#[test]
fn what_a_killed_build_of_another_layout_left_is_cleared_away() {
    for at in 0..steps(KINDS[0]) {
        let out = tempfile::tempdir().unwrap();
        start(&out.path().join("marram"));
        let _ = swap_with(&Faulty::new(at, true, KINDS[0]), &out.path().join("marram"), &new_files(), 0);
        swap(&out.path().join("skua"), &new_files()).unwrap();
        assert_eq!(entries(out.path()).unwrap(), ["marram", "skua"], "{at}");
        let found = outputs(&out.path().join("marram"));
        assert!(found == of(&old_files()) || found == of(&new_files()), "{at}: {found:?}");
        assert!(foreign_is_whole(&out.path().join("marram")), "{at}");
    }
}

#[test]
fn a_first_build_killed_at_any_step_leaves_a_whole_folder_or_none() {
    for at in 0..40 {
        let out = tempfile::tempdir().unwrap();
        let folder = out.path().join("deep/marram");
        let _ = swap_with(&Faulty::new(at, true, KINDS[0]), &folder, &new_files(), 0);
        assert!(!folder.exists() || outputs(&folder) == of(&new_files()), "{at}");
        swap(&folder, &new_files()).unwrap();
        assert_eq!(entries(&out.path().join("deep")).unwrap(), ["marram"], "{at}");
    }
}
