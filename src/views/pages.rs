//! Tables on sheets of their own, as many sheets as they need.

use super::canvas::Canvas;
use super::draft::Draft;
use super::legend::Flexible;
use super::sheet_layout::{HEADING, PlacedTable};
use crate::drawing::{Align, Item, LayerKind, Paper, title_block_place};
use kurbo::{Point, Rect};

/// From the frame to a table, mm.
const INSET: f64 = 7.0;
/// Sheets of one table, at most.
const MOST: usize = 200;

/// Draws a table with its heading.
pub(super) fn draw_table(placed: &PlacedTable, canvas: &mut Canvas) {
    let heading = Item::text(placed.at - kurbo::Vec2::new(0.0, 2.5), placed.heading.clone(), 2.5, Align::Start);
    let (mut items, _) = placed.table.draw(placed.at - kurbo::Vec2::new(0.0, HEADING));
    items.insert(0, heading);
    canvas.group(LayerKind::Notes, &format!("table-{}", placed.heading.to_lowercase()), &placed.heading, items);
}

/// Sheets with the rows of a table from one on; none if there are no more.
pub(super) fn sheets(paper: Paper, held: bool, id: &str, title: &str, table: &Flexible, from: usize) -> Vec<Draft> {
    let slot = slot(paper, held);
    let mut from = from;
    let mut sheets = Vec::new();
    while from < table.rows.len() && sheets.len() < MOST {
        let count = table.fitting(slot.width(), from, slot.height() - HEADING).max(1);
        let placed = PlacedTable {
            heading: if from == 0 { table.heading.to_owned() } else { format!("{}, continued", table.heading) },
            table: table.table(slot.width(), from, from + count),
            at: Point::new(slot.x0, slot.y1),
        };
        from += count;
        let mut canvas = Canvas::default();
        draw_table(&placed, &mut canvas);
        sheets.push((sheets.len() + 1, canvas));
    }
    let several = sheets.len() > 1;
    sheets.into_iter().map(|(number, canvas)| page(paper, id, title, several.then_some(number), canvas)).collect()
}

fn page(paper: Paper, id: &str, title: &str, number: Option<usize>, canvas: Canvas) -> Draft {
    let continued = number.filter(|number| *number > 1);
    Draft {
        paper,
        id: continued.map_or_else(|| id.to_owned(), |number| format!("{id}-{number}")),
        title: number.map_or_else(|| title.to_owned(), |number| format!("{title}, page {number}")),
        document_type: title.to_owned(),
        supplement: number.map_or_else(String::new, |number| format!("Page {number}")),
        scale: None,
        views: vec![canvas.view("table", title, None)],
    }
}

/// The room for a table over the title block.
fn slot(paper: Paper, held: bool) -> Rect {
    let space = paper.drawing_space().inset(-INSET);
    let block = title_block_place(paper);
    let stamp = if held { 4.0 } else { 0.0 };
    Rect { y0: block.y1 + INSET + stamp, ..space }
}
