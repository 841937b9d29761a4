//! Rebuilds the library when a file is added to or removed from the built-in symbols, which are part of it.
#![allow(clippy::print_stdout, reason = "the way a build script speaks to cargo")]

fn main() {
    println!("cargo:rerun-if-changed=symbols");
}
