//! Drawings: a closed set of items in paper millimetres, and the pieces of the drawing standards.
//!
//! Paper coordinates: origin at the lower left corner of the trimmed sheet, x to the right, y up. Angles are
//! counter-clockwise. Nothing here knows what file a sheet will become.

mod item;
mod line;
mod sheet;

pub use item::{Align, Group, Item, Path, Text};
pub use line::{Fill, LineClass};
pub use sheet::{Layer, LayerKind, Paper, Sheet, View};
