//! The compiler's door to the disk: one layout and what stands in its folder.

use crate::base::text;
use crate::source::World;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Component, Path, PathBuf};

/// Largest file that is read, bytes.
const LARGEST: usize = 1 << 20;

/// The byte order mark that some editors put at the start of a text.
const MARK: &str = "\u{feff}";

/// Stands for standard input on the command line.
pub(super) const STDIN: &str = "-";

/// What a layout from standard input is called; files it names are looked for in the present folder.
pub(super) const STDIN_NAME: &str = "stdin";

/// The disk as one layout may see it.
#[derive(Debug)]
pub(super) struct Disk {
    layout: String,
    /// Where paths start from: the present folder, if it is empty.
    home: PathBuf,
    /// Folder that links must not lead out of; `None` when they may.
    folder: Option<PathBuf>,
    /// The layout, if it came from standard input.
    typed: Option<Result<String, String>>,
    /// Paths that were read.
    seen: RefCell<BTreeSet<String>>,
    /// Paths that were only looked for.
    looked_for: RefCell<BTreeSet<String>>,
}

impl Disk {
    /// The disk for a layout file; `allow_outside` lets links lead out of the layout's folder.
    pub fn new(layout: &str, allow_outside: bool) -> Self {
        let typed = (layout == STDIN).then(|| read_stdin(LARGEST));
        let layout = layout_path(layout);
        let folder = if allow_outside { None } else { fs::canonicalize(folder_of(&layout)).ok() };
        Self { layout, home: PathBuf::new(), folder, typed, seen: RefCell::default(), looked_for: RefCell::default() }
    }

    /// The same disk, seen from the layout's folder: all paths start there, so that nothing tells where the command ran.
    pub fn at_home(layout: &str, allow_outside: bool) -> Self {
        let disk = Self::new(layout, allow_outside);
        let path = PathBuf::from(&disk.layout);
        match path.file_name().and_then(|name| name.to_str()).filter(|_| disk.typed.is_none()) {
            Some(name) => Self { layout: name.to_owned(), home: folder_of(&disk.layout).to_owned(), ..disk },
            None => disk,
        }
    }

    /// The path of the layout, as messages show it.
    pub fn layout(&self) -> &str {
        &self.layout
    }

    /// The folder that paths start from, the same for all ways to name it.
    pub fn home(&self) -> PathBuf {
        fs::canonicalize(folder_of(&self.home.join(&self.layout))).unwrap_or_else(|_| self.home.clone())
    }

    /// The name of a file in outputs, which is the same wherever the command runs: the path from the layout's folder, or
    /// only the last part for a file outside it. What was not read from the disk keeps its name.
    pub fn name_in_outputs(&self, name: &str) -> String {
        if !self.seen.borrow().contains(name) {
            return name.to_owned();
        }
        let (folder, file) = (steps(folder_of(&self.layout)), steps(Path::new(name)));
        let inside = file
            .strip_prefix(folder.as_slice())
            .filter(|rest| rest.first().is_some_and(|step| step != ".." && !step.is_empty()));
        let last = file.len().saturating_sub(1);
        inside.or_else(|| file.get(last..)).unwrap_or_default().join("/")
    }

    /// Refuses a path that a link leads out of the folder. The layout itself was named by the user.
    fn inside(&self, path: &str) -> Result<(), String> {
        let (Some(folder), false) = (&self.folder, path == self.layout) else { return Ok(()) };
        // Of a file that is not there, the folder tells where it would be, so that no name outside is given away.
        let path = self.home.join(path);
        let real = fs::canonicalize(&path).or_else(|_| fs::canonicalize(folder_of(&path)));
        match real {
            Ok(real) if !real.starts_with(folder) => {
                Err("a link leads from there out of the layout's folder; give `--allow-outside` if it may be read"
                    .to_owned())
            }
            _ => Ok(()),
        }
    }
}

