//! Texts as outlines of their letters, for printers that want no fonts.

use super::font;
use super::item::{Group, Item, Path, Text};
use super::line::Fill;
use super::sheet::{Layer, Sheet, View};
use kurbo::{Affine, BezPath, Point};
use ttf_parser::{Face, GlyphId, OutlineBuilder};

/// The sheet with every text as an area; what is seen stays the same.
#[must_use]
pub fn outlined(sheet: &Sheet) -> Sheet {
    let Ok(face) = Face::parse(font::BYTES, 0) else { return sheet.clone() };
    let layer = |layer: &Layer| Layer { kind: layer.kind, items: items(&layer.items, &face) };
    let view = |view: &View| View { layers: view.layers.iter().map(layer).collect(), ..view.clone() };
    Sheet { views: sheet.views.iter().map(view).collect(), ..sheet.clone() }
}

fn items(all: &[Item], face: &Face<'_>) -> Vec<Item> {
    let item = |item: &Item| match item {
        Item::Path(path) => Item::Path(path.clone()),
        Item::Group(group) => Item::Group(Group { items: items(&group.items, face), ..group.clone() }),
        Item::Text(text) => {
            let fill = if text.inverse { Fill::Paper } else { Fill::Ink };
            Item::Path(Path { shape: letters(text, face), line: None, fill: Some(fill) })
        }
    };
    all.iter().map(item).filter(|item| !matches!(item, Item::Path(path) if path.shape.is_empty())).collect()
}

/// The outlines of a text's letters on paper.
fn letters(text: &Text, face: &Face<'_>) -> BezPath {
    let scale = font::em(text.height) / font::units_per_em();
    let start = -text.align.share() * font::text_width(&text.words, text.height);
    let place = Affine::translate(text.at.to_vec2()) * Affine::rotate(text.turn.to_radians());
    let mut pen = Pen { made: BezPath::new(), place: Affine::IDENTITY };
    let mut along = start;
    for char in font::shown(&text.words) {
        let glyph = font::glyph(char);
        pen.place = place * Affine::translate((along, 0.0)) * Affine::scale(scale);
        face.outline_glyph(GlyphId(glyph.id), &mut pen);
        along += f64::from(glyph.advance) * scale;
    }
    pen.made
}

/// Takes outlines in font units to their place on paper.
struct Pen {
    made: BezPath,
    place: Affine,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> Point {
        self.place * Point::new(f64::from(x), f64::from(y))
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.made.move_to(self.at(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.made.line_to(self.at(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.made.quad_to(self.at(x1, y1), self.at(x, y));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.made.curve_to(self.at(x1, y1), self.at(x2, y2), self.at(x, y));
    }

    fn close(&mut self) {
        self.made.close_path();
    }
}

#[cfg(test)]
mod tests {
    use super::super::item::Align;
    use super::*;
    use kurbo::Shape;

    fn shape(align: Align, turn: f64) -> BezPath {
        let at = Point::new(100.0, 50.0);
        let text = Text { at, words: "HH".into(), height: 3.0, align, turn, inverse: false };
        letters(&text, &Face::parse(font::BYTES, 0).unwrap())
    }

    // Capital letters are as high as asked (ISO 3098), to 2 in 100 of the font's own, and lie within the text's width.
    #[test]
    fn letters_stand_where_the_text_stood() {
        let flat = shape(Align::Middle, 0.0).bounding_box();
        assert!((flat.y0 - 50.0).abs() < 1e-6 && (flat.height() - 3.0).abs() < 0.06, "{flat:?}");
        assert!((flat.center().x - 100.0).abs() < 0.1 && flat.width() < 5.6, "{flat:?}");
        let end = shape(Align::End, 90.0).bounding_box();
        assert!(end.y1 < 50.0 && end.x1 < 100.0 + 1e-6 && (end.width() - 3.0).abs() < 0.06, "{end:?}");
    }
}
