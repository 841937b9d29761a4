//! One sheet as the drawing steps of a PDF page.

use super::number::on_paper;
use super::pdf::FONT;
use crate::drawing::{Fill, Item, LineClass, Look, Path, Sheet, Text, font};
use kurbo::{Affine, PathEl, Point, Vec2};
use printpdf::{
    Color, FontId, LayerInternalId, Line, LineCapStyle, LineDashPattern, LineJoinStyle, LinePoint, Op, PaintMode,
    PdfFontHandle, PdfPage, Polygon, PolygonRing, Pt, Rect, Rgb, TextItem, TextMatrix, WindingOrder,
};

/// Points of PDF in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// A sheet as a page.
pub fn page(sheet: &Sheet) -> PdfPage {
    let mut pen = Pen { look: &sheet.look, ops: Vec::new(), line: None, fill: None };
    for layer in sheet.views.iter().flat_map(|view| &view.layers).filter(|layer| !layer.items.is_empty()) {
        pen.ops.push(Op::BeginLayer { layer_id: LayerInternalId(layer.kind.name().into()) });
        pen.items(&layer.items);
        pen.ops.push(Op::EndLayer);
    }
    let paper = Rect::from_wh(Pt(points(sheet.paper.width)), Pt(points(sheet.paper.height)));
    PdfPage { media_box: paper.clone(), trim_box: paper.clone(), crop_box: paper, ops: pen.ops }
}

/// A length in points, rounded to thousandths
pub fn points(mm: f64) -> f32 {
    rounded(mm * POINTS)
}

#[allow(clippy::cast_possible_truncation, reason = "the format stores single precision")]
fn rounded(value: f64) -> f32 {
    ((on_paper(value) * 1000.0).round() / 1000.0) as f32
}

/// The steps so far and what is set at this point of them.
struct Pen<'a> {
    look: &'a Look,
    ops: Vec<Op>,
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
        let parts = parts(path);
        if let Some(fill) = path.fill {
            self.fill(fill, &parts);
        }
        if let Some(line) = path.line {
            self.set_line(line);
            self.ops.extend(parts.into_iter().map(|line| Op::DrawLine { line }));
        }
    }

    fn fill(&mut self, fill: Fill, parts: &[Line]) {
        self.set_fill(self.look.tone(fill));
        let rings = parts.iter().map(|part| PolygonRing { points: part.points.clone() }).collect();
        let polygon = Polygon { rings, mode: PaintMode::Fill, winding_order: WindingOrder::EvenOdd };
        self.ops.push(Op::DrawPolygon { polygon });
    }

    fn set_fill(&mut self, tone: [u8; 3]) {
        if self.fill != Some(tone) {
            self.fill = Some(tone);
            self.ops.push(Op::SetFillColor { col: colour(tone) });
        }
    }

    fn set_line(&mut self, line: LineClass) {
        if self.line == Some(line) {
            return;
        }
        self.line = Some(line);
        let stroke = self.look.stroke(line);
        let dash: Vec<f32> = self.look.dash(line).iter().map(|length| points(*length)).collect();
        let (cap, join) = if dash.is_empty() {
            (LineCapStyle::Round, LineJoinStyle::Round)
        } else {
            (LineCapStyle::Butt, LineJoinStyle::Miter)
        };
        self.ops.extend([
            Op::SetOutlineColor { col: colour(stroke.tone) },
            Op::SetOutlineThickness { pt: Pt(points(stroke.width)) },
            Op::SetLineDashPattern { dash: LineDashPattern::new(0.0, &dash) },
            Op::SetLineCapStyle { cap },
            Op::SetLineJoinStyle { join },
        ]);
    }

    fn text(&mut self, text: &Text) {
        let words: String = font::shown(&text.words).map(in_font).collect();
        if words.trim().is_empty() {
            return;
        }
        self.set_fill(self.look.text(text.inverse));
        let font = PdfFontHandle::External(FontId(FONT.into()));
        self.ops.extend([
            Op::StartTextSection,
            Op::SetFont { font, size: Pt(points(font::em(text.height))) },
            Op::SetTextMatrix { matrix: TextMatrix::Raw(matrix(text)) },
            Op::ShowText { items: vec![TextItem::Text(words)] },
            Op::EndTextSection,
        ]);
    }
}

/// The character, or U+FFFD where the font lacks it: that shows as a box.
fn in_font(char: char) -> char {
    if font::supports(char) { char } else { char::REPLACEMENT_CHARACTER }
}

fn colour([red, green, blue]: [u8; 3]) -> Color {
    let part = |value: u8| rounded(f64::from(value) / 255.0);
    Color::Rgb(Rgb { r: part(red), g: part(green), b: part(blue), icc_profile: None })
}

/// Place and turn of a text's first letter, in points.
fn matrix(text: &Text) -> [f32; 6] {
    let width = font::text_width(&text.words, text.height);
    let back = text.align.share() * width;
    let turn = Affine::rotate(text.turn.to_radians());
    let start = text.at - (turn * Point::new(back, 0.0)).to_vec2();
    let [a, b, c, d, _, _] = turn.as_coeffs();
    let place = Vec2::new(start.x, start.y) * POINTS;
    [fine(a), fine(b), fine(c), fine(d), rounded(place.x), rounded(place.y)]
}

#[allow(clippy::cast_possible_truncation, reason = "the format stores single precision")]
fn fine(value: f64) -> f32 {
    ((value * 1e6).round() / 1e6) as f32
}

/// The separate parts of a shape: straight lines and cubic curves.
fn parts(path: &Path) -> Vec<Line> {
    let mut parts: Vec<Line> = Vec::new();
    let mut last = Point::ZERO;
    let mut start = Point::ZERO;
    for element in path.shape.elements() {
        if parts.last().is_none_or(|part| part.is_closed) && !matches!(element, PathEl::MoveTo(_)) {
            parts.push(begun(start));
        }
        match *element {
            PathEl::MoveTo(a) => {
                parts.push(begun(a));
                (start, last) = (a, a);
            }
            PathEl::LineTo(a) => last = add(&mut parts, &[(a, false)]),
            PathEl::QuadTo(a, b) => {
                let controls = [last + (a - last) * (2.0 / 3.0), b + (a - b) * (2.0 / 3.0)];
                last = add(&mut parts, &[(controls[0], true), (controls[1], true), (b, false)]);
            }
            PathEl::CurveTo(a, b, c) => last = add(&mut parts, &[(a, true), (b, true), (c, false)]),
            PathEl::ClosePath => {
                if let Some(part) = parts.last_mut() {
                    part.is_closed = true;
                }
                last = start;
            }
        }
    }
    parts.retain(|part| part.points.len() > 1);
    parts
}

fn begun(at: Point) -> Line {
    Line { points: vec![line_point(at, false)], is_closed: false }
}

/// Adds points to the last part and says where it ends now.
fn add(parts: &mut [Line], points: &[(Point, bool)]) -> Point {
    if let Some(part) = parts.last_mut() {
        part.points.extend(points.iter().map(|(at, control)| line_point(*at, *control)));
    }
    points.last().map_or(Point::ZERO, |(at, _)| *at)
}

fn line_point(at: Point, bezier: bool) -> LinePoint {
    LinePoint { p: printpdf::Point { x: Pt(points(at.x)), y: Pt(points(at.y)) }, bezier }
}
