//! How a sheet shows its line classes and fills: as a workshop's sheets do, but for what is changed.

use super::line::{Fill, LineClass};
use std::collections::BTreeMap;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Width, mm.
    pub width: f64,
    /// Tone: red, green, blue.
    pub tone: [u8; 3],
}

/// The look of a sheet. Text has the tone of [`Fill::Ink`], inverse text that of [`Fill::Paper`].
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Look {
    /// Lines that differ from a workshop's.
    pub lines: BTreeMap<LineClass, Stroke>,
    /// Fills that differ from a workshop's.
    pub fills: BTreeMap<Fill, [u8; 3]>,
    /// The paper is left out, so that what is behind the picture shows.
    pub clear: bool,
}

impl Look {
    /// How a line is drawn.
    #[must_use]
    pub fn stroke(&self, line: LineClass) -> Stroke {
        let plain = Stroke { width: line.width(), tone: line.tone() };
        self.lines.get(&line).copied().unwrap_or(plain)
    }

    /// Dash pattern of a line in mm, strokes and gaps by turns; empty for a full line.
    #[must_use]
    pub fn dash(&self, line: LineClass) -> Vec<f64> {
        let width = self.stroke(line).width;
        line.dash().iter().map(|units| units * width).collect()
    }

    /// Tone of a fill.
    #[must_use]
    pub fn tone(&self, fill: Fill) -> [u8; 3] {
        self.fills.get(&fill).copied().unwrap_or_else(|| fill.tone())
    }

    /// Tone of a text.
    #[must_use]
    pub fn text(&self, inverse: bool) -> [u8; 3] {
        self.tone(if inverse { Fill::Paper } else { Fill::Ink })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_changed_looks_as_in_a_workshop() {
        let mut look = Look::default();
        assert_eq!(look.stroke(LineClass::Cut), Stroke { width: 0.5, tone: [0; 3] });
        assert_eq!((look.text(false), look.text(true)), ([0; 3], [255; 3]));
        look.lines.insert(LineClass::Zone, Stroke { width: 0.1, tone: [1, 2, 3] });
        look.fills.insert(Fill::Ink, [9, 9, 9]);
        assert_eq!(look.text(false), [9; 3]);
        assert_eq!(look.stroke(LineClass::Mark).width, 0.35);
        // ISO 128-2: dashes are multiples of the width; those of zones 6 d, 6 d.
        assert!(look.dash(LineClass::Zone).iter().all(|part| (part - 0.6).abs() < 1e-9));
    }
}
