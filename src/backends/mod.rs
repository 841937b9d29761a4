//! Back-ends: each turns the compiled result into files. Bytes out, no file access.

mod backend;
mod cut_list_csv;
mod findings_json;
mod model_json;
#[cfg(test)]
mod tests;

pub use backend::{Backend, OutputFile, Product};
pub use cut_list_csv::CutListCsv;
pub use findings_json::FindingsJson;
pub use model_json::ModelJson;
