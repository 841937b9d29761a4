//! Back-ends: each turns the compiled result into files. Bytes out, no file access.

mod backend;
mod font_subset;
mod number;
mod pdf;
mod pdf_mend;
mod pdf_page;
mod svg;
mod svg_style;

pub use backend::{Backend, OutputFile, Product};
pub use pdf::{Pdf, file as pdf_file};
pub use svg::{Svg, file as svg_file};
