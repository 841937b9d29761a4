//! Back-ends: each turns the compiled result into files. Bytes out, no file access.

mod backend;
mod cut_list_csv;
mod findings_json;
mod font_subset;
mod model_json;
mod number;
mod pdf;
mod pdf_mend;
mod pdf_page;
mod svg;
mod svg_style;
#[cfg(test)]
mod tests;

pub use backend::{Backend, OutputFile, Product};
pub use cut_list_csv::CutListCsv;
pub use findings_json::FindingsJson;
pub use model_json::ModelJson;
pub use pdf::{Pdf, file as pdf_file};
pub use svg::{Svg, file as svg_file};
