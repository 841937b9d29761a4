//! Themes of the brochure: each input stands in the place of a theme that a layout wears.
#![no_main]

mod shared;

shared::file_target!("own.yaml");
