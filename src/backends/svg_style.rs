//! The style block of an SVG sheet: line classes, fills, text and the embedded font.

use super::font_subset::{subset, used_glyphs};
use crate::base::number::trimmed;
use crate::drawing::{Fill, LineClass, Look, Sheet, font};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
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
    let data = STANDARD.encode(subset(font::BYTES, &glyphs));
    format!("@font-face{{font-family:'{}';src:url(data:font/ttf;base64,{data})}}", font::FAMILY)
}
