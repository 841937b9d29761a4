//! Furniture symbols: each input stands in the place of a symbol that a layout places.
#![no_main]

mod shared;

shared::file_target!("mine/bed/fixed-across.yaml");
