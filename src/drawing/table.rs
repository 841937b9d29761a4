//! Ruled tables with wrapped texts.

use super::font::text_width;
use super::item::{Align, Group, Item};
use super::lettering::wrap;
use super::line::LineClass;
use kurbo::{Point, Rect, Shape};

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Words in the head.
    pub head: String,
    /// Width, mm.
    pub width: f64,
    /// Figures stand at the end, words at the start.
    pub align: Align,
}

impl Column {
    /// A column of words.
    #[must_use]
    pub fn words(head: &str, width: f64) -> Self {
        Self { head: head.into(), width, align: Align::Start }
    }

    /// A column of figures.
    #[must_use]
    pub fn figures(head: &str, width: f64) -> Self {
        Self { head: head.into(), width, align: Align::End }
    }
}

/// A table: columns and rows of texts, as many as there are columns (what is missing stays empty).
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows.
    pub rows: Vec<Vec<String>>,
    /// Height of capitals, mm.
    pub letters: f64,
    /// What each row is called and leads to; none for rows without.
    pub links: Vec<Option<RowLink>>,
}

/// A row that leads somewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowLink {
    /// Id of the row's group.
    pub id: String,
    /// Id of the group it leads to.
    pub to: String,
}

/// Room left and right of a text in its cell, mm.
const SIDE: f64 = 1.2;

impl Table {
    /// Width, mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.columns.iter().map(|column| column.width).sum()
    }

    /// Height with its head, mm.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.all_rows().iter().map(|row| self.row_height(row)).sum()
    }

    /// Draws it with its upper left corner at a point; items and height in mm.
    #[must_use]
    pub fn draw(&self, upper_left: Point) -> (Vec<Item>, f64) {
        let mut items = Vec::new();
        let mut top = upper_left.y;
        for (i, row) in self.all_rows().iter().enumerate() {
            let bottom = top - self.row_height(row);
            let texts = self.draw_row(row, upper_left.x, top);
            match i.checked_sub(1).and_then(|i| self.links.get(i)).and_then(Option::as_ref) {
                Some(RowLink { id, to }) if !texts.is_empty() => {
                    let title = self.rows.get(i - 1).map(|row| row.join(" ")).unwrap_or_default();
                    items.push(Item::Group(Group { id: id.clone(), title, items: texts, link: Some(to.clone()) }));
                }
                _ => items.extend(texts),
            }
            if i > 0 {
                let ends = [upper_left.x, upper_left.x + self.width()].map(|x| Point::new(x, top));
                let line = if i == 1 { LineClass::Visible } else { LineClass::Detail };
                items.push(Item::segment(ends[0], ends[1], line));
            }
            top = bottom;
        }
        self.draw_edges(Rect::new(upper_left.x, top, upper_left.x + self.width(), upper_left.y), &mut items);
        (items, upper_left.y - top)
    }

    /// Head and rows, each cell as its lines.
    fn all_rows(&self) -> Vec<Vec<Vec<String>>> {
        let head: Vec<String> = self.columns.iter().map(|column| column.head.clone()).collect();
        std::iter::once(&head).chain(&self.rows).map(|row| self.lines(row)).collect()
    }

    fn lines(&self, row: &[String]) -> Vec<Vec<String>> {
        let cell = |(i, column): (usize, &Column)| {
            let words = row.get(i).map_or("", String::as_str);
            wrap(words, self.letters, (column.width - 2.0 * SIDE).max(self.letters))
        };
        self.columns.iter().enumerate().map(cell).collect()
    }

    fn row_height(&self, row: &[Vec<String>]) -> f64 {
        let lines = row.iter().map(Vec::len).max().unwrap_or(1);
        self.letters * (1.1 + 1.6 * lines as f64)
    }

    fn draw_row(&self, row: &[Vec<String>], left: f64, top: f64) -> Vec<Item> {
        let (mut left, mut items) = (left, Vec::new());
        for (column, lines) in self.columns.iter().zip(row) {
            let x = match column.align {
                Align::Start => left + SIDE,
                Align::Middle => left + column.width / 2.0,
                Align::End => left + column.width - SIDE,
            };
            let mut base = top - self.letters * 1.85;
            for line in lines.iter().filter(|line| !line.is_empty()) {
                items.push(Item::text(Point::new(x, base), line.clone(), self.letters, column.align));
                base -= self.letters * 1.6;
            }
            left += column.width;
        }
        items
    }

    fn draw_edges(&self, bounds: Rect, items: &mut Vec<Item>) {
        let mut x = bounds.x0;
        for column in self.columns.iter().skip(1).zip(&self.columns).map(|(_, before)| before) {
            x += column.width;
            items.push(Item::segment(Point::new(x, bounds.y0), Point::new(x, bounds.y1), LineClass::Detail));
        }
        items.push(Item::line(bounds.to_path(0.1), LineClass::Visible));
    }

    /// A width for each column so that its widest text fits in one line, but no wider than `most` mm.
    #[must_use]
    pub fn fitted(mut self, most: f64) -> Self {
        for (i, column) in self.columns.iter_mut().enumerate() {
            let texts = self.rows.iter().filter_map(|row| row.get(i)).chain(std::iter::once(&column.head));
            let widest = texts.map(|words| text_width(words, self.letters)).fold(0.0, f64::max);
            column.width = (widest + 2.0 * SIDE + 0.1).min(most);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::font::text_box;

    fn table() -> Table {
        let row = |words: &str| vec!["12".to_owned(), words.to_owned()];
        Table {
            columns: vec![Column::figures("No.", 12.0), Column::words("Module", 40.0), Column::words("Note", 20.0)],
            rows: vec![row("Lift bed with guard rails on both sides"), row("Galley"), vec![]],
            letters: 2.5,
            links: vec![],
        }
    }

    #[test]
    fn texts_stay_inside_and_apart() {
        let (items, height) = table().draw(Point::new(30.0, 200.0));
        assert!((height - table().height()).abs() < 1e-9);
        let bounds = Rect::new(30.0, 200.0 - height, 30.0 + table().width(), 200.0);
        let texts: Vec<Rect> =
            items.iter().filter_map(|i| if let Item::Text(text) = i { Some(text_box(text)) } else { None }).collect();
        assert!(texts.len() >= 8, "{}", texts.len());
        for (i, text) in texts.iter().enumerate() {
            assert_eq!(bounds.union(*text), bounds);
            assert!(texts.iter().skip(i + 1).all(|other| text.intersect(*other).area() <= 0.0));
        }
    }

    #[test]
    fn fitted_columns_need_no_second_line() {
        let table = table().fitted(200.0);
        assert!((table.height() - 4.0 * 2.5 * 2.7).abs() < 1e-9);
        assert!(table.columns.iter().all(|column| column.width < 110.0));
        assert_eq!(table.fitted(15.0).columns[1].width, 15.0);
    }
}
