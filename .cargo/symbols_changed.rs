//! Rebuilds when a file is added to or removed from the built-in symbols or the examples of the checks, which are built in.
#![allow(clippy::print_stdout, reason = "the way a build script speaks to cargo")]

fn main() {
    println!("cargo:rerun-if-changed=symbols");
    println!("cargo:rerun-if-changed=tests/suite");
}
