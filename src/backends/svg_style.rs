//! The style block of an SVG sheet: line classes, fills, text and the embedded font.

use super::font_subset::{subset, used_glyphs};
use crate::base::number::trimmed;
use crate::drawing::{Fill, LineClass, Look, Sheet, font};
use std::fmt::Write;

/// Class of a line.
pub fn line_class(line: LineClass) -> String {
    format!("line-{}", line.name())
}

/// All styles of a sheet, with its font.
pub fn style_block(sheet: &Sheet) -> String {
    style_rules(sheet) + &font_face(sheet)
}

/// All styles of a sheet but for its font.
pub fn style_rules(sheet: &Sheet) -> String {
    let mut style = String::from("path{fill:none;fill-rule:evenodd}\n");
    for line in LineClass::ALL {
        let _ = writeln!(style, ".{}{{{}}}", line_class(line), line_style(line, &sheet.look));
    }
    for fill in Fill::ALL {
        let _ = writeln!(style, ".fill-{}{{fill:{}}}", fill.name(), tone(sheet.look.tone(fill)));
    }
    let (text, inverse) = (tone(sheet.look.text(false)), tone(sheet.look.text(true)));
    let family = font::FAMILY;
    let _ = writeln!(style, "text{{font-family:'{family}','B612',sans-serif;font-kerning:none;fill:{text}}}");
    let _ = writeln!(style, ".middle{{text-anchor:middle}}.end{{text-anchor:end}}.inverse{{fill:{inverse}}}");
    style
}

fn line_style(line: LineClass, look: &Look) -> String {
    let stroke = look.stroke(line);
    let mut style = format!("stroke:{};stroke-width:{}", tone(stroke.tone), trimmed(stroke.width, 3));
    let dashes: Vec<String> = look.dash(line).iter().map(|length| trimmed(*length, 3)).collect();
    if dashes.is_empty() {
        style.push_str(";stroke-linecap:round;stroke-linejoin:round");
    } else {
        let _ = write!(style, ";stroke-dasharray:{}", dashes.join(" "));
    }
    style
}

fn tone([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// The font with the glyphs of the sheet only; nothing for a sheet without text.
fn font_face(sheet: &Sheet) -> String {
    let glyphs = used_glyphs(sheet);
    if glyphs.is_empty() {
        return String::new();
    }
    let data = base64(&subset(font::BYTES, &glyphs));
    format!("@font-face{{font-family:'{}';src:url(data:font/ttf;base64,{data})}}", font::FAMILY)
}

/// Base64 of RFC 4648, with padding.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let byte = |i: usize| u32::from(chunk.get(i).copied().unwrap_or(0));
        let word = (byte(0) << 16) | (byte(1) << 8) | byte(2);
        for i in 0..4 {
            let letter = (word >> (18 - 6 * i)) & 63;
            let kept = if i <= chunk.len() { LETTERS.get(letter as usize).copied() } else { None };
            text.push(kept.map_or('=', char::from));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::base64;

    // RFC 4648, section 10.
    #[test]
    fn base64_vectors() {
        for (plain, coded) in [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foobar", "Zm9vYmFy")] {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
