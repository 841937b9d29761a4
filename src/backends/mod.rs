//! Back-ends: each turns the compiled result into files. Bytes out, no file access.

mod backend;
mod csv_form;
mod cut_list_csv;
mod cut_list_xlsx;
mod findings_json;
mod findings_report;
mod font_subset;
mod labels_pdf;
mod model_json;
mod nest_json;
mod number;
mod part_words;
mod pdf;
mod pdf_content;
mod pdf_mend;
mod pdf_page;
mod png;
mod report_json;
mod router_code;
mod sarif;
mod sheets_json;
mod svg;
mod svg_style;
#[cfg(test)]
mod tests;
mod tiles_pdf;
mod true_size;

pub use backend::{Backend, OutputFile, Picture, Product, Reads, SheetMaker};
pub use csv_form::{CsvForm, Separator};
pub use cut_list_csv::CutListCsv;
pub use cut_list_xlsx::CutListXlsx;
pub use findings_json::FindingsJson;
pub use findings_report::{Found, Report, findings_schema};
pub use labels_pdf::LabelsPdf;
pub use model_json::{ModelJson, ModelWire, model_schema, model_wire};
pub use nest_json::{nest_json, nest_schema};
pub use pdf::{Pdf, file as pdf_file};
pub use png::{Png, file as png_file};
pub use report_json::{ReportJson, ReportWire, report_schema, report_wire};
pub use router_code::RouterCode;
pub use sarif::{Rule, sarif_log};
pub use sheets_json::{SheetsWire, ViewWire, path as read_path, sheets_schema, sheets_wire};
pub use svg::{Inset, Svg, file as svg_file, inset as svg_inset, plain as plain_id};
pub use tiles_pdf::TilesPdf;
pub use true_size::TrueSize;
