//! From a theme to the look of a sheet.

use crate::drawing::{Fill, LineClass, Look, Stroke};
use crate::model::{Colour, Theme};

/// Every line and fill of the brochure in the theme's colours and widths.
pub(super) fn look(theme: &Theme) -> Look {
    let (colours, widths) = (theme.colours, theme.widths);
    let fills = [
        (Fill::Paper, colours.paper),
        (Fill::Shell, colours.wall),
        (Fill::Cut, colours.furniture),
        (Fill::Furniture, colours.furniture),
        (Fill::Ink, colours.text),
        (Fill::Floor, colours.floor),
        (Fill::Upholstery, colours.upholstery),
        (Fill::Bedding, colours.bedding),
        (Fill::Wet, colours.wet),
        (Fill::Glass, colours.glass),
        (Fill::People, colours.people),
    ];
    let stroke = |width: f64, tone| Stroke { width, tone };
    let lines = [
        (LineClass::Cut, stroke(widths.wall, colours.line)),
        (LineClass::Visible, stroke(widths.edge, colours.line)),
        (LineClass::Detail, stroke(widths.detail, colours.line)),
        (LineClass::Above, stroke(widths.detail, between(colours.line, colours.paper))),
        (LineClass::Floor, stroke(widths.floor, colours.floor_line)),
        (LineClass::Figure, stroke(widths.detail, colours.paper)),
    ];
    Look { lines: lines.into(), fills: fills.into(), clear: false }
}

/// The middle of two tones, for what is not to stand out.
fn between(a: Colour, b: Colour) -> Colour {
    let middle = |i: usize| a.get(i).copied().unwrap_or(0).midpoint(b.get(i).copied().unwrap_or(0));
    [middle(0), middle(1), middle(2)]
}
