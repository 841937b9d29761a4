//! The outside with one more file.

use crate::source::World;

pub(super) struct Overlay<'a> {
    pub under: &'a dyn World,
    /// Path of the file that is laid over.
    pub path: &'a str,
    pub text: String,
}

impl World for Overlay<'_> {
    fn read(&self, path: &str) -> Result<String, String> {
        if path == self.path { Ok(self.text.clone()) } else { self.under.read(path) }
    }

    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String> {
        self.under.bytes(path, largest)
    }

    fn exists(&self, path: &str) -> bool {
        path == self.path || self.under.exists(path)
    }
}
