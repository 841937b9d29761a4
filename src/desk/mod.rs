//! The desk: the picture beside the text. One page on this machine shows the sheets and findings of layouts, and follows
//! their files.
//!
//! ```text
//! files ──watch──▶ follow (a thread for each layout) ──▶ sight ──▶ hub ──events──▶ page
//!                   read, check, draw, suggest             ▲                        │
//!                                                          └──────── serve ◀────────┘
//! ```
//!
//! Nothing here writes a file: the text is the master. The page is served on 127.0.0.1 only, below an address that
//! holds a secret, and asks for nothing outside.

mod about;
mod follow;
mod hub;
mod pictures;
mod room;
mod route;
mod serve;
mod sight;
mod watch;

use crate::compile::Options;
use crate::registry::Registry;
use crate::source::World;
use std::path::PathBuf;

/// The most layouts on one desk.
pub const MOST_LAYOUTS: usize = 32;

/// The outside, which tells what was asked for.
pub trait Reading: World {
    /// Every file that was read or looked for.
    fn asked_for(&self) -> Vec<PathBuf>;
}

/// A layout on the desk.
pub struct Layout {
    /// Path of its file, as messages show it.
    pub path: String,
    /// Opens the outside anew, as this layout may see it.
    pub open: Box<dyn Fn() -> Box<dyn Reading> + Send + Sync>,
}

/// How a desk is set up.
pub struct Setup {
    /// The layouts, in the order of the page.
    pub layouts: Vec<Layout>,
    /// Checks and outputs of every layout.
    pub registry: Registry,
    /// How to compile.
    pub options: Options,
    /// The port; 0 for any that is free.
    pub port: u16,
}

pub use serve::Desk;
