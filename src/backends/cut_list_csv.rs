//! `cut-list.csv` and `cutting-plan.csv`, in the form that the command is told ([`CsvForm`]).
//!
//! The first column says what a row is: `part`, `total` for the totals of one stock, or of those that share sheets,
//! which follow its parts, or `band` for edge band to buy. While the layout has faults the first row under the header is
//! stamped `HELD` (a draft: `DRAFT`) with their number, and every other row's first column starts with that word too, so that neither sorting
//! nor filtering loses the stamp. All rows have the same columns.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::csv_form::{CsvForm, Field};
use crate::base::number::trimmed;
use crate::diagnostic::Held;
use crate::joinery::{
    BandTotal, CutList, Row, SawnPiece, StockTotal, machining, row_note, sawn, sheets_of_each_size, stands,
};
use crate::model::{Model, Stock};

/// Writes `cut-list.csv` and `cutting-plan.csv`.
#[derive(Debug, Clone, Copy, Default)]
pub struct CutListCsv;

/// Columns of `cut-list.csv`.
const COLUMNS: [&str; 39] = [
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
    "band width mm",
    "metres",
    "metres to buy",
];

/// Columns of `cutting-plan.csv`, whose rows are in the order of sawing. x and y are from the sheet's left front corner;
/// `cut` is the number of the cut that sets the piece free, `code` what a scanner reads from its label.
const PLAN_COLUMNS: [&str; 17] = [
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
    "cut",
    "copy",
    "module",
    "code",
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
        let stamp = product.held();
        let list = table(product.csv, &COLUMNS, stamp, cut_list_rows(product))?;
        let plan = table(product.csv, &PLAN_COLUMNS, stamp, plan_rows(product.model, product.figures.cut_list()))?;
        Ok(vec![
            OutputFile { name: "cut-list.csv".to_owned(), bytes: list },
            OutputFile { name: "cutting-plan.csv".to_owned(), bytes: plan },
        ])
    }
}

/// One row as (column, field); the columns that it does not name stay empty.
type Cells = Vec<(&'static str, Field)>;

fn table(form: CsvForm, columns: &[&'static str], stamp: Held, rows: Vec<Cells>) -> Result<Vec<u8>, String> {
    let heads: Cells = columns.iter().map(|head| (*head, Field::from(*head))).collect();
    let first = stamp.any().then(|| held(stamp));
    let rows = rows.into_iter().map(|row| if stamp.any() { stamped(row, stamp) } else { row });
    let rows: Vec<Cells> = std::iter::once(heads).chain(first).chain(rows).collect();
    let nothing = Field::from("");
    form.file(rows.iter().map(|row| line(columns, row, &nothing)))
}

/// The fields of all columns.
fn line<'r>(columns: &[&'static str], row: &'r Cells, nothing: &'r Field) -> Vec<&'r Field> {
    let field = |column: &&str| row.iter().find(|(name, _)| name == column).map_or(nothing, |(_, field)| field);
    columns.iter().map(field).collect()
}

fn stamped(mut row: Cells, stamp: Held) -> Cells {
    for (column, field) in &mut row {
        match field {
            Field::Words(words) if *column == "row" => words.insert_str(0, &format!("{} ", stamp.word())),
            _ => {}
        }
    }
    row
}

fn held(stamp: Held) -> Cells {
    let says = format!("{} found: do not cut from this list", stamp.reasons());
    vec![("row", Field::from(stamp.word())), ("name", Field::Words(says))]
}

/// Words.
fn words(text: &str) -> Field {
    Field::from(text)
}

/// A count.
fn count(count: impl ToString) -> Field {
    Field::Figure(count.to_string())
}

/// A figure with so many decimals.
fn fixed(value: f64, decimals: usize) -> Field {
    Field::Figure(format!("{value:.decimals$}"))
}

/// A length in mm.
fn size(mm: f64) -> Field {
    Field::Figure(trimmed(mm, 1))
}

fn price(price: Option<f64>) -> Field {
    price.map_or_else(|| Field::Figure(String::new()), |price| fixed(price, 2))
}

fn cut_list_rows(product: &Product<'_>) -> Vec<Cells> {
    let (model, list) = (product.model, product.figures.cut_list());
    let mut rows = Vec::new();
    for total in &list.totals {
        let Some(stock) = total.stocks(model).next() else { continue };
        let own = list.rows.get(total.rows.clone()).unwrap_or_default();
        rows.extend(own.iter().zip(total.rows.start..).filter_map(|(row, index)| {
            Some(part_cells((row, &product.figures.hands_of(index)), model.stocks.get(row.stock)?))
        }));
        rows.push(total_cells(total, own, (stock, &total.names(model))));
    }
    rows.extend(product.figures.purchases().bands.iter().map(|band| band_cells(model, band)));
    rows
}

