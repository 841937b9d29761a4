//! Checks: each a file of its own with its manual page as doc comment.

mod check;

pub use check::{Check, Context, Limit, Limits, manual_page};
