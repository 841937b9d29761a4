//! The one font of the drawings and the sizes of texts set in it.
//!
//! Letter heights are capital heights in mm, as ISO 3098 counts them; the font's em is larger.

use super::item::Text;
use kurbo::{Affine, Rect};
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// Name of the font.
pub const FAMILY: &str = "Boxwright Plan";

/// Name of the font in documents that hold some of its glyphs only.
pub const EMBEDDED_NAME: &str = "BWPLAN+BoxwrightPlan-Regular";

/// The font file: TrueType outlines, no composite glyphs.
pub const BYTES: &[u8] = include_bytes!("fonts/boxwright-plan.ttf");

/// Highest plain letter and lowest, in capital heights (`d` and `p`).
const ASCENT: f64 = 1.08;
const DESCENT: f64 = 0.334;

/// A character's place in the font.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Glyph {
    /// Index in the font; 0 is the box that stands for characters the font lacks.
    pub id: u16,
    /// Width, font units.
    pub advance: u16,
}

/// Characters below this are looked up in a table.
const COMMON: usize = 0x180;

/// Font units in one em, capital height and the glyph of each character.
struct Metrics {
    units: f64,
    capital: f64,
    glyphs: BTreeMap<char, Glyph>,
    /// The glyphs of the first characters, with the box where there is none.
    common: Vec<Glyph>,
    lacking: Glyph,
}

fn metrics() -> &'static Metrics {
    static METRICS: OnceLock<Metrics> = OnceLock::new();
    METRICS.get_or_init(read)
}

fn read() -> Metrics {
    let mut found = Metrics {
        units: 2000.0,
        capital: 1500.0,
        glyphs: BTreeMap::new(),
        common: Vec::new(),
        lacking: Glyph { id: 0, advance: 1000 },
    };
    let Ok(face) = ttf_parser::Face::parse(BYTES, 0) else { return found };
    found.units = f64::from(face.units_per_em());
    found.capital = face.capital_height().map_or(found.capital, f64::from);
    let glyph = |id| Glyph {
        id: ttf_parser::GlyphId(id).0,
        advance: face.glyph_hor_advance(ttf_parser::GlyphId(id)).unwrap_or(0),
    };
    found.lacking = glyph(0);
    let tables = face.tables().cmap.into_iter().flat_map(|cmap| cmap.subtables).filter(|table| table.is_unicode());
    for table in tables {
        table.codepoints(|code| {
            if let (Some(char), Some(id)) = (char::from_u32(code), table.glyph_index(code)) {
                found.glyphs.insert(char, glyph(id.0));
            }
        });
    }
    found.common = vec![found.lacking; COMMON];
    for (char, glyph) in &found.glyphs {
        if let Some(common) = found.common.get_mut(*char as usize) {
            *common = *glyph;
        }
    }
    found
}

/// Whether the font has the character.
#[must_use]
pub fn supports(char: char) -> bool {
    metrics().glyphs.contains_key(&char)
}

/// The glyph of a character, or the box that stands for all that the font lacks.
#[must_use]
pub fn glyph(char: char) -> Glyph {
    let metrics = metrics();
    match metrics.common.get(char as usize) {
        Some(glyph) => *glyph,
        None => metrics.glyphs.get(&char).copied().unwrap_or(metrics.lacking),
    }
}

/// The box that stands for all characters that the font lacks.
#[must_use]
pub fn lacking() -> Glyph {
    metrics().lacking
}

/// Every character of the font with its glyph, in the order of characters.
pub fn glyphs() -> impl Iterator<Item = (char, Glyph)> {
    metrics().glyphs.iter().map(|(char, glyph)| (*char, *glyph))
}

/// Font units in one em.
#[must_use]
pub fn units_per_em() -> f64 {
    metrics().units
}

/// Font size (em) in mm whose capitals are `height` mm high.
#[must_use]
pub fn em(height: f64) -> f64 {
    height * metrics().units / metrics().capital
}

/// The characters of a text that are drawn: tabs and line ends become spaces; control characters and invisible
/// marks are left out.
pub fn shown(words: &str) -> impl Iterator<Item = char> + '_ {
    words.chars().filter_map(|char| match char {
        '\t' | '\n' | '\r' | '\u{2028}' | '\u{2029}' => Some(' '),
        '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' => None,
        '\u{fe00}'..='\u{fe0f}' | '\u{feff}'..='\u{feff}' | '\u{fffe}'..='\u{ffff}' => None,
        char if char.is_control() => None,
        char => Some(char),
    })
}

/// Width in mm of one line of text with capitals `height` mm high.
#[must_use]
pub fn text_width(words: &str, height: f64) -> f64 {
    let units: u64 = shown(words).map(|char| u64::from(glyph(char).advance)).sum();
    units as f64 / metrics().capital * height
}

/// Bounds of a text on paper, axis-aligned, from its lowest descender to its highest plain letter.
#[must_use]
pub fn text_box(text: &Text) -> Rect {
    let width = text_width(&text.words, text.height);
    let left = -text.align.share() * width;
    let flat = Rect::new(left, -DESCENT * text.height, left + width, ASCENT * text.height);
    let place = Affine::translate(text.at.to_vec2()) * Affine::rotate(text.turn.to_radians());
    place.transform_rect_bbox(flat)
}

#[cfg(test)]
mod tests {
    use super::super::item::Align;
    use super::*;
    use kurbo::Point;

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }

    // Advances and capital height as fonttools reads them from B612 Regular 1.008: H 1400, zero 1300, 2000 units an
    // em, capital height 1500.
    #[test]
    fn widths_follow_the_source_font() {
        close(text_width("H", 1.5), 1.4);
        close(text_width("0123456789", 1.5), 13.0);
        close(em(1.5), 2.0);
    }

    #[test]
    fn figures_have_one_width() {
        assert!(('0'..='9').all(|figure| glyph(figure).advance == 1300));
    }

    #[test]
    fn has_what_drawings_need() {
        for char in "AZaz09–—’“”…×°±≤≥→←↑↓•Ø²³½µΩφαžŁőğİťģŞ€".chars() {
            assert!(supports(char), "{char}");
        }
        assert!(!supports('漢'));
        assert_eq!(glyph('漢').id, 0);
        assert!(text_width("漢", 2.5) > 1.0);
    }

    #[test]
    fn invisible_characters_have_no_width() {
        close(text_width("a\u{0}\u{7}\u{200d}\u{feff}b", 2.5), text_width("ab", 2.5));
        close(text_width("a\nb", 2.5), text_width("a b", 2.5));
    }

    #[test]
    fn box_turns_with_the_text() {
        let mut text = Text {
            at: Point::new(100.0, 50.0),
            words: "HH".into(),
            height: 3.0,
            align: Align::Middle,
            turn: 0.0,
            inverse: false,
        };
        let flat = text_box(&text);
        close(flat.width(), 5.6);
        close(flat.center().x, 100.0);
        assert!(flat.y0 < 50.0 && flat.y1 > 53.0 && flat.y1 < 53.5);
        text.turn = 90.0;
        let tall = text_box(&text);
        close(tall.height(), 5.6);
        close(tall.center().y, 50.0);
        assert!(tall.x0 < 97.0 && tall.x1 > 100.0);
    }
}