fn part_cells((row, hands): (&Row, &str), stock: &Stock) -> Cells {
    let copies = f64::from(row.count);
    let modules: Vec<String> = row.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
    let band = |mm: f64| Field::Figure(if mm > 0.0 { trimmed(mm, 2) } else { String::new() });
    vec![
        ("row", words("part")),
        ("part number", words(&row.number)),
        ("name", words(&row.name)),
        ("modules", words(&modules.join("; "))),
        ("count", count(row.count)),
        ("finished length mm", size(row.finished.0)),
        ("finished width mm", size(row.finished.1)),
        ("thickness mm", size(row.finished.2)),
        ("cut length mm", size(row.cut.0)),
        ("cut width mm", size(row.cut.1)),
        ("stock", words(&stock.name)),
        ("material", words(&stock.material)),
        ("grain", words(row.grain.name())),
        ("hand", words(hands)),
        ("band front mm", band(row.bands.front)),
        ("band back mm", band(row.bands.back)),
        ("band left mm", band(row.bands.left)),
        ("band right mm", band(row.bands.right)),
        ("scribe front mm", band(row.scribe.front)),
        ("scribe back mm", band(row.scribe.back)),
        ("scribe left mm", band(row.scribe.left)),
        ("scribe right mm", band(row.scribe.right)),
        ("machining", words(&machining(row))),
        ("held by", words(row.held.as_deref().unwrap_or_default())),
        ("where", words(&stands(row))),
        ("note", words(&row_note(row))),
        ("mass each kg", fixed(row.mass, 3)),
        ("mass total kg", fixed(row.mass * copies, 3)),
        ("area m2", fixed(row.cut.0 * row.cut.1 * copies / 1e6, 3)),
        ("too large", words(if row.too_large { "too large" } else { "" })),
    ]
}

fn total_cells(total: &StockTotal, rows: &[Row], (stock, names): (&Stock, &str)) -> Cells {
    let large: Vec<&str> = rows.iter().filter(|row| row.too_large).map(|row| row.number.as_str()).collect();
    vec![
        ("row", words("total")),
        ("name", words(&format!("Total {names}"))),
        ("count", count(total.pieces)),
        ("thickness mm", size(stock.thickness)),
        ("stock", words(names)),
        ("material", words(&stock.material)),
        ("note", words(&total_note(total))),
        ("mass total kg", fixed(total.mass, 3)),
        ("area m2", fixed(total.area, 3)),
        ("sheets", count(total.plan.sheets.len())),
        ("sheets at least", count(total.plan.bound)),
        ("waste %", fixed(total.waste * 100.0, 1)),
        ("price", price(total.price)),
        (
            "too large",
            words(&if large.is_empty() { String::new() } else { format!("too large: {}", large.join(", ")) }),
        ),
        ("kerf mm", Field::Figure(trimmed(stock.kerf, 2))),
        ("trim mm", Field::Figure(trimmed(stock.trim, 2))),
    ]
}

fn band_cells(model: &Model, band: &BandTotal) -> Cells {
    vec![
        ("row", words("band")),
        ("name", words(&band.words("x"))),
        ("count", count(band.edges)),
        ("thickness mm", Field::Figure(trimmed(band.thickness, 2))),
        ("stock", words(&band.names(model))),
        ("material", words(&band.material)),
        ("price", price(band.price)),
        ("band width mm", size(band.width)),
        ("metres", fixed(band.metres, 2)),
        ("metres to buy", count(band.buy)),
    ]
}

/// Sheets of each size, and what is in no plan.
fn total_note(total: &StockTotal) -> String {
    let left_out = (total.plan.unplaced > 0).then(|| format!("{} pieces in no cutting plan", total.plan.unplaced));
    sheets_of_each_size(total, "x").into_iter().chain(left_out).collect::<Vec<_>>().join("; ")
}

fn plan_rows(model: &Model, list: &CutList) -> Vec<Cells> {
    let row = |one: &SawnPiece<'_>| {
        let from = one.from?;
        let (total, piece) = (from.total, from.placed);
        let (stock, sheet) = (total.stocks(model).next()?, total.plan.sheets.get(from.sheet.checked_sub(1)?)?);
        Some(vec![
            ("row", words("piece")),
            ("stock", words(&total.names(model))),
            ("material", words(&stock.material)),
            ("sheet", count(from.sheet)),
            ("sheet length mm", size(sheet.size.0)),
            ("sheet width mm", size(sheet.size.1)),
            ("part number", words(&one.row.number)),
            ("name", words(&one.row.name)),
            ("x mm", size(piece.x)),
            ("y mm", size(piece.y)),
            ("along sheet mm", size(piece.length)),
            ("across sheet mm", size(piece.width)),
            ("turned", words(if piece.turned { "turned" } else { "" })),
            ("cut", Field::Figure(from.cut.map_or_else(String::new, |cut| cut.to_string()))),
            ("copy", count(one.copy)),
            ("module", words(one.module)),
            ("code", words(&one.code(model))),
        ])
    };
    sawn(model, list).iter().filter_map(row).collect()
}
