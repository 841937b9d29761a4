//! House rules: checks that a layout, or a file of a workshop, writes as lines of YAML.
//!
//! A rule is typed once (`typing`), before the layout is resolved: every mistake in it is an error with its place. As a
//! check (`check`) it takes the things that it is about (`things`), works out its terms for each (`judge`, `fields`,
//! `space`) and makes findings of them (`verdict`, `finding`).

mod check;
mod clauses;
mod fields;
mod finding;
mod judge;
mod kinds;
mod manual;
mod names;
mod rule;
mod space;
mod term;
mod things;
mod typing;
mod verdict;
mod words;

pub use check::house_rules;
pub use rule::PREFIX;
