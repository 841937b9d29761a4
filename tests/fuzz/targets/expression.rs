//! Expressions.
#![no_main]

mod shared;

shared::text_target!(|text| shared::drivers::expression(text, &mut 0));
