//! Notes with a scale bar, and lists, beside the picture of a sheet.

use crate::drawing::{Align, Item, LayerKind, lettering::wrap, scale_bar};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::flexible::HEADING;
use crate::views::kit::pages;
use crate::views::kit::table_layout::PlacedTable;
use crate::views::plan::notes::INSET;
use kurbo::{Point, Rect};

/// Letters of notes, and from line to line, mm.
const LETTERS: f64 = 1.8;
const PITCH: f64 = 3.1;
/// Height of the scale bar over them with its air, mm.
const BAR: f64 = 13.5;

/// Notes in lines of a width.
pub(in crate::views) fn wrapped(notes: &[String], width: f64) -> Vec<String> {
    notes.iter().flat_map(|note| wrap(note, LETTERS, width)).collect()
}

/// Height of the scale bar and of notes in a width, mm.
pub(in crate::views) fn notes_height(notes: &[String], width: f64) -> f64 {
    BAR + PITCH * wrapped(notes, width).len() as f64
}

/// The scale bar, and lines of notes under it.
pub(in crate::views) fn draw_notes(place: Rect, scale: f64, lines: Vec<String>, canvas: &mut Canvas) {
    let (bar, _) = scale_bar(Point::new(place.x0 + 1.5, place.y1 - 8.0), scale);
    canvas.put(LayerKind::Notes, bar);
    let words = lines.into_iter().enumerate().map(|(index, line)| {
        Item::text(Point::new(place.x0, place.y1 - BAR - PITCH * index as f64), line, LETTERS, Align::Start)
    });
    canvas.group(LayerKind::Notes, "notes", "Notes", words.collect());
}

/// Places as many rows as fit, with `more` in the heading if that is not all; how many.
pub(in crate::views) fn place_rows(table: &Flexible, slot: &mut Rect, more: &str, canvas: &mut Canvas) -> usize {
    let count = table.fitting(slot.width(), 0, slot.height() - HEADING);
    if count == 0 {
        return 0;
    }
    let more = if count < table.rows.len() { more } else { "" };
    let heading = format!("{}{more}", table.heading);
    let placed = PlacedTable { heading, table: table.table(slot.width(), 0, count), at: Point::new(slot.x0, slot.y1) };
    slot.y1 -= HEADING + placed.table.height() + INSET;
    pages::draw_table(&placed, canvas);
    count
}

/// A table without the rows that are shown; `None` if that is all.
pub(in crate::views) fn rest(table: &Flexible, shown: usize) -> Option<Flexible> {
    let mut rest = table.clone();
    rest.rows = table.rows.iter().skip(shown).cloned().collect();
    (!rest.rows.is_empty()).then(|| rest.afresh())
}
