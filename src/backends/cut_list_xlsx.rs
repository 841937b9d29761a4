//! `cut-list.xlsx` (ISO/IEC 29500): a sheet for each stock, one for hardware and edge bands, and a summary with prices.
//!
//! The same rows as `cut-list.csv`. While the layout has faults the first row of every sheet says so. The file has no date
//! of its own, so that the same layout gives the same bytes.

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::diagnostic::Counts;
use crate::joinery::{
    CutList, Purchases, Row, StockTotal, machining, purchases, row_note, sheets_of_each_size, stands,
};
use crate::model::Model;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, Worksheet, XlsxError};

/// Writes `cut-list.xlsx`.
#[derive(Debug, Clone, Copy, Default)]
pub struct CutListXlsx;

impl Backend for CutListXlsx {
    fn name(&self) -> &'static str {
        "cut-list-xlsx"
    }

    fn says(&self) -> &'static str {
        "Cut list, hardware and prices as a spreadsheet (cut-list.xlsx)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let bytes = workbook(product).map_err(|error| format!("the spreadsheet could not be made: {error}"))?;
        Ok(vec![OutputFile { name: "cut-list.xlsx".to_owned(), bytes }])
    }
}

/// A cell.
enum Cell {
    Words(String),
    Figure(f64),
    Empty,
}

/// A column: its head, and its width in letters.
type Column = (&'static str, f64);

const PARTS: [Column; 26] = [
    ("part number", 18.0),
    ("name", 24.0),
    ("hand", 7.0),
    ("stock", 12.0),
    ("count", 7.0),
    ("cut length mm", 10.0),
    ("cut width mm", 10.0),
    ("finished length mm", 10.0),
    ("finished width mm", 10.0),
    ("thickness mm", 10.0),
    ("grain", 8.0),
    ("band front mm", 8.0),
    ("band back mm", 8.0),
    ("band left mm", 8.0),
    ("band right mm", 8.0),
    ("scribe front mm", 8.0),
    ("scribe back mm", 8.0),
    ("scribe left mm", 8.0),
    ("scribe right mm", 8.0),
    ("modules", 24.0),
    ("where", 40.0),
    ("machining", 50.0),
    ("note", 40.0),
    ("mass each kg", 9.0),
    ("mass total kg", 9.0),
    ("area m2", 9.0),
];
const BOUGHT: [Column; 5] =
    [("hardware", 28.0), ("size mm", 10.0), ("count or m", 12.0), ("modules", 60.0), ("price", 12.0)];
const SUMMARY: [Column; 9] = [
    ("stock", 20.0),
    ("material", 22.0),
    ("pieces", 9.0),
    ("area m2", 9.0),
    ("mass kg", 9.0),
    ("sheets", 40.0),
    ("sheets at least", 14.0),
    ("waste %", 9.0),
    ("price", 12.0),
];

fn workbook(product: &Product<'_>) -> Result<Vec<u8>, XlsxError> {
    let (model, list) = (product.model, product.figures.cut_list());
    let faults = Counts::of(product.findings).faults;
    let mut book = Workbook::new();
    let date = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(&DocProperties::new().set_title(&model.title.title).set_creation_datetime(&date));
    let mut names: Vec<String> = Vec::new();
    for total in &list.totals {
        let name = free_name(&total.names(model), &mut names);
        let own = list.rows.get(total.rows.clone()).unwrap_or_default();
        let rows = own.iter().map(|row| part(row, model)).collect();
        fill(book.add_worksheet().set_name(name)?, &PARTS, rows, faults)?;
    }
    let bought = purchases(model, list);
    fill(book.add_worksheet().set_name(free_name("Hardware", &mut names))?, &BOUGHT, hardware(model, &bought), faults)?;
    let summary = summary(model, list, &bought);
    fill(book.add_worksheet().set_name(free_name("Summary", &mut names))?, &SUMMARY, summary, faults)?;
    book.save_to_buffer()
}

/// A name that a spreadsheet takes (31 letters, without some signs) and that no sheet before has in whatever case.
fn free_name(wish: &str, names: &mut Vec<String>) -> String {
    let plain: String = wish.chars().map(|c| if "[]:*?/\\'".contains(c) { '-' } else { c }).take(27).collect();
    let mut name = plain.clone();
    let mut count = 1;
    while names.iter().any(|known| known.to_lowercase() == name.to_lowercase()) {
        count += 1;
        name = format!("{plain} {count}");
    }
    names.push(name.clone());
    name
}

/// Writes heads and rows, with a stamp over them while faults hold the list.
fn fill(sheet: &mut Worksheet, columns: &[Column], rows: Vec<Vec<Cell>>, faults: usize) -> Result<(), XlsxError> {
    let bold = Format::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let wrap = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    let figure = Format::new().set_align(FormatAlign::Top);
    let top = u32::from(faults > 0);
    if faults > 0 {
        let words = format!("HELD: {faults} faults found, do not cut from this list");
        sheet.write_string_with_format(0, 0, words, &Format::new().set_bold())?;
    }
    for (at, (head, width)) in (0_u16..).zip(columns) {
        sheet.set_column_width(at, *width)?;
        sheet.write_string_with_format(top, at, *head, &bold)?;
    }
    for (at, row) in (top + 1..).zip(rows) {
        for (column, cell) in (0_u16..).zip(row) {
            match cell {
                Cell::Words(words) => sheet.write_string_with_format(at, column, words, &wrap)?,
                Cell::Figure(value) => sheet.write_number_with_format(at, column, value, &figure)?,
                Cell::Empty => sheet,
            };
        }
    }
    sheet.set_freeze_panes(top + 1, 0)?;
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0).set_repeat_rows(top, top)?;
    Ok(())
}

