//! The one door to files: the compiler asks, the command (or a test) answers.

use std::collections::BTreeMap;

/// What the compiler may ask of the outside. Paths use `/` and are relative to the folder the command runs in,
/// or absolute.
pub trait World {
    /// The text of a file.
    ///
    /// # Errors
    /// A sentence for the user when the file can't be read, is no UTF-8, is too large, or may not be read.
    fn read(&self, path: &str) -> Result<String, String>;

    /// The bytes of a file that is no text.
    ///
    /// # Errors
    /// A sentence for the user when the file can't be read, is larger than `largest`, or may not be read.
    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String>;

    /// Whether a file is there and may be read.
    fn exists(&self, path: &str) -> bool;
}

/// A world made of texts in memory, for tests, fuzzing and editors.
#[derive(Debug, Clone, Default)]
pub struct MemoryWorld {
    files: BTreeMap<String, String>,
    others: BTreeMap<String, Vec<u8>>,
}

impl MemoryWorld {
    /// Adds a file.
    #[must_use]
    pub fn with(mut self, path: &str, text: &str) -> Self {
        self.files.insert(path.to_owned(), text.to_owned());
        self
    }

    /// Adds a file that is no text.
    #[must_use]
    pub fn with_bytes(mut self, path: &str, bytes: &[u8]) -> Self {
        self.others.insert(path.to_owned(), bytes.to_owned());
        self
    }
}

impl World for MemoryWorld {
    fn read(&self, path: &str) -> Result<String, String> {
        self.files.get(path).cloned().ok_or_else(|| format!("there is no file `{path}`"))
    }

    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String> {
        let bytes = self.others.get(path).ok_or_else(|| format!("there is no file `{path}`"))?;
        if bytes.len() > largest { Err("it is too large".to_owned()) } else { Ok(bytes.clone()) }
    }

    fn exists(&self, path: &str) -> bool {
        self.files.contains_key(path) || self.others.contains_key(path)
    }
}

/// A world with some texts in place of its own, or beside them.
pub struct Overlay<'a> {
    under: &'a dyn World,
    over: MemoryWorld,
}

impl<'a> Overlay<'a> {
    /// The texts of `over` are read first.
    #[must_use]
    pub fn new(under: &'a dyn World, over: MemoryWorld) -> Self {
        Self { under, over }
    }
}

impl World for Overlay<'_> {
    fn read(&self, path: &str) -> Result<String, String> {
        if self.over.exists(path) { self.over.read(path) } else { self.under.read(path) }
    }

    fn bytes(&self, path: &str, largest: usize) -> Result<Vec<u8>, String> {
        if self.over.exists(path) { self.over.bytes(path, largest) } else { self.under.bytes(path, largest) }
    }

    fn exists(&self, path: &str) -> bool {
        self.over.exists(path) || self.under.exists(path)
    }
}
