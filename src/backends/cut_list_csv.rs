//! `cut-list.csv` and `cutting-plan.csv`: RFC 4180, UTF-8 without a byte order mark, `.` as decimal point.
//!
//! The first column says what a row is: `part`, or `total` for the totals of one stock, or of
//! those that share sheets, which follow its parts. While
//! the layout has faults the first row under the header is stamped `HELD` with their number, and every other row's first
//! column starts with `HELD` too, so that neither sorting nor filtering loses the stamp. All rows have the same
//! columns.
//!
//! A text that starts with `=`, `+`, `-`, `@`, a tab or a line end would be run as a formula by some spreadsheet
//! programs, so it gets an apostrophe in front. Figures are never touched.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::part_words::plain;
use crate::base::number::trimmed;
use crate::diagnostic::Counts;
use crate::joinery::{CutList, Row, StockTotal, machining, row_note, sheets_of_each_size, stands};
use crate::model::{Model, Stock};

/// Writes `cut-list.csv` and `cutting-plan.csv`.
#[derive(Debug, Clone, Copy, Default)]
pub struct CutListCsv;

/// Columns of `cut-list.csv`.
const COLUMNS: [&str; 36] = [
    "row",
    "part number",
    "name",
    "modules",
    "count",
    "finished length mm",
    "finished width mm",
    "thickness mm",
    "cut length mm",
    "cut width mm",
    "stock",
    "material",
    "grain",
    "hand",
    "band front mm",
    "band back mm",
    "band left mm",
    "band right mm",
    "scribe front mm",
    "scribe back mm",
    "scribe left mm",
    "scribe right mm",
    "machining",
    "held by",
    "where",
    "note",
    "mass each kg",
    "mass total kg",
    "area m2",
    "sheets",
    "sheets at least",
    "waste %",
    "price",
    "too large",
    "kerf mm",
    "trim mm",
];

/// Columns of `cutting-plan.csv`. x and y are from the sheet's left front corner; length and width are cut sizes.
const PLAN_COLUMNS: [&str; 13] = [
    "row",
    "stock",
    "material",
    "sheet",
    "sheet length mm",
    "sheet width mm",
    "part number",
    "name",
    "x mm",
    "y mm",
    "along sheet mm",
    "across sheet mm",
    "turned",
];

impl Backend for CutListCsv {
    fn name(&self) -> &'static str {
        "cut-list"
    }

    fn says(&self) -> &'static str {
        "Cut list with totals for each stock, and the sheets it is cut from (cut-list.csv, cutting-plan.csv)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let faults = Counts::of(product.findings).faults;
        let list = table(&COLUMNS, faults, cut_list_rows(product.model, product.figures.cut_list()))?;
        let plan = table(&PLAN_COLUMNS, faults, plan_rows(product.model, product.figures.cut_list()))?;
        Ok(vec![
            OutputFile { name: "cut-list.csv".to_owned(), bytes: list },
            OutputFile { name: "cutting-plan.csv".to_owned(), bytes: plan },
        ])
    }
}

