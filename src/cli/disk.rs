//! The compiler's door to the disk: one layout and what stands in its folder.

use crate::base::text;
use crate::source::World;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Largest file that is read, bytes.
const LARGEST: usize = 1 << 20;

/// The disk as one layout may see it.
#[derive(Debug)]
pub(super) struct Disk {
    layout: String,
    /// Folder that links must not lead out of; `None` when they may.
    folder: Option<PathBuf>,
}

impl Disk {
    /// The disk for a layout file; `allow_outside` lets links lead out of the layout's folder.
    pub fn new(layout: &str, allow_outside: bool) -> Self {
        let folder = if allow_outside { None } else { fs::canonicalize(folder_of(layout)).ok() };
        Self { layout: layout.to_owned(), folder }
    }

    /// Refuses a path that a link leads out of the folder. The layout itself was named by the user.
    fn inside(&self, path: &str) -> Result<(), String> {
        let (Some(folder), false) = (&self.folder, path == self.layout) else { return Ok(()) };
        // Of a file that is not there, the folder tells where it would be, so that no name outside is given away.
        let real = fs::canonicalize(path).or_else(|_| fs::canonicalize(folder_of(path)));
        match real {
            Ok(real) if !real.starts_with(folder) => Err(format!(
                "it leads to `{}`, outside the layout's folder; give `--allow-outside` if it may be read",
                real.display()
            )),
            _ => Ok(()),
        }
    }
}

impl World for Disk {
    fn read(&self, path: &str) -> Result<String, String> {
        self.inside(path)?;
        read_text(path, LARGEST)
    }

    fn exists(&self, path: &str) -> bool {
        Path::new(path).is_file()
    }
}

fn folder_of(path: &str) -> &Path {
    match Path::new(path).parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The text of a file of at most so many bytes.
///
/// # Errors
/// What is wrong with it, for a sentence that names it.
pub(super) fn read_text(path: &str, largest: usize) -> Result<String, String> {
    let bytes = read_bounded(path, largest).map_err(|error| why(path, &error))?;
    if bytes.len() > largest {
        return Err(format!("it is larger than {} MiB, the most for one file; split it", largest >> 20));
    }
    String::from_utf8(bytes).map_err(|error| not_text(error.as_bytes(), error.utf8_error().valid_up_to()))
}

fn read_bounded(path: &str, largest: usize) -> io::Result<Vec<u8>> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(largest as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn why(path: &str, error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => missing(path),
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

fn missing(path: &str) -> String {
    let folder = folder_of(path);
    let Ok(entries) = fs::read_dir(folder) else {
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
