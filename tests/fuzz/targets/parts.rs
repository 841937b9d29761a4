//! Lists of parts.
#![no_main]

mod shared;

shared::text_target!(|text| shared::drivers::parts(text, &mut 0));
