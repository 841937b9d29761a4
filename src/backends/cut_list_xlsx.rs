//! `cut-list.xlsx` (ISO/IEC 29500): a sheet for each stock to saw from, one for the work on all parts, edge bands,
//! hardware, and a summary with prices.
//!
//! The same rows as `cut-list.csv`. No sheet has more than twelve columns, so that it prints legibly: A4 across, as wide as the
//! page, with the heads on every page and job, sheet and page over and under it. While the layout has faults the first row of every sheet says so. The file has no date
//! of its own, so that the same layout gives the same bytes.

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::diagnostic::Held;
use crate::joinery::{
    BandTotal, CutList, HardwareTotal, Purchases, Row, StockTotal, band_words, edge_words, machining, row_note,
    sheets_of_each_size, stands,
};
use crate::model::Model;
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, Worksheet, XlsxError,
};

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

const PARTS: [Column; 12] = [
    ("part number", 18.0),
    ("name", 26.0),
    ("count", 7.0),
    ("cut length mm", 9.0),
    ("cut width mm", 9.0),
    ("finished length mm", 10.0),
    ("finished width mm", 10.0),
    ("thickness mm", 10.5),
    ("grain", 8.0),
    ("bands", 24.0),
    ("mass each kg", 9.0),
    ("mass total kg", 9.0),
];
const WORK: [Column; 9] = [
    ("part number", 18.0),
    ("stock", 11.0),
    ("hand", 7.0),
    ("scribing", 13.0),
    ("machining", 42.0),
    ("note", 26.0),
    ("modules", 18.0),
    ("where", 28.0),
    ("area m2", 8.0),
];
const BANDS: [Column; 8] = [
    ("material", 22.0),
    ("thickness mm", 11.0),
    ("width mm", 10.0),
    ("stocks", 26.0),
    ("edges", 9.0),
    ("on the pieces m", 12.0),
    ("to buy m", 10.0),
    ("price", 12.0),
];
const BOUGHT: [Column; 5] = [("hardware", 28.0), ("size mm", 10.0), ("count", 9.0), ("modules", 60.0), ("price", 12.0)];
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