/// One row as (column, text); the columns that it does not name stay empty.
type Cells = Vec<(&'static str, String)>;

fn table(columns: &[&'static str], faults: usize, rows: Vec<Cells>) -> Result<Vec<u8>, String> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let failed = |error: csv::Error| format!("the CSV text could not be made: {error}");
    writer.write_record(columns).map_err(failed)?;
    let stamp = (faults > 0).then(|| held(faults));
    for row in stamp.into_iter().chain(rows) {
        let cell = |column: &&'static str| {
            let text = row.iter().find(|(name, _)| name == column).map_or("", |(_, text)| text);
            match *column {
                "row" if faults > 0 && text != "HELD" => format!("HELD {text}"),
                _ => text.to_owned(),
            }
        };
        writer.write_record(columns.iter().map(cell)).map_err(failed)?;
    }
    writer.into_inner().map_err(|error| format!("the CSV text could not be made: {error}"))
}

fn held(faults: usize) -> Cells {
    let says = match faults {
        1 => "1 fault found: do not cut from this list".to_owned(),
        _ => format!("{faults} faults found: do not cut from this list"),
    };
    vec![("row", "HELD".to_owned()), ("name", says)]
}

fn size(mm: f64) -> String {
    trimmed(mm, 1)
}

fn cut_list_rows(model: &Model, list: &CutList) -> Vec<Cells> {
    let mut rows = Vec::new();
    for total in &list.totals {
        let Some(stock) = total.stocks(model).next() else { continue };
        let own = list.rows.get(total.rows.clone()).unwrap_or_default();
        rows.extend(own.iter().filter_map(|row| Some(part_cells(row, model.stocks.get(row.stock)?))));
        rows.push(total_cells(total, own, (stock, &total.names(model))));
    }
    rows
}

fn part_cells(row: &Row, stock: &Stock) -> Cells {
    let count = f64::from(row.count);
    let modules: Vec<String> = row.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
    let band = |mm: f64| if mm > 0.0 { trimmed(mm, 2) } else { String::new() };
    vec![
        ("row", "part".to_owned()),
        ("part number", plain(&row.number)),
        ("name", plain(&row.name)),
        ("modules", plain(&modules.join("; "))),
        ("count", row.count.to_string()),
        ("finished length mm", size(row.finished.0)),
        ("finished width mm", size(row.finished.1)),
        ("thickness mm", size(row.finished.2)),
        ("cut length mm", size(row.cut.0)),
        ("cut width mm", size(row.cut.1)),
        ("stock", plain(&stock.name)),
        ("material", plain(&stock.material)),
        ("grain", row.grain.name().to_owned()),
        ("hand", row.hand.map_or_else(String::new, |hand| hand.name().to_owned())),
        ("band front mm", band(row.bands.front)),
        ("band back mm", band(row.bands.back)),
        ("band left mm", band(row.bands.left)),
        ("band right mm", band(row.bands.right)),
        ("scribe front mm", band(row.scribe.front)),
        ("scribe back mm", band(row.scribe.back)),
        ("scribe left mm", band(row.scribe.left)),
        ("scribe right mm", band(row.scribe.right)),
        ("machining", plain(&machining(row))),
        ("held by", plain(row.held.as_deref().unwrap_or_default())),
        ("where", plain(&stands(row))),
        ("note", plain(&row_note(row))),
        ("mass each kg", format!("{:.3}", row.mass)),
        ("mass total kg", format!("{:.3}", row.mass * count)),
        ("area m2", format!("{:.3}", row.cut.0 * row.cut.1 * count / 1e6)),
        ("too large", if row.too_large { "too large".to_owned() } else { String::new() }),
    ]
}

fn total_cells(total: &StockTotal, rows: &[Row], (stock, names): (&Stock, &str)) -> Cells {
    let large: Vec<&str> = rows.iter().filter(|row| row.too_large).map(|row| row.number.as_str()).collect();
    vec![
        ("row", "total".to_owned()),
        ("name", plain(&format!("Total {names}"))),
        ("count", total.pieces.to_string()),
        ("thickness mm", size(stock.thickness)),
        ("stock", plain(names)),
        ("material", plain(&stock.material)),
        ("note", total_note(total)),
        ("mass total kg", format!("{:.3}", total.mass)),
        ("area m2", format!("{:.3}", total.area)),
        ("sheets", total.plan.sheets.len().to_string()),
        ("sheets at least", total.plan.bound.to_string()),
        ("waste %", format!("{:.1}", total.waste * 100.0)),
        ("price", total.price.map_or_else(String::new, |price| format!("{price:.2}"))),
        ("too large", if large.is_empty() { String::new() } else { format!("too large: {}", large.join(", ")) }),
        ("kerf mm", trimmed(stock.kerf, 2)),
        ("trim mm", trimmed(stock.trim, 2)),
    ]
}

/// Sheets of each size, and what is in no plan.
fn total_note(total: &StockTotal) -> String {
    let left_out = (total.plan.unplaced > 0).then(|| format!("{} pieces in no cutting plan", total.plan.unplaced));
    sheets_of_each_size(total, "x").into_iter().chain(left_out).collect::<Vec<_>>().join("; ")
}

fn plan_rows(model: &Model, list: &CutList) -> Vec<Cells> {
    let mut rows = Vec::new();
    for total in &list.totals {
        let (Some(stock), names) = (total.stocks(model).next(), total.names(model)) else { continue };
        for (index, sheet) in total.plan.sheets.iter().enumerate() {
            for piece in &sheet.pieces {
                let Some(row) = list.row(total, piece.piece) else { continue };
                rows.push(vec![
                    ("row", "piece".to_owned()),
                    ("stock", plain(&names)),
                    ("material", plain(&stock.material)),
                    ("sheet", (index + 1).to_string()),
                    ("sheet length mm", size(sheet.size.0)),
                    ("sheet width mm", size(sheet.size.1)),
                    ("part number", plain(&row.number)),
                    ("name", plain(&row.name)),
                    ("x mm", size(piece.x)),
                    ("y mm", size(piece.y)),
                    ("along sheet mm", size(piece.length)),
                    ("across sheet mm", size(piece.width)),
                    ("turned", if piece.turned { "turned".to_owned() } else { String::new() }),
                ]);
            }
        }
    }
    rows
}
