//! Files, places in files, and the one door through which the compiler sees the world.

mod file;
mod name;
mod span;
mod world;

pub use file::{Position, SourceFile, SourceMap};
pub use name::{folded, is_shown, layout_name, refused_name, shown};
pub use span::{FileId, Span, Spanned};
pub use world::{MemoryWorld, Overlay, World};
