//! Layouts: each input is a text that stands in the place of a layout.
#![no_main]

mod shared;

shared::file_target!("layouts/marram.yaml");