impl World for Disk {
    fn read(&self, path: &str) -> Result<String, String> {
        self.seen.borrow_mut().insert(path.to_owned());
        if let (Some(typed), true) = (&self.typed, path == self.layout) {
            return typed.clone();
        }
        self.inside(path)?;
        text_at(&self.home, path, LARGEST)
    }

    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String> {
        self.seen.borrow_mut().insert(path.to_owned());
        self.inside(path)?;
        bytes_at(&self.home, path, largest)
    }

    fn exists(&self, path: &str) -> bool {
        self.looked_for.borrow_mut().insert(path.to_owned());
        self.home.join(path).is_file()
    }
}

#[cfg(feature = "desk")]
impl crate::desk::Reading for Disk {
    fn asked_for(&self) -> Vec<PathBuf> {
        let (seen, looked_for) = (self.seen.borrow(), self.looked_for.borrow());
        seen.union(&looked_for).map(|path| self.home.join(path)).collect()
    }
}

/// What is wrong with asking for the same standard input again.
pub(super) fn stdin_twice(named: &[String]) -> Option<&'static str> {
    let often = named.iter().filter(|named| *named == STDIN).count() > 1;
    often.then_some("`-` is named twice; standard input can be read only once")
}

/// The path by which the compiler knows a layout that is named on the command line.
pub(super) fn layout_path(named: &str) -> String {
    match named {
        STDIN => STDIN_NAME.to_owned(),
        _ if cfg!(windows) => named.replace('\\', "/"),
        _ => named.to_owned(),
    }
}

/// The steps of a path, without `.` and `x/..`; the first of an absolute one is empty.
fn steps(path: &Path) -> Vec<String> {
    let mut steps: Vec<String> = Vec::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::RootDir => steps.push(String::new()),
            Component::ParentDir if steps.last().is_some_and(String::is_empty) => {}
            Component::ParentDir if steps.last().is_some_and(|last| last != "..") => {
                steps.pop();
            }
            other => steps.push(other.as_os_str().to_string_lossy().into_owned()),
        }
    }
    steps
}

fn folder_of<P: AsRef<Path> + ?Sized>(path: &P) -> &Path {
    match path.as_ref().parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The text of a file of at most so many bytes, without a byte order mark.
///
/// # Errors
/// What is wrong with it, for a sentence that names it.
pub(super) fn read_text(path: &str, largest: usize) -> Result<String, String> {
    text_at(Path::new(""), path, largest)
}

fn text_at(home: &Path, path: &str, largest: usize) -> Result<String, String> {
    text_of(read_bounded(&home.join(path), largest).map_err(|error| why(home, path, &error))?, largest)
}

/// The bytes of a file of at most so many.
///
/// # Errors
/// What is wrong with it, for a sentence that names it.
pub(super) fn read_bytes(path: &str, largest: usize) -> Result<Vec<u8>, String> {
    bytes_at(Path::new(""), path, largest)
}

fn bytes_at(home: &Path, path: &str, largest: usize) -> Result<Vec<u8>, String> {
    let bytes = read_bounded(&home.join(path), largest).map_err(|error| why(home, path, &error))?;
    if bytes.len() > largest {
        return Err(format!("it is larger than {} MiB, the most for it", largest >> 20));
    }
    Ok(bytes)
}

/// Puts a text in place of a file's, in one step; a link leads to the file that is changed.
///
/// # Errors
/// Why it can't be written; the file is as it was.
pub(super) fn replace_text(path: &str, text: &str) -> Result<(), String> {
    let failed = |error: io::Error| format!("it can't be written: {error}");
    let real = fs::canonicalize(path).map_err(failed)?;
    let mut name = std::ffi::OsString::from(".");
    name.push(real.file_name().unwrap_or_default());
    name.push(".new");
    let new = real.with_file_name(name);
    let rights = fs::metadata(&real).map_err(failed)?.permissions();
    let mark = fs::read(&real).map_err(failed)?.starts_with(MARK.as_bytes());
    let text = if mark { format!("{MARK}{text}") } else { text.to_owned() };
    let mut file = fs::OpenOptions::new().write(true).create_new(true).open(&new).map_err(failed)?;
    let written = file
        .write_all(text.as_bytes())
        .and_then(|()| file.set_permissions(rights))
        .and_then(|()| file.sync_all())
        .and_then(|()| fs::rename(&new, &real));
    written.map_err(|error| {
        let _ = fs::remove_file(&new);
        failed(error)
    })
}

/// Writes a text into a file that is not there yet.
///
/// # Errors
/// Why it can't be written, in a sentence; a file that is there is left as it is.
pub(super) fn create_text(path: &str, text: &str) -> Result<(), String> {
    let why = |error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => format!("`{path}` is there already and is left as it is; choose another name"),
        io::ErrorKind::NotFound => format!("the folder of `{path}` is not there; make it first"),
        _ => format!("`{path}` can't be written: {error}"),
    };
    let mut file = fs::OpenOptions::new().write(true).create_new(true).open(path).map_err(why)?;
    file.write_all(text.as_bytes()).map_err(why)
}

