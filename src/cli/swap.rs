//! Puts a set of files into a folder so that either all of them arrive or the folder stays as it was.

use crate::backends::OutputFile;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// Lists the files that an earlier build has made, so that only those are ever removed.
const MADE: &str = ".made-by-boxwright";

/// What a swap has done.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Swapped {
    /// Files put there.
    pub made: usize,
    /// Files of an earlier build taken away.
    pub removed: usize,
}

/// Writes all files beside `folder` and then moves them into it. Files of an earlier build that are not among them
/// are removed, all others stay.
///
/// # Errors
/// A sentence for the user; the folder is then as it was.
pub(super) fn swap(folder: &Path, files: &[OutputFile]) -> Result<Swapped, String> {
    let names = plain_names(files)?;
    let failed = |error: io::Error| {
        format!("`{}` can't be written: {error}; its earlier files are as they were", folder.display())
    };
    let beside = folder.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(beside).map_err(failed)?;
    let stage = tempfile::Builder::new().prefix(".boxwright-").tempdir_in(beside).map_err(failed)?;
    let (new, old) = (stage.path().join("new"), stage.path().join("old"));
    write_all(&new, files, &names).and_then(|()| fs::create_dir(&old)).map_err(failed)?;
    let earlier = earlier(folder);
    refuse_foreign(folder, &names, &earlier)?;
    let stale: Vec<String> = earlier.into_iter().filter(|name| !names.contains(name.as_str())).collect();
    let there = folder.exists();
    fs::create_dir_all(folder).map_err(failed)?;
    let mut moves = Moves::default();
    let arriving = names.iter().copied().chain([MADE]);
    let result = arriving
        .clone()
        .chain(stale.iter().map(String::as_str))
        .try_for_each(|name| moves.away(&folder.join(name), &old.join(name)))
        .and_then(|()| arriving.clone().try_for_each(|name| moves.go(&new.join(name), &folder.join(name))));
    if let Err(error) = result {
        if moves.undo().is_err() {
            let kept = stage.keep();
            return Err(format!(
                "`{}` is half written: {error}; its earlier files are in `{}`",
                folder.display(),
                kept.display()
            ));
        }
        if !there {
            let _ = fs::remove_dir(folder);
        }
        return Err(failed(error));
    }
    Ok(Swapped { made: names.len(), removed: stale.len() })
}

/// Refuses to write over a file that no earlier build has made.
fn refuse_foreign(folder: &Path, names: &BTreeSet<&str>, earlier: &[String]) -> Result<(), String> {
    let known: BTreeSet<&str> = earlier.iter().map(String::as_str).collect();
    let foreign = names.difference(&known).map(|name| folder.join(name)).find(|place| place.is_file());
    foreign.map_or(Ok(()), |place| {
        let place = place.display();
        Err(format!("`{place}` is there and no build has made it; move it away or choose another `--out`"))
    })
}

fn plain_names(files: &[OutputFile]) -> Result<BTreeSet<&str>, String> {
    let mut names = BTreeSet::new();
    for name in files.iter().map(|file| file.name.as_str()) {
        if !is_plain(name) {
            return Err(format!("an output is named `{name}`, which is no plain file name; nothing was written"));
        }
        if !names.insert(name) {
            return Err(format!("two outputs are named `{name}`; nothing was written"));
        }
    }
    Ok(names)
}

/// Whether a name stays inside a folder and is not hidden.
pub(super) fn is_plain(name: &str) -> bool {
    let mut parts = Path::new(name).components();
    matches!((parts.next(), parts.next()), (Some(Component::Normal(_)), None))
        && !name.starts_with('.')
        && !name.contains(['/', '\\', '\n'])
}

fn write_all(into: &Path, files: &[OutputFile], names: &BTreeSet<&str>) -> io::Result<()> {
    fs::create_dir(into)?;
    files.iter().try_for_each(|file| fs::write(into.join(&file.name), &file.bytes))?;
    let list: String = names.iter().map(|name| format!("{name}\n")).collect();
    fs::write(into.join(MADE), list)
}

/// Names that an earlier build has made and that are still files.
fn earlier(folder: &Path) -> Vec<String> {
    let list = fs::read_to_string(folder.join(MADE)).unwrap_or_default();
    let names = list.lines().filter(|name| is_plain(name) && folder.join(name).is_file());
    names.map(str::to_owned).collect()
}

/// Renames that can be taken back.
#[derive(Debug, Default)]
struct Moves {
    done: Vec<(PathBuf, PathBuf)>,
}

impl Moves {
    fn go(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)?;
        self.done.push((from.to_owned(), to.to_owned()));
        Ok(())
    }

    /// Moves a file away if it is there; refuses a folder, which is never ours.
    fn away(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        match fs::symlink_metadata(from) {
            Ok(data) if data.is_dir() => {
                let name = from.file_name().unwrap_or_default().display();
                Err(io::Error::new(io::ErrorKind::IsADirectory, format!("a folder named `{name}` is in the way")))
            }
            Ok(_) => self.go(from, to),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            Err(error) => Err(error),
        }
    }

    fn undo(&mut self) -> io::Result<()> {
        self.done.drain(..).rev().map(|(from, to)| fs::rename(to, from)).fold(Ok(()), Result::and)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str, text: &str) -> OutputFile {
        OutputFile { name: name.to_owned(), bytes: text.as_bytes().to_vec() }
    }

    fn texts(folder: &Path) -> Vec<(String, String)> {
        let mut all: Vec<(String, String)> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap())
            .filter(|entry| entry.path().is_file())
            .map(|entry| (entry.file_name().into_string().unwrap(), fs::read_to_string(entry.path()).unwrap()))
            .filter(|(name, _)| name != MADE)
            .collect();
        all.sort();
        all
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
        assert!(error.contains("a folder named `c.csv` is in the way"), "{error}");
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
    fn names_that_leave_the_folder_are_refused() {
        let out = tempfile::tempdir().unwrap();
        for name in ["../a", "a/b", "/a", "", ".", "..", ".made-by-boxwright", "a\\b"] {
            assert!(swap(&out.path().join("x"), &[file(name, "")]).is_err(), "{name}");
        }
        assert!(swap(&out.path().join("x"), &[file("a", "1"), file("a", "2")]).is_err());
        fs::create_dir(out.path().join("y")).unwrap();
        fs::write(out.path().join("kept"), "").unwrap();
        fs::write(out.path().join("y").join(MADE), "../kept\n").unwrap();
        swap(&out.path().join("y"), &[file("a", "1")]).unwrap();
        assert!(out.path().join("kept").exists());
    }
}
