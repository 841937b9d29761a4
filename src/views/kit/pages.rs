//! Tables on sheets of their own, as many sheets as they need.

use crate::drawing::{Align, Item, LayerKind, Paper, lettering::fit};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::{Draft, foot};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::flexible::HEADING;
use crate::views::kit::table_layout::PlacedTable;
use crate::views::plan::notes::INSET;
use kurbo::{Point, Rect};

/// Between two tables, mm.
const BETWEEN: f64 = 6.0;
/// Sheets of one set of tables, at most; a last one says how many rows are left.
const MOST: usize = 200;

/// Draws a table with its heading.
pub(in crate::views) fn draw_table(placed: &PlacedTable, canvas: &mut Canvas) {
    let (words, height) = fit(&placed.heading, 2.5, placed.table.width());
    let heading = Item::text(placed.at - kurbo::Vec2::new(0.0, 2.5), words, height, Align::Start);
    let (mut items, _) = placed.table.draw(placed.at - kurbo::Vec2::new(0.0, HEADING));
    items.insert(0, heading);
    canvas.group(LayerKind::Notes, &format!("table-{}", placed.heading.to_lowercase()), &placed.heading, items);
}

/// Where the next table starts: the sheets so far, and what is left of the last.
struct Pages {
    full: Rect,
    left: Rect,
    sheets: Vec<Canvas>,
}

impl Pages {
    /// Adds the rows of a table from one on, on as many sheets as it takes; how many rows are left out.
    fn add(&mut self, table: &Flexible, from: usize) -> usize {
        let mut from = from;
        while from < table.rows.len() {
            let fitting = |slot: Rect| table.fitting(slot.width(), from, slot.height() - HEADING);
            if self.sheets.is_empty() || fitting(self.left) == 0 {
                if self.sheets.len() >= MOST {
                    break;
                }
                self.left = self.full;
                self.sheets.push(Canvas::default());
            }
            let count = fitting(self.left).max(1);
            let more = if from == 0 { "" } else { ", continued" };
            let placed = PlacedTable {
                heading: format!("{}{more}", table.heading),
                table: table.table(self.left.width(), from, from + count),
                at: Point::new(self.left.x0, self.left.y1),
            };
            from += count;
            self.left.y1 -= HEADING + placed.table.height() + BETWEEN;
            if let Some(canvas) = self.sheets.last_mut() {
                draw_table(&placed, canvas);
            }
        }
        table.rows.len().saturating_sub(from)
    }

    /// Sheets for the tables, the first from a row on, and one more that says how many rows are left out, if any.
    fn of(full: Rect, tables: &[Flexible], from: usize, file: &str) -> Self {
        let mut pages = Self { full, left: full, sheets: Vec::new() };
        let mut left_out = 0;
        for (index, table) in tables.iter().enumerate() {
            left_out += pages.add(table, if index == 0 { from } else { 0 });
        }
        if left_out > 0 {
            let words = format!("{left_out} more rows, see {file}");
            let mut canvas = Canvas::default();
            let text = Item::text(Point::new(full.x0, full.y1 - 5.0), words.clone(), 3.5, Align::Start);
            canvas.group(LayerKind::Notes, "more", &words, vec![text]);
            pages.sheets.push(canvas);
        }
        pages
    }
}

/// The file that has all rows.
fn file(id: &str) -> &'static str {
    match id {
        "cut-list" => "cut-list.csv",
        "checks" => "findings.json",
        _ => "model.json",
    }
}

/// Sheets with tables one under the other, the first from a row on; none if there are no rows. Letters are large in as
/// many of the last tables as takes no sheet more.
pub(in crate::views) fn sheets(
    paper: Paper,
    held: bool,
    id: &str,
    title: &str,
    tables: &[Flexible],
    from: usize,
) -> Vec<Draft> {
    let full = slot(paper, held);
    let small = Pages::of(full, tables, from, file(id));
    let larger = |first: usize| -> Vec<Flexible> {
        let tables = tables.iter().enumerate();
        tables.map(|(index, table)| if index < first { table.clone() } else { table.larger() }).collect()
    };
    let mut large = (0..tables.len()).map(|first| Pages::of(full, &larger(first), from, file(id)));
    let pages = large.find(|large| large.sheets.len() <= small.sheets.len()).unwrap_or(small);
    let several = pages.sheets.len() > 1;
    let numbered = pages.sheets.into_iter().enumerate();
    numbered.map(|(index, canvas)| page(paper, id, title, several.then_some(index + 1), canvas)).collect()
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
pub(in crate::views) fn slot(paper: Paper, held: bool) -> Rect {
    let space = paper.drawing_space().inset(-INSET);
    Rect { y0: foot(paper, held) + INSET, ..space }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_beyond_the_last_sheet_are_counted() {
        let table = |rows: usize| Flexible::new("Parts", &[("part", -1.0, false)], vec![vec!["x".to_owned()]; rows]);
        let slot = Rect::new(0.0, 0.0, 200.0, 30.0);
        let some = Pages::of(slot, &[table(100)], 0, "cut-list.csv");
        assert!(some.sheets.iter().flat_map(Canvas::items).all(|item| !format!("{item:?}").contains("more rows")));
        let all = Pages::of(slot, &[table(3000)], 0, "cut-list.csv");
        let holds = table(3000).fitting(200.0, 0, 30.0 - HEADING);
        let last = all.sheets.last().map(|sheet| format!("{:?}", sheet.items().collect::<Vec<_>>()));
        let words = format!("{} more rows, see cut-list.csv", 3000 - holds * MOST);
        assert!(last.is_some_and(|last| last.contains(&words)), "{words}");
        assert_eq!(all.sheets.len(), MOST + 1);
    }
}
