//! Back-ends: each turns the compiled result into files. Bytes out, no file access.

mod backend;

pub use backend::{Backend, OutputFile, Product};
