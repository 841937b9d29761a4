//! One sheet as the content of a PDF page.

use super::pdf_content::Content;
use crate::drawing::{Item, LineClass, Look, Path, Sheet, Text, font};
use kurbo::{Affine, BezPath, PathEl, Point};

/// Name of the font in the file's resources.
pub const FONT: &str = "Plan";

/// A sheet as a content stream, not deflated.
pub fn content(sheet: &Sheet) -> Vec<u8> {
    let mut pen = Pen { look: &sheet.look, content: Content::default(), line: None, fill: None };
    for layer in sheet.views.iter().flat_map(|view| &view.layers).filter(|layer| !layer.items.is_empty()) {
        pen.content.layer(Some(layer.kind.name()));
        pen.items(&layer.items);
        pen.content.layer(None);
    }
    pen.content.into_bytes()
}

/// The steps so far and what is set at this point of them.
struct Pen<'a> {
    look: &'a Look,
    content: Content,
    line: Option<LineClass>,
    fill: Option<[u8; 3]>,
}

impl Pen<'_> {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path(path) => self.path(path),
                Item::Text(text) => self.text(text),
                Item::Group(group) => self.items(&group.items),
            }
        }
    }

    fn path(&mut self, path: &Path) {
        let paint = match (path.fill, path.line) {
            (None, None) => return,
            (Some(_), None) => "f*",
            (None, Some(_)) => "S",
            (Some(_), Some(_)) => "B*",
        };
        let shape = whole(&path.shape);
        let parts = parts(shape.as_ref().map_or(path.shape.elements(), BezPath::elements));
        if parts.is_empty() {
            return;
        }
        if let Some(fill) = path.fill {
            self.set_fill(self.look.tone(fill));
        }
        if let Some(line) = path.line {
            self.set_line(line);
        }
        parts.into_iter().for_each(|part| self.content.steps(part));
        self.content.operator(paint);
    }

    fn set_fill(&mut self, tone: [u8; 3]) {
        if self.fill != Some(tone) {
            self.fill = Some(tone);
            self.content.colour(tone, "rg");
        }
    }

    fn set_line(&mut self, line: LineClass) {
        if self.line == Some(line) {
            return;
        }
        self.line = Some(line);
        let stroke = self.look.stroke(line);
        self.content.colour(stroke.tone, "RG");
        self.content.line_style(stroke.width, &self.look.dash(line));
    }

    fn text(&mut self, text: &Text) {
        if font::shown(&text.words).all(char::is_whitespace) {
            return;
        }
        self.set_fill(self.look.text(text.inverse));
        let turn = text.turn.to_radians();
        let back = text.align.share() * font::text_width(&text.words, text.height);
        let start = text.at - (Affine::rotate(turn) * Point::new(back, 0.0)).to_vec2();
        let glyphs = font::shown(&text.words).map(|char| font::glyph(char).id);
        self.content.glyphs(FONT, font::em(text.height), (turn, start), glyphs);
    }
}

/// The shape with a step to where each part begins, if it has parts that do without.
fn whole(shape: &BezPath) -> Option<BezPath> {
    let elements = shape.elements();
    let begins = |index: usize| {
        index.checked_sub(1).and_then(|before| elements.get(before)).is_none_or(|el| matches!(el, PathEl::ClosePath))
    };
    let lacking = |(index, element): (usize, &PathEl)| begins(index) && !matches!(element, PathEl::MoveTo(_));
    if !elements.iter().enumerate().any(lacking) {
        return None;
    }
    let (mut made, mut start) = (BezPath::new(), Point::ZERO);
    for (index, element) in elements.iter().enumerate() {
        match element {
            PathEl::MoveTo(at) => start = *at,
            _ if begins(index) => made.move_to(start),
            _ => {}
        }
        made.push(*element);
    }
    Some(made)
}

/// The separate parts of a shape, without those that are a single point.
fn parts(elements: &[PathEl]) -> Vec<&[PathEl]> {
    let parts = elements.chunk_by(|_, next| !matches!(next, PathEl::MoveTo(_)));
    parts.filter(|part| part.iter().any(|el| !matches!(el, PathEl::MoveTo(_) | PathEl::ClosePath))).collect()
}
