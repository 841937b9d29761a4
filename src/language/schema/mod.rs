//! JSON Schemas of the languages, for editors and for programs that write layouts.
//!
//! They share the words and tables of figures with the readers; a test holds every key and word of the two together. What a
//! schema can't see: how expressions are written and what they come to, references between entries, and what the texts of
//! YAML itself may not have. What compiles follows the schema.

mod keys;
mod layout;
mod parts;
mod places;
mod router;
mod rules;
mod shapes;
mod symbol;
#[cfg(test)]
mod tests;
mod theme;
mod vehicle;

pub use layout::layout_schema;
pub use rules::rules_schema;
pub use symbol::{recipe_schema, symbol_schema};
pub use theme::theme_schema;