/// The folder that a path leads to, and the name in it.
pub(super) fn folder_and_name(path: &str) -> (PathBuf, String) {
    let name = Path::new(path).file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    (folder_of(path).to_owned(), name)
}

/// A file that is changed: its path, its text as it is, and as it will be.
pub(super) struct Changed {
    pub path: String,
    pub before: String,
    pub after: String,
}

/// Gives several files new texts, all or none: one that can't be written leaves those before it as they were.
///
/// # Errors
/// Why it can't be done.
pub(super) fn replace_texts(files: &[Changed]) -> Result<(), String> {
    let told = |file: &Changed, error: String| format!("`{}`: {error}", file.path);
    for (at, file) in files.iter().enumerate() {
        let Err(error) = replace_text(&file.path, &file.after) else { continue };
        for done in files.iter().take(at) {
            replace_text(&done.path, &done.before).map_err(|worse| {
                format!("{}; and {} can't be put back", told(file, error.clone()), told(done, worse))
            })?;
        }
        return Err(told(file, error));
    }
    Ok(())
}

/// The same of standard input.
///
/// # Errors
/// What is wrong with it, for a sentence that names it.
pub(super) fn read_stdin(largest: usize) -> Result<String, String> {
    let mut bytes = Vec::new();
    io::stdin().lock().take(largest as u64 + 1).read_to_end(&mut bytes).map_err(|error| error.to_string())?;
    text_of(bytes, largest)
}

fn text_of(bytes: Vec<u8>, largest: usize) -> Result<String, String> {
    if bytes.len() > largest {
        return Err(format!("it is larger than {} MiB, the most for one file; split it", largest >> 20));
    }
    let text = String::from_utf8(bytes);
    let text = text.map_err(|error| not_text(error.as_bytes(), error.utf8_error().valid_up_to()))?;
    Ok(text.strip_prefix(MARK).map(str::to_owned).unwrap_or(text))
}

fn read_bounded(path: &Path, largest: usize) -> io::Result<Vec<u8>> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(largest as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn why(home: &Path, path: &str, error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => missing(home, path),
        io::ErrorKind::IsADirectory => {
            format!(
                "it is a folder or a device; name a file in it, such as `{}`",
                Path::new(path).join("name.yaml").display()
            )
        }
        io::ErrorKind::PermissionDenied => "this user may not read it; change its permissions".to_owned(),
        _ => error.to_string(),
    }
}

fn missing(home: &Path, path: &str) -> String {
    let folder = folder_of(path);
    let Ok(entries) = fs::read_dir(home.join(folder)) else {
        return format!("the folder `{}` is not there", folder.display());
    };
    let mut names: Vec<String> = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    let name = Path::new(path).file_name().and_then(|name| name.to_str()).unwrap_or("");
    let hint = match text::nearest(name, names.iter().map(String::as_str)) {
        Some(near) => format!("; did you mean `{}`?", folder.join(near).display()),
        None => String::new(),
    };
    format!("there is no such file{}", hint.replace("`./", "`"))
}

