//! Boxwright.
pub mod backends;
pub mod base;
pub mod checks;
pub mod cli;
pub mod compile;
pub mod diagnostic;
pub mod drawing;
pub mod geometry;
pub mod joinery;
pub mod language;
pub mod model;
pub mod registry;
pub mod resolve;
pub mod source;
pub mod views;
