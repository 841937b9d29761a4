//! Files as they were in a revision of a git repository, asked of the command `git`.

use crate::source::World;
use std::process::{Command, Stdio};

/// One revision.
#[derive(Debug)]
pub(super) struct Revision(String);

impl Revision {
    /// `REVISION:FILE` as the revision and the path; `None` for the name of a file that is there, and for what has no
    /// revision before a colon.
    pub fn named(named: &str) -> Option<(Self, &str)> {
        let (revision, path) = named.split_once(':')?;
        let is_file = std::path::Path::new(named).is_file();
        let fine = !revision.is_empty() && !revision.starts_with('-') && !path.is_empty();
        // A single letter before a colon is a drive on some systems.
        let drive = revision.len() == 1 && path.starts_with(['\\', '/']);
        (!is_file && fine && !drive).then(|| (Self(revision.to_owned()), path))
    }

    fn show(&self, path: &str) -> Result<Vec<u8>, String> {
        // A path is taken from the folder of now, not from the top of the repository.
        let from = if path.starts_with(['/', '.']) { path.to_owned() } else { format!("./{path}") };
        let git = Command::new("git").args(["show", &format!("{}:{from}", self.0)]).stdin(Stdio::null()).output();
        let told = git.map_err(|error| format!("the command `git` can't be run: {error}"))?;
        if told.status.success() {
            return Ok(told.stdout);
        }
        let why = String::from_utf8_lossy(&told.stderr);
        let why = why.lines().next().unwrap_or_default().trim_start_matches("fatal: ").to_owned();
        Err(format!("git has no such file in the revision `{}`: {why}", self.0))
    }
}

impl World for Revision {
    fn read(&self, path: &str) -> Result<String, String> {
        String::from_utf8(self.show(path)?).map_err(|_| "it is not UTF-8 text".to_owned())
    }

    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String> {
        let bytes = self.show(path)?;
        if bytes.len() > largest { Err(format!("it is larger than {} MiB", largest >> 20)) } else { Ok(bytes) }
    }

    fn exists(&self, path: &str) -> bool {
        self.show(path).is_ok()
    }
}

#[cfg(test)]
mod tests {
    use super::Revision;

    #[test]
    fn what_is_a_revision_and_what_a_file() {
        let named = |text: &str| Revision::named(text).map(|(revision, path)| (revision.0, path.to_owned()));
        assert_eq!(named("HEAD~2:a/b.yaml"), Some(("HEAD~2".to_owned(), "a/b.yaml".to_owned())));
        for file in ["a.yaml", ":a.yaml", "HEAD:", "C:\\a.yaml", "c:/a.yaml", "--output=x:a.yaml"] {
            assert_eq!(named(file), None, "{file}");
        }
    }
}
