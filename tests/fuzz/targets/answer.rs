//! What plug-ins say: descriptions and answers.
#![no_main]

mod shared;

shared::text_target!(|text| shared::drivers::answered(text, &mut 0));
