//! Files, places in files, and the one door through which the compiler sees the world.

mod file;
mod span;
mod world;

pub use file::{Position, SourceFile, SourceMap};
pub use span::{FileId, Span, Spanned};
pub use world::{MemoryWorld, World};