fn not_text(bytes: &[u8], at: usize) -> String {
    let before = bytes.get(..at).unwrap_or(bytes);
    let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
    let column = before.iter().rev().take_while(|byte| **byte != b'\n').count() + 1;
    let byte = bytes.get(at).copied().unwrap_or(0);
    format!("it is not UTF-8 text: byte {byte:02X} at line {line}, byte {column}; save the file as UTF-8")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn disk(folder: &tempfile::TempDir, allow: bool) -> (Disk, impl Fn(&str) -> String) {
        let root = folder.path().to_str().unwrap().to_owned();
        let path = move |name: &str| format!("{root}/{name}");
        (Disk::new(&path("layout.yaml"), allow), path)
    }

    #[test]
    fn a_bad_byte_is_placed() {
        let folder = tempfile::tempdir().unwrap();
        let (disk, path) = disk(&folder, false);
        fs::write(path("layout.yaml"), b"a: 1\ntitle: caf\xe9\n").unwrap();
        let error = disk.read(&path("layout.yaml")).unwrap_err();
        assert!(error.ends_with("byte E9 at line 2, byte 11; save the file as UTF-8"), "{error}");
    }

    #[test]
    fn a_missing_file_gets_a_near_name() {
        let folder = tempfile::tempdir().unwrap();
        let (disk, path) = disk(&folder, false);
        fs::write(path("marram.yaml"), "").unwrap();
        assert!(disk.read(&path("maram.yaml")).unwrap_err().contains("did you mean"));
        assert!(disk.read(&path("no/maram.yaml")).unwrap_err().contains("/no` is not there"));
        assert!(disk.read(&path("")).unwrap_err().contains("it is a folder"));
        assert!(!disk.exists(&path("maram.yaml")));
        assert!(disk.exists(&path("marram.yaml")));
    }

    #[test]
    fn one_mebibyte_is_the_most() {
        let folder = tempfile::tempdir().unwrap();
        let (disk, path) = disk(&folder, false);
        fs::write(path("a.yaml"), " ".repeat(LARGEST)).unwrap();
        assert!(disk.read(&path("a.yaml")).is_ok());
        fs::write(path("a.yaml"), " ".repeat(LARGEST + 1)).unwrap();
        assert!(disk.read(&path("a.yaml")).unwrap_err().contains("larger than 1 MiB"));
    }

    #[test]
    fn names_in_outputs_do_not_tell_where_the_command_ran() {
        let named = |layout: &str, file: &str| {
            let disk = Disk::new(layout, true);
            disk.seen.borrow_mut().insert(file.to_owned());
            disk.name_in_outputs(file)
        };
        for (layout, file) in [("a.yaml", "a.yaml"), ("./a.yaml", "./a.yaml"), ("x/a.yaml", "x/a.yaml")] {
            assert_eq!(named(layout, file), "a.yaml");
        }
        for (layout, file) in [("/x/a.yaml", "/x/s/b.yaml"), ("x/../a.yaml", "s/b.yaml"), ("../a.yaml", "../s/b.yaml")]
        {
            assert_eq!(named(layout, file), "s/b.yaml");
        }
        for (layout, file) in [("a.yaml", "../s/b.yaml"), ("/x/a.yaml", "/s/b.yaml"), ("x/a.yaml", "s/b.yaml")] {
            assert_eq!(named(layout, file), "b.yaml");
        }
        assert_eq!(Disk::new("x/a.yaml", true).name_in_outputs("symbols/a/b.yaml"), "symbols/a/b.yaml", "built in");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_may_not_lead_out() {
        let (folder, outside) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let secret = outside.path().join("secret.yaml");
        fs::write(&secret, "a: 1").unwrap();
        let (strict, path) = disk(&folder, false);
        std::os::unix::fs::symlink(&secret, path("link.yaml")).unwrap();
        assert!(strict.read(&path("link.yaml")).unwrap_err().contains("--allow-outside"));
        let (open, path) = disk(&folder, true);
        assert_eq!(open.read(&path("link.yaml")), Ok("a: 1".to_owned()));
    }
}
