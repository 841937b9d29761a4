//! Checks: each a file of its own with its manual page as doc comment.

mod check;
#[cfg(test)]
mod testing;

pub use check::{Check, Context, Limit, Limits, manual_page};
