//! A table of parts: one row for each, columns by the names in the first row, with commas, semicolons or tabs between.

use super::super::nesting::{Piece, Request, Turn};
use super::super::{CutPart, turn};
use super::figures::{no_count, no_length, no_width, too_wide};
use super::job::{PartsJob, PartsList, Saw, at, only};
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::Grain;
use crate::model::materials::{KERF, TRIM};
use crate::source::{FileId, Span};
use std::collections::BTreeMap;
use std::ops::Range;

const COLUMNS: [&str; 6] = ["number", "length", "width", "count", "grain", "bands"];
const NEEDED: [&str; 2] = ["length", "width"];

/// The fields of one line with their places.
type Row = Vec<(String, Range<usize>)>;

pub(super) fn job(id: &str, text: &str, file: FileId, saw: &Saw) -> Result<PartsList, Sink> {
    let between = between(text);
    let mut rows = rows(text, between).into_iter();
    let (errors, notes) = (Sink::default(), Sink::default());
    let mut table = Table { file, commas: between != b',', columns: Vec::new(), errors, notes };
    let help = "write a first row with the names of the columns: number,length,width,count,grain,bands";
    let Some(head) = rows.next() else {
        return Err(only(Diagnostic::new(at(file, 0..0), "this list of parts is empty").help(help)));
    };
    table.head(&head);
    let mut pieces = Vec::new();
    let mut parts = Vec::new();
    let mut known = BTreeMap::new();
    for (index, row) in rows.enumerate() {
        table.note_same_number(&row, &mut known);
        if let Some((piece, part)) = table.part(index + 1, &row, saw) {
            pieces.push(piece);
            parts.push(part);
        }
    }
    let request = Request {
        sheets: saw.sheets.clone(),
        kerf: saw.kerf.unwrap_or(KERF),
        trim: saw.trim.unwrap_or(TRIM),
        useful: saw.useful,
        stages: saw.stages,
        pieces,
        effort: 0,
    };
    let job = PartsJob { id: id.to_owned(), request, parts, named: true, grain: saw.grain };
    let first = at(file, head.first().map_or(0..0, |(_, range)| range.clone()));
    if let Some(wide) = too_wide(&job.request) {
        table.errors.push(Diagnostic::new(first, wide.says).help(wide.help));
    }
    if table.errors.is_empty() { Ok(PartsList { jobs: vec![job], notes: table.notes }) } else { Err(table.errors) }
}

/// The mark between fields: the one that the first line has most of.
fn between(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or("");
    let count = |mark: &u8| first.bytes().filter(|byte| byte == mark).count();
    *b",;\t".iter().rev().max_by_key(|mark| count(mark)).unwrap_or(&b',')
}

/// Rows that have something in them.
fn rows(text: &str, between: u8) -> Vec<Row> {
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(between).from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in reader.records().map_while(Result::ok) {
        let mut from = record.position().map_or(0, |position| position.byte() as usize);
        let mut row = Row::new();
        for field in &record {
            let range = field_at(text, from, between);
            from = range.end + 1;
            row.push((field.trim().to_owned(), trimmed(text, range)));
        }
        if row.iter().any(|(field, _)| !field.is_empty()) {
            rows.push(row);
        }
    }
    rows
}

/// Where the field that begins at a byte ends: at the next mark or line end outside quotes.
fn field_at(text: &str, from: usize, between: u8) -> Range<usize> {
    let mut quoted = false;
    let end = text.bytes().enumerate().skip(from).find(|(_, byte)| {
        quoted ^= *byte == b'"';
        !quoted && (*byte == between || *byte == b'\n' || *byte == b'\r')
    });
    from.min(text.len())..end.map_or(text.len(), |(at, _)| at)
}

/// A range without the blanks at its ends.
fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let field = text.get(range.clone()).unwrap_or("");
    let start = range.start + field.len() - field.trim_start().len();
    start..(start + field.trim().len())
}

struct Table {
    file: FileId,
    /// A comma is a decimal mark, as the fields are parted by another one.
    commas: bool,
    /// For each field of a row: which column it is.
    columns: Vec<Option<&'static str>>,
    errors: Sink,
    notes: Sink,
}

impl Table {
    fn head(&mut self, head: &Row) {
        for (name, range) in head {
            let known = COLUMNS.into_iter().find(|known| known.eq_ignore_ascii_case(name));
            if known.is_none() {
                let error = Diagnostic::new(at(self.file, range.clone()), format!("there is no column `{name}`"));
                self.errors.push(match nearest(&name.to_lowercase(), COLUMNS) {
                    Some(near) => error.help(format!("did you mean `{near}`?")),
                    None => error.help(format!("columns are {}", one_of(COLUMNS))),
                });
            }
            self.columns.push(known);
        }
        let end = head.last().map_or(0..0, |(_, range)| range.clone());
        for needed in NEEDED.iter().filter(|needed| !self.columns.contains(&Some(needed))) {
            let error = Diagnostic::new(at(self.file, end.clone()), format!("there is no column `{needed}`"));
            self.errors.push(error.help("the first row has the names of the columns; `length` and `width` are needed"));
        }
    }

