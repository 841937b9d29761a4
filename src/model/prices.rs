//! Prices beside those of sheets, and the grid of the labels.

use kurbo::Size;

/// Prices in the currency of the layout.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices {
    /// Of a metre of edge band.
    pub band_metre: Option<f64>,
    /// Of one piece of hardware, by its name.
    pub hardware: Vec<(String, f64)>,
}

/// Labels on a sheet of A4.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelGrid {
    /// How many one under the other.
    pub rows: usize,
    /// How many side by side.
    pub columns: usize,
    /// From label to label, mm.
    pub pitch: Size,
    /// From the left and upper edge of the sheet to the first, mm.
    pub margin: Size,
    /// Of one label, mm.
    pub size: Size,
}

impl Default for LabelGrid {
    /// 3 x 8 labels of 70 x 36 mm: three columns that fill the width, common practice, no source.
    fn default() -> Self {
        let size = Size::new(70.0, 36.0);
        Self { rows: 8, columns: 3, pitch: size, margin: Size::new(0.0, 4.5), size }
    }
}
