//! What stands for the compiled plug-in where this command was built without plug-ins.

use super::bounds::Bounds;

/// A plug-in, which can't be compiled here.
pub(super) struct Program(());

/// What came of a call.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Heard {
    /// Why there is no answer.
    pub answer: Result<Vec<u8>, String>,
    /// Nothing.
    pub log: String,
    /// None.
    pub fuel: u64,
    /// None.
    pub memory: usize,
}

const WHY: &str = "can't be run: this boxwright was built without plug-ins";

impl Program {
    /// Refuses.
    ///
    /// # Errors
    /// Always.
    pub fn compile(_wasm: &[u8], _bounds: &Bounds) -> Result<Self, String> {
        Err(WHY.to_owned())
    }

    /// Nothing.
    pub fn has(&self, _function: &str) -> bool {
        false
    }

    /// No answer.
    pub fn call(&self, _function: &str, _question: Option<&[u8]>, _bounds: &Bounds) -> Heard {
        let Self(()) = self;
        Heard { answer: Err(WHY.to_owned()), log: String::new(), fuel: 0, memory: 0 }
    }
}

/// Nothing: no plug-in gets so far.
#[must_use]
pub fn sha256(_bytes: &[u8]) -> String {
    String::new()
}