    /// The field of a column, empty if the row has none, and its place or that of the row.
    fn field<'r>(&self, row: &'r Row, column: &str) -> (&'r str, Span) {
        let index = self.columns.iter().position(|known| *known == Some(column));
        let place = |range: &Range<usize>| at(self.file, range.clone());
        match index.and_then(|index| row.get(index)) {
            Some((field, range)) => (field, place(range)),
            None => ("", row.last().map_or(at(self.file, 0..0), |(_, range)| place(range))),
        }
    }

    fn wrong(&mut self, span: Span, message: String, help: &str) {
        self.errors.push(Diagnostic::new(span, message).help(help));
    }

    fn part(&mut self, line: usize, row: &Row, saw: &Saw) -> Option<(Piece, CutPart)> {
        if let Some((field, range)) = row.get(self.columns.len()) {
            let span = at(self.file, range.clone());
            let message = format!("`{field}` is in a column without a name");
            self.wrong(span, message, "a row has as many fields as the first row; decimals are written with a point");
            return None;
        }
        let length = self.length(row, "length");
        let width = self.length(row, "width");
        let count = self.count(row);
        let grain = self.grain(row);
        let [front, back, left, right] = self.bands(row)?;
        let (span, (length, width)) = (self.field(row, "bands").1, (length? - left - right, width? - front - back));
        if no_length(length).is_some() || no_length(width).is_some() {
            self.wrong(span, "the bands leave nothing of the part".to_owned(), "bands are thicknesses in mm");
            return None;
        }
        let turn = turn(grain?, saw.grain);
        let name = self.field(row, "number").0;
        let number = if name.is_empty() { line.to_string() } else { name.to_owned() };
        Some((Piece { length, width, count: count?, turn }, CutPart { number, grain: turn != Turn::Free }))
    }

    /// A number as the table writes them.
    fn number(&self, field: &str) -> Option<f64> {
        let comma = self.commas && field.matches(',').count() == 1 && !field.contains('.');
        let plain = if comma { field.replace(',', ".") } else { field.to_owned() };
        plain.parse().ok().filter(|value: &f64| value.is_finite())
    }

    fn length(&mut self, row: &Row, column: &'static str) -> Option<f64> {
        let (field, span) = self.field(row, column);
        let wrong = match self.number(field) {
            Some(value) => match no_length(value) {
                None => return Some(value),
                Some(wrong) => wrong,
            },
            None if self.commas => "write a number of millimetres, without a mark between thousands".to_owned(),
            None => "write a number of millimetres, with a point for decimals".to_owned(),
        };
        let message =
            if field.is_empty() { format!("there is no {column}") } else { format!("the {column} is `{field}`") };
        self.wrong(span, message, &wrong);
        None
    }

    fn count(&mut self, row: &Row) -> Option<u32> {
        let (field, span) = self.field(row, "count");
        if field.is_empty() {
            if self.columns.contains(&Some("count")) {
                let note = Diagnostic::new(span, "this row has no count")
                    .help("one is laid; write the count if there are more");
                self.notes.push(note);
            }
            return Some(1);
        }
        let wrong = match field.parse::<f64>() {
            Ok(count) => match no_count(count) {
                None if count == 0.0 => {
                    self.notes.push(Diagnostic::new(span, "the count is 0").help("none of this part is laid"));
                    return Some(0);
                }
                None => return Some(count as u32),
                Some(wrong) => wrong,
            },
            Err(_) => "write a whole number".to_owned(),
        };
        self.wrong(span, format!("the count is `{field}`"), &wrong);
        None
    }

    /// Two rows may be parts of one number, but seldom are meant to.
    fn note_same_number(&mut self, row: &Row, known: &mut BTreeMap<String, Span>) {
        let (field, span) = self.field(row, "number");
        if field.is_empty() {
            return;
        }
        match known.get(field) {
            Some(first) => {
                let note = Diagnostic::new(span, format!("`{field}` is the number of two rows"));
                self.notes.push(
                    note.note(*first, "the first").help("both are laid; labels and diagrams can't tell them apart"),
                );
            }
            None => {
                known.insert(field.to_owned(), span);
            }
        }
    }

    fn grain(&mut self, row: &Row) -> Option<Grain> {
        let (field, span) = self.field(row, "grain");
        match field.to_ascii_lowercase().as_str() {
            "length" => Some(Grain::Length),
            "width" => Some(Grain::Width),
            "free" | "" => Some(Grain::Free),
            _ => {
                self.wrong(span, format!("the grain is `{field}`"), "write `length`, `width` or `free`");
                None
            }
        }
    }

    /// Thickness of the bands at front, back, left and right: four numbers, one for all, or none.
    fn bands(&mut self, row: &Row) -> Option<[f64; 4]> {
        let (field, span) = self.field(row, "bands");
        let read: Option<Vec<f64>> = field.split_whitespace().map(|word| self.number(word)).collect();
        let read = read.filter(|all| all.iter().all(|one| no_width(*one).is_none()));
        match read.as_deref() {
            Some([]) => Some([0.0; 4]),
            Some([all]) => Some([*all; 4]),
            Some([front, back, left, right]) => Some([*front, *back, *left, *right]),
            _ => {
                let help =
                    "write the thickness at front, back, left and right with blanks between: `1 0 1 1`, or one for all";
                self.wrong(span, format!("the bands are `{field}`"), help);
                None
            }
        }
    }
}
