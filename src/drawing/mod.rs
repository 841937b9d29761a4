//! Drawings: a closed set of items in paper millimetres, and the pieces of the drawing standards.
//!
//! Paper coordinates: origin at the lower left corner of the trimmed sheet, x to the right, y up. Angles are
//! counter-clockwise. Nothing here knows what file a sheet will become.

pub mod dimension;
mod dimension_figures;
mod dimension_running;
pub mod font;
mod frame;
mod given;
mod hatch;
mod item;
pub mod lettering;
mod line;
mod links;
mod look;
mod outlines;
mod paper;
mod projection;
pub mod scale;
mod scale_bar;
mod sheet;
mod table;
mod title_block;

pub use font::{supports, text_box, text_width};
pub use frame::{frame, held_stamp, title_block_place};
pub use given::{GivenSheet, GivenTable};
pub use hatch::{Hatch, hatch};
pub use item::{Align, Group, Item, Path, Text};
pub use line::{Fill, LineClass};
pub use links::{Spot, Spots, links};
pub use look::{Look, Stroke};
pub use outlines::outlined;
pub use paper::Field;
pub use projection::SeenFrom;
pub use scale_bar::scale_bar;
pub use sheet::{Layer, LayerKind, Paper, Sheet, View};
pub use table::{Column, RowLink, Table};
pub use title_block::TitleFields;
