//! Title block with the data fields of ISO 7200:2004, 180 mm wide.

use super::item::{Align, Item};
use super::lettering::fit;
use super::line::{Fill, LineClass};
use super::projection;
use crate::model::Projection;
use kurbo::{Point, Rect, Shape, Vec2};

/// Width of the title block, mm (ISO 7200, 6).
pub const WIDTH: f64 = 180.0;
/// Its height, mm.
pub const HEIGHT: f64 = 40.0;
/// Height of the captions, mm.
const CAPTION: f64 = 1.8;

/// What the title block says. Empty texts leave their field empty.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TitleFields {
    /// Who owns the drawing.
    pub legal_owner: String,
    /// Identification number.
    pub number: String,
    /// Date of issue.
    pub date: String,
    /// Number of this sheet.
    pub sheet: usize,
    /// Number of sheets.
    pub sheets: usize,
    /// Title: what is drawn.
    pub title: String,
    /// A second line of the title: the arrangement.
    pub supplement: String,
    /// Who approved it.
    pub approved: String,
    /// Who drew it.
    pub creator: String,
    /// Document type, such as `General plan`.
    pub document_type: String,
    /// Revision.
    pub revision: String,
    /// Scale, such as `1:20`. No field of ISO 7200, but every workshop looks for it.
    pub scale: String,
    /// Paper size, such as `A3`.
    pub paper: String,
    /// How views are arranged; its symbol is drawn.
    pub projection: Projection,
}

/// One cell: left, bottom, right, top in mm from the lower left corner of the block; caption, words, greatest letters.
struct Cell<'a> {
    edges: [f64; 4],
    caption: &'a str,
    words: String,
    letters: f64,
}

fn cell<'a>(edges: [f64; 4], caption: &'a str, words: &str, letters: f64) -> Cell<'a> {
    Cell { edges, caption, words: words.to_owned(), letters }
}

fn cells(fields: &TitleFields) -> Vec<Cell<'static>> {
    let sheet = if fields.sheets == 0 { String::new() } else { format!("{} / {}", fields.sheet, fields.sheets) };
    vec![
        cell([100.0, 10.0, 180.0, 30.0], "Title", &fields.title, 5.0),
        cell([0.0, 0.0, 56.0, 20.0], "Legal owner", &fields.legal_owner, 3.5),
        cell([0.0, 30.0, 100.0, 40.0], "Document type", &fields.document_type, 3.5),
        cell([0.0, 20.0, 56.0, 30.0], "Created by", &fields.creator, 2.5),
        cell([56.0, 20.0, 100.0, 30.0], "Approved by", &fields.approved, 2.5),
        cell([56.0, 10.0, 100.0, 20.0], "Date of issue", &fields.date, 2.5),
        cell([56.0, 0.0, 100.0, 10.0], "Identification number", &fields.number, 2.5),
        cell([100.0, 30.0, 140.0, 40.0], "Scale", &fields.scale, 3.5),
        cell([140.0, 30.0, 160.0, 40.0], "Paper", &fields.paper, 2.5),
        cell([100.0, 0.0, 130.0, 10.0], "Units", "mm", 2.5),
        cell([130.0, 0.0, 150.0, 10.0], "Revision", &fields.revision, 2.5),
        cell([150.0, 0.0, 180.0, 10.0], "Sheet", &sheet, 2.5),
    ]
}

/// The items of a title block that fills `place`.
#[must_use]
pub fn items(place: Rect, fields: &TitleFields) -> Vec<Item> {
    let corner = place.origin().to_vec2();
    let mut items = vec![Item::area(place.to_path(0.1), Some(LineClass::Frame), Fill::Paper)];
    for cell in cells(fields) {
        draw(&cell, corner, &mut items);
    }
    supplement(corner, &fields.supplement, &mut items);
    items.extend(projection::symbol(fields.projection, corner + Vec2::new(170.0, 35.0)));
    items.push(cell_edge(Rect::new(160.0, 30.0, 180.0, 40.0), corner));
    items
}

fn cell_edge(edges: Rect, corner: Vec2) -> Item {
    Item::line((edges + corner).to_path(0.1), LineClass::Visible)
}

fn draw(cell: &Cell<'_>, corner: Vec2, items: &mut Vec<Item>) {
    let [left, bottom, right, top] = cell.edges;
    items.push(cell_edge(Rect::new(left, bottom, right, top), corner));
    let caption = Point::new(left + 1.2, top - 1.1 - CAPTION) + corner;
    items.push(Item::text(caption, cell.caption, CAPTION, Align::Start));
    if cell.words.is_empty() {
        return;
    }
    let (words, height) = fit(&cell.words, cell.letters, right - left - 2.4);
    let base = if top - bottom > 10.0 { 8.2 } else { 1.8 };
    items.push(Item::text(Point::new(left + 1.2, bottom + base) + corner, words, height, Align::Start));
}

/// The second line of the title, below the first.
fn supplement(corner: Vec2, words: &str, items: &mut Vec<Item>) {
    if words.is_empty() {
        return;
    }
    let (words, height) = fit(words, 2.5, 77.6);
    items.push(Item::text(Point::new(101.2, 12.6) + corner, words, height, Align::Start));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::font::text_box;

    fn long() -> TitleFields {
        let words = || "Wherever the long road goes, and a long way back ".repeat(4);
        TitleFields {
            legal_owner: words(),
            number: words(),
            date: words(),
            sheet: 1234,
            sheets: 1234,
            title: words(),
            supplement: words(),
            approved: words(),
            creator: words(),
            document_type: words(),
            revision: words(),
            scale: words(),
            paper: words(),
            projection: Projection::Third,
        }
    }

    #[test]
    fn long_texts_stay_in_their_cells() {
        let place = Rect::new(20.0, 10.0, 200.0, 50.0);
        let cells: Vec<Rect> = cells(&long())
            .iter()
            .map(|cell| {
                Rect::new(cell.edges[0], cell.edges[1], cell.edges[2], cell.edges[3]) + place.origin().to_vec2()
            })
            .collect();
        let texts: Vec<Rect> = items(place, &long())
            .iter()
            .filter_map(|item| if let Item::Text(text) = item { Some(text_box(text)) } else { None })
            .collect();
        assert_eq!(texts.len(), 12 + 12 + 1);
        for text in &texts {
            assert!(cells.iter().any(|cell| cell.union(*text) == *cell), "{text:?}");
        }
        for (i, a) in texts.iter().enumerate() {
            assert!(texts.iter().skip(i + 1).all(|b| a.intersect(*b).area() <= 0.0), "{a:?} is on another text");
        }
    }

    // ISO 7200:2004: names and lengths of the mandatory fields (owner, number 16, date 10, sheet 4, title 25,
    // approval person 20, creator 20, document type 30 characters), as quoted; width 180 mm.
    #[test]
    fn mandatory_fields_fit_uncut() {
        let fields = TitleFields {
            number: "1234567890123456".into(),
            date: "2026-11-25".into(),
            title: "Surveyors' box for coasts".into(),
            approved: "Marguerite van der Ho".into(),
            creator: "Marguerite van der Ho".into(),
            document_type: "General plan, day and night pl".into(),
            sheet: 12,
            sheets: 40,
            ..TitleFields::default()
        };
        let cut = items(Rect::new(0.0, 0.0, WIDTH, HEIGHT), &fields)
            .iter()
            .any(|item| matches!(item, Item::Text(text) if text.words.contains('…')));
        assert!(!cut);
    }
}