/// A sheet: its name, its columns, its rows.
type Planned = (String, &'static [Column], Vec<Vec<Cell>>);

fn workbook(product: &Product<'_>) -> Result<Vec<u8>, XlsxError> {
    let (model, list) = (product.model, product.figures.cut_list());
    let held = product.held();
    let mut book = Workbook::new();
    let date = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(&DocProperties::new().set_title(&model.title.title).set_creation_datetime(&date));
    let bought = product.figures.purchases();
    let mut sheets: Vec<Planned> = Vec::new();
    for total in &list.totals {
        let own = list.rows.get(total.rows.clone()).unwrap_or_default();
        let hands = |index| product.figures.hands_of(index);
        let parts = own.iter().zip(total.rows.start..).map(|(row, index)| part(row, &hands(index)));
        let rows = parts.chain([total_row(total)]).collect();
        sheets.push((total.names(model), &PARTS, rows));
    }
    let worked = list.rows.iter().enumerate().map(|(index, row)| work(row, product.figures.hands_of(index), model));
    sheets.push(("Work".to_owned(), &WORK, worked.collect()));
    sheets.push(("Edge bands".to_owned(), &BANDS, bands(model, bought)));
    sheets.push(("Hardware".to_owned(), &BOUGHT, hardware(bought)));
    sheets.push(("Summary".to_owned(), &SUMMARY, summary(model, list, bought)));
    let mut names: Vec<String> = Vec::new();
    for (name, columns, rows) in sheets {
        let sheet = book.add_worksheet().set_name(free_name(&name, &mut names))?;
        fill(sheet, columns, rows, held)?;
        page(sheet, model)?;
    }
    book.save_to_buffer()
}

/// Inches from the edges of the paper to the cells, and to what stands over and under them.
const MARGINS: [f64; 6] = [0.4, 0.4, 0.7, 0.7, 0.3, 0.3];
/// Letters of a text over the cells, at most: a spreadsheet takes 255 with its marks.
const OVER: usize = 80;

/// How a sheet is printed.
fn page(sheet: &mut Worksheet, model: &Model) -> Result<(), XlsxError> {
    let short = |text: &str| text.chars().take(OVER).collect::<String>().replace('&', "&&");
    let (title, job) = (&model.title, [&model.title.number, &model.title.revision]);
    let job = job.into_iter().filter(|word| !word.is_empty()).map(|word| short(word)).collect::<Vec<_>>().join(", ");
    let [left, right, top, bottom, header, footer] = MARGINS;
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
    sheet.set_margins(left, right, top, bottom, header, footer);
    sheet.set_header(format!("&L{}&R{job}", short(&title.title))).set_footer("&L&A&Rpage &P of &N");
    Ok(())
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

/// Colour behind the heads.
const HEADS: u32 = 0x00E4_E4E4;

/// Writes heads and rows, with a stamp over them while faults hold the list.
fn fill(sheet: &mut Worksheet, columns: &[Column], rows: Vec<Vec<Cell>>, held: Held) -> Result<(), XlsxError> {
    let cell = Format::new().set_font_name("Arial").set_font_size(10).set_align(FormatAlign::Top);
    let figure = cell.set_border(FormatBorder::Thin);
    let wrap = figure.clone().set_text_wrap().set_align(FormatAlign::Left).set_indent(1);
    let bold = wrap.clone().set_bold().set_background_color(HEADS);
    let top = u32::from(held.any());
    if held.any() {
        let words = format!("{}: {} found, do not cut from this list", held.word(), held.reasons());
        sheet.write_string_with_format(0, 0, words, &Format::new().set_bold())?;
    }
    for (at, (head, width)) in (0_u16..).zip(columns) {
        sheet.set_column_width(at, *width)?;
        sheet.write_string_with_format(top, at, *head, &bold)?;
    }
    let heads: Vec<Cell> = columns.iter().map(|(head, _)| words(*head)).collect();
    sheet.set_row_height(top, height(columns, &heads))?;
    for (at, row) in (top + 1..).zip(rows) {
        sheet.set_row_height(at, height(columns, &row))?;
        for (column, cell) in (0_u16..).zip(row) {
            match cell {
                Cell::Words(words) => sheet.write_string_with_format(at, column, words, &wrap)?,
                Cell::Figure(value) => sheet.write_number_with_format(at, column, value, &figure)?,
                Cell::Empty => sheet.write_blank(at, column, &figure)?,
            };
        }
    }
    sheet.set_freeze_panes(top + 1, 0)?;
    sheet.set_repeat_rows(0, top)?;
    Ok(())
}

/// Height of a line and of the highest row that a spreadsheet takes, points.
const LINE: f64 = 13.0;
const HIGHEST: f64 = 409.0;
/// Pixels of a letter of a column's width, and of the air in a cell.
const LETTER: f64 = 7.0;
const AIR: f64 = 12.0;

/// Height of a row whose words go on in further lines, points: not every program finds it by itself.
fn height(columns: &[Column], row: &[Cell]) -> f64 {
    let lines = columns.iter().zip(row).map(|((_, width), cell)| match cell {
        Cell::Words(words) => lines(words, width * LETTER - AIR),
        _ => 1,
    });
    (LINE * lines.max().unwrap_or(1) as f64 + 2.0).min(HIGHEST)
}

/// How many lines of so many pixels words take.
fn lines(words: &str, most: f64) -> usize {
    let (mut lines, mut used) = (1, 0.0);
    for word in words.split_whitespace() {
        let long = pixels(word);
        if used > 0.0 && used + pixels(" ") + long > most {
            (lines, used) = (lines + 1, 0.0);
        }
        lines += (long / most).ceil().max(1.0) as usize - 1;
        used += if used > 0.0 { pixels(" ") } else { 0.0 } + long % most;
    }
    lines
}

/// Width of a word in bold letters of 10 points, pixels, rather too much: narrow, usual and wide letters are told apart.
fn pixels(word: &str) -> f64 {
    let letter = |c: char| match c {
        'i' | 'j' | 'l' | 't' | 'f' | 'r' | 'I' | ' ' | '.' | ',' | ':' | ';' | '(' | ')' | '-' | '/' | '\'' | '|' => {
            4.8
        }
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 12.0,
        'A'..='Z' => 9.8,
        _ if c.is_ascii() => 7.8,
        _ => 13.4,
    };
    word.chars().map(letter).sum()
}

fn words(text: impl Into<String>) -> Cell {
    let text = text.into();
    if text.is_empty() { Cell::Empty } else { Cell::Words(text) }
}

/// A length as a saw is set, to a tenth of a mm.
fn length(mm: f64) -> Cell {
    figure((mm * 10.0).round() / 10.0)
}

/// A figure with at most three decimals; nothing for 0.
fn figure(value: f64) -> Cell {
    if value > 0.0 { Cell::Figure(crate::base::number::micrometres(value)) } else { Cell::Empty }
}

fn part(row: &Row, hands: &str) -> Vec<Cell> {
    let count = f64::from(row.count);
    let name = if hands.is_empty() { row.name.clone() } else { format!("{}, {hands} hand", row.name) };
    let sizes = [row.cut.0, row.cut.1, row.finished.0, row.finished.1, row.finished.2];
    let mut cells = vec![words(row.number.clone()), words(name), Cell::Figure(count)];
    cells.extend(sizes.map(length));
    cells.extend([words(row.grain.name()), words(band_words(row))]);
    cells.extend([row.mass, row.mass * count].map(figure));
    cells
}

/// The sums of a stock under its parts.
fn total_row(total: &StockTotal) -> Vec<Cell> {
    let mut cells = vec![words("total"), Cell::Empty, Cell::Figure(f64::from(total.pieces))];
    cells.extend((0..8).map(|_| Cell::Empty));
    cells.push(figure(total.mass));
    cells
}

/// What is done to a part, and where it goes.
fn work(row: &Row, hands: String, model: &Model) -> Vec<Cell> {
    let modules: Vec<String> = row.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
    let stock = model.stocks.get(row.stock).map_or("", |stock| stock.name.as_str());
    let scribing = edge_words(&row.scribe).unwrap_or_default();
    let mut cells = vec![words(row.number.clone()), words(stock), words(hands)];
    cells.extend([scribing, machining(row), row_note(row), modules.join("; "), stands(row)].map(words));
    cells.push(figure(row.cut.0 * row.cut.1 * f64::from(row.count) / 1e6));
    cells
}

fn price(price: Option<f64>) -> Cell {
    price.map_or(Cell::Empty, |price| Cell::Figure((price * 100.0).round() / 100.0))
}

fn hardware(bought: &Purchases) -> Vec<Vec<Cell>> {
    let row = |one: &HardwareTotal| {
        let whose: Vec<String> = one.modules.iter().map(|(module, count)| format!("{module} x{count}")).collect();
        let size = one.size.map_or(Cell::Empty, figure);
        vec![words(one.words()), size, Cell::Figure(f64::from(one.count)), words(whose.join("; ")), price(one.price)]
    };
    bought.hardware.iter().map(row).collect()
}

fn bands(model: &Model, bought: &Purchases) -> Vec<Vec<Cell>> {
    let row = |band: &BandTotal| {
        vec![
            words(band.material.as_str()),
            figure(band.thickness),
            figure(band.width),
            words(band.names(model)),
            Cell::Figure(f64::from(band.edges)),
            figure(band.metres),
            figure(band.buy),
            price(band.price),
        ]
    };
    bought.bands.iter().map(row).collect()
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_as_high_as_their_words() {
        assert_eq!(lines("1 mm: front long edge", 24.0 * LETTER - AIR), 1);
        assert_eq!(lines("slide into the grooves before the last board is screwed on", 26.0 * LETTER - AIR), 3);
        assert!(lines(&"x".repeat(400), 20.0 * LETTER) >= 20);
        assert_eq!(height(&PARTS, &[Cell::Empty, words("door, right hand")]), LINE + 2.0);
    }
}