fn words(text: impl Into<String>) -> Cell {
    let text = text.into();
    if text.is_empty() { Cell::Empty } else { Cell::Words(text) }
}

/// A figure with at most three decimals; nothing for 0.
fn figure(value: f64) -> Cell {
    if value > 0.0 { Cell::Figure(crate::base::number::micrometres(value)) } else { Cell::Empty }
}

fn part(row: &Row, model: &Model) -> Vec<Cell> {
    let modules: Vec<String> = row.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
    let count = f64::from(row.count);
    let edges = |edges: &crate::model::Bands| [edges.front, edges.back, edges.left, edges.right].map(figure);
    let sizes = [row.cut.0, row.cut.1, row.finished.0, row.finished.1, row.finished.2];
    let mut cells = vec![
        words(row.number.clone()),
        words(row.name.clone()),
        words(row.hand.map_or("", |hand| hand.name())),
        words(model.stocks.get(row.stock).map_or("", |stock| stock.name.as_str())),
        Cell::Figure(count),
    ];
    cells.extend(sizes.map(figure));
    cells.push(words(row.grain.name()));
    cells.extend(edges(&row.bands));
    cells.extend(edges(&row.scribe));
    cells.extend([modules.join("; "), stands(row), machining(row), row_note(row)].map(words));
    cells.extend([row.mass, row.mass * count, row.cut.0 * row.cut.1 * count / 1e6].map(figure));
    cells
}

fn price(price: Option<f64>) -> Cell {
    price.map_or(Cell::Empty, |price| Cell::Figure((price * 100.0).round() / 100.0))
}

fn hardware(model: &Model, bought: &Purchases) -> Vec<Vec<Cell>> {
    let pieces = bought.hardware.iter().map(|one| {
        let whose: Vec<String> = one.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
        let size = one.size.map_or(Cell::Empty, figure);
        vec![words(one.words()), size, Cell::Figure(f64::from(one.count)), words(whose.join("; ")), price(one.price)]
    });
    let bands = bought.bands.iter().map(|band| {
        let stock = model.stocks.get(band.stock).map_or("", |stock| stock.name.as_str());
        let whose = format!("for the stock {stock}, in metres");
        vec![words("edge band"), figure(band.thickness), figure(band.metres), words(whose), price(band.price)]
    });
    pieces.chain(bands).collect()
}

fn summary(model: &Model, list: &CutList, bought: &Purchases) -> Vec<Vec<Cell>> {
    let mut rows: Vec<Vec<Cell>> = list.totals.iter().map(|total| stock_row(model, total)).collect();
    let sum = |prices: &mut dyn Iterator<Item = Option<f64>>| prices.flatten().sum::<f64>();
    let sheets = sum(&mut list.totals.iter().map(|total| total.price));
    let bands = sum(&mut bought.bands.iter().map(|band| band.price));
    let pieces = sum(&mut bought.hardware.iter().map(|one| one.price));
    let mass: f64 = list.totals.iter().map(|total| total.mass).sum();
    let row = |name: &str, mass: f64, price: f64| {
        let mut cells = vec![words(name), Cell::Empty, Cell::Empty, Cell::Empty, figure(mass)];
        cells.extend([Cell::Empty, Cell::Empty, Cell::Empty, figure(price)]);
        cells
    };
    rows.push(row("hardware, where priced", 0.0, pieces));
    rows.push(row("edge bands", 0.0, bands));
    rows.push(row("sum, of what has a price", mass, sheets + bands + pieces));
    rows
}

fn stock_row(model: &Model, total: &StockTotal) -> Vec<Cell> {
    let stock = total.stocks(model).next();
    vec![
        words(total.names(model)),
        words(stock.map_or("", |stock| stock.material.as_str())),
        Cell::Figure(f64::from(total.pieces)),
        figure(total.area),
        figure(total.mass),
        words(sheets_of_each_size(total, "x").join("; ")),
        Cell::Figure(total.plan.bound as f64),
        Cell::Figure((total.waste * 1000.0).round() / 10.0),
        price(total.price),
    ]
}
