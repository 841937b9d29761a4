//! The content of a PDF page: operators and operands as the text of a content stream (ISO 32000-1, 7.8.2 and annex A).

use super::number::on_paper;
use crate::base::number::push_trimmed;
use kurbo::{PathEl, Point};

/// Points of PDF in a millimetre.
pub const POINTS: f64 = 72.0 / 25.4;
/// Decimals of places and lengths in points: a third of a micrometre.
const FINE: usize = 3;
/// Decimals of the parts of a turn, which are factors of lengths.
const TURN: usize = 6;

/// A content stream in the making.
#[derive(Debug, Default)]
pub struct Content {
    text: String,
}

impl Content {
    /// The stream's bytes, not deflated.
    #[must_use]
    pub fn into_bytes(self) -> Vec<u8> {
        self.text.into_bytes()
    }

    /// An operator with no operands, or behind operands that are there.
    pub fn operator(&mut self, name: &str) {
        self.text.push_str(name);
        self.text.push('\n');
    }

    /// Begins or, without a name, ends what belongs to a layer.
    pub fn layer(&mut self, name: Option<&str>) {
        match name {
            Some(name) => {
                self.text.push_str("/OC /");
                self.text.push_str(name);
                self.operator(" BDC");
            }
            None => self.operator("EMC"),
        }
    }

    /// The colour of lines (`RG`) or of fills and texts (`rg`).
    pub fn colour(&mut self, tone: [u8; 3], operator: &str) {
        tone.iter().for_each(|part| self.number(f64::from(*part) / 255.0, FINE));
        self.operator(operator);
    }

    /// Width, dashes, ends and corners of lines; lengths in mm.
    pub fn line_style(&mut self, width: f64, dash: &[f64]) {
        self.length(width);
        self.text.push_str("w\n[");
        dash.iter().for_each(|part| self.length(*part));
        // Round ends and corners, but blunt ends and pointed corners where the line is dashed.
        self.text.push_str(if dash.is_empty() { "] 0 d\n1 J\n1 j\n" } else { "] 0 d\n0 J\n0 j\n" });
    }

    /// The steps of one part of a shape.
    pub fn steps(&mut self, elements: &[PathEl]) {
        let mut last = Point::ZERO;
        for element in elements {
            match *element {
                PathEl::MoveTo(a) => self.step(&[a], "m"),
                PathEl::LineTo(a) => self.step(&[a], "l"),
                PathEl::QuadTo(a, b) => {
                    self.step(&[last + (a - last) * (2.0 / 3.0), b + (a - b) * (2.0 / 3.0), b], "c");
                }
                PathEl::CurveTo(a, b, c) => self.step(&[a, b, c], "c"),
                PathEl::ClosePath => self.operator("h"),
            }
            last = element.end_point().unwrap_or(last);
        }
    }

    fn step(&mut self, points: &[Point], operator: &str) {
        for point in points {
            self.length(point.x);
            self.length(point.y);
        }
        self.operator(operator);
    }

    /// A text of glyphs with its font, the size of its em in mm, its turn in radians and its start on the paper.
    pub fn glyphs(&mut self, font: &str, em: f64, (turn, start): (f64, Point), glyphs: impl Iterator<Item = u16>) {
        const HEX: [char; 16] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'A', 'B', 'C', 'D', 'E', 'F'];
        self.text.push_str("BT\n/");
        self.text.push_str(font);
        self.text.push(' ');
        self.length(em);
        self.operator("Tf");
        let (sine, cosine) = turn.sin_cos();
        [cosine, sine, -sine, cosine].into_iter().for_each(|part| self.number(part, TURN));
        self.step(&[start], "Tm");
        self.text.push('<');
        for glyph in glyphs {
            let digits = [12, 8, 4, 0].map(|shift| usize::from(glyph >> shift & 15));
            digits.into_iter().filter_map(|digit| HEX.get(digit)).for_each(|digit| self.text.push(*digit));
        }
        self.text.push_str("> Tj\nET\n");
    }

    fn length(&mut self, mm: f64) {
        self.number(on_paper(mm * POINTS), FINE);
    }

    fn number(&mut self, value: f64, decimals: usize) {
        push_trimmed(&mut self.text, value, decimals);
        self.text.push(' ');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(content: Content) -> String {
        String::from_utf8(content.into_bytes()).unwrap()
    }

    // By hand from ISO 32000-1, 8.5.2: 25.4 mm are 72 points; a quadratic curve as a cubic one has its controls at two
    // thirds of the way.
    #[test]
    fn steps_are_in_points() {
        let mut content = Content::default();
        content.steps(&[
            PathEl::MoveTo(Point::new(25.4, 0.0)),
            PathEl::QuadTo(Point::new(25.4, 76.2), Point::new(101.6, 76.2)),
            PathEl::LineTo(Point::new(-12.7, 0.001)),
            PathEl::ClosePath,
        ]);
        assert_eq!(text(content), "72 0 m\n72 144 144 216 288 216 c\n-36 0.003 l\nh\n");
    }

    #[test]
    fn texts_are_glyphs_in_hexadecimal() {
        let mut content = Content::default();
        let upright = std::f64::consts::FRAC_PI_2;
        content.glyphs("Plan", 25.4, (upright, Point::new(0.0, 25.4)), [1, 0xabc].into_iter());
        assert_eq!(text(content), "BT\n/Plan 72 Tf\n0 1 -1 0 0 72 Tm\n<00010ABC> Tj\nET\n");
    }

    #[test]
    fn what_is_no_number_is_still_one_there() {
        let mut content = Content::default();
        content.steps(&[PathEl::MoveTo(Point::new(f64::NAN, f64::INFINITY))]);
        assert_eq!(text(content), "0 1000000 m\n");
    }
}
