//! The schema of themes.

use super::keys::{Keys, document, words};
use crate::language::theme::{COLOURS, LETTER_KEYS, LETTERS, LINE_KEYS, PATTERNS, SIZES, WIDTHS};
use serde_json::{Value, json};

/// The schema of a theme file, JSON Schema 2020-12. Themes have plain numbers, no expressions.
#[must_use]
pub fn theme_schema() -> Value {
    let mm = |(least, most): (f64, f64)| json!({ "type": "number", "minimum": least, "maximum": most });
    let colour = json!({ "type": "string", "pattern": "^\\s*#[0-9A-Fa-f]{6}\\s*$" });
    let floor = Keys::of("What the floor is laid with").opt("pattern", "", words(&PATTERNS)).opt(
        "size",
        "Width of a board or side of a tile, mm",
        mm(SIZES),
    );
    let theme = Keys::of("A theme of the brochure")
        .need("theme", "Version of themes", json!({ "const": 1 }))
        .opt("colours", "", Keys::of("Colours, \"#rrggbb\"").opts(&COLOURS, "", &colour).closed())
        .opt("floor", "", floor.closed())
        .opt("letters", "", Keys::of("Heights of capital letters, mm").opts(&LETTER_KEYS, "mm", &mm(LETTERS)).closed())
        .opt("lines", "", Keys::of("Line widths, mm").opts(&LINE_KEYS, "mm", &mm(WIDTHS)).closed());
    document("Theme", "How the brochure looks; what is left out is as in the theme `sober`", theme.closed(), Vec::new())
}
