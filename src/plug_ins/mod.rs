//! Plug-ins: checks, outputs and sheets in WebAssembly, from any language that makes it, behind the same traits and lists as
//! those that are built in.
//!
//! A plug-in sees what it names of the published forms and answers in the same forms (`wire`); it has no files, no clock, no
//! network and no chance, and an end to its steps, its memory and its answer (`program`). What it answers is looked at before
//! anything is done with it (`findings`, `joined`).

mod bounds;
mod findings;
mod joined;
mod plug_in;
#[cfg(feature = "plug-ins")]
mod program;
#[cfg(not(feature = "plug-ins"))]
#[path = "no_program.rs"]
mod program;
mod schemas;
mod things;
mod tried;
mod wire;
mod words;

pub use bounds::Bounds;
pub use plug_in::PlugIn;
pub use program::sha256;
pub use tried::Tried;
pub use wire::{answer_schema, description_schema, question_schema};
