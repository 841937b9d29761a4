//! Boxes in rows on as many sheets as they need.

use kurbo::{Point, Rect, Size};

/// Between pictures, mm.
pub(super) const BETWEEN: f64 = 8.0;
/// Height of a caption with its air, mm.
pub(in crate::views) const CAPTION: f64 = 8.0;

/// A picture's place on a sheet: the box of all it draws, with its caption on top.
pub(in crate::views) struct Placed {
    pub sheet: usize,
    pub picture: usize,
    pub corner: Point,
}

/// Rows from left to right and top to bottom, on as many sheets as they take; what is free beside and under the last row.
pub(in crate::views) fn arrange(boxes: &[Rect], area: Rect) -> (Vec<Placed>, usize, [Rect; 2]) {
    let mut placed: Vec<Placed> = Vec::new();
    let (mut sheet, mut top, mut left, mut row_height) = (0, area.y1, area.x0, 0.0_f64);
    for (picture, bounds) in boxes.iter().enumerate() {
        let size = Size::new(bounds.width(), bounds.height() + CAPTION);
        if left > area.x0 && left + size.width > area.x1 {
            top -= row_height + BETWEEN;
            (left, row_height) = (area.x0, 0.0);
        }
        if top < area.y1 && top - size.height < area.y0 {
            sheet += 1;
            (top, left, row_height) = (area.y1, area.x0, 0.0);
        }
        placed.push(Placed { sheet, picture, corner: Point::new(left, top) });
        left += size.width + BETWEEN;
        row_height = row_height.max(size.height);
    }
    let beside = Rect { x0: (left + BETWEEN).min(area.x1), y1: top, ..area };
    let under = Rect { y1: (top - row_height - BETWEEN).max(area.y0), ..area };
    (placed, sheet + 1, [beside, under])
}

/// Moves the pictures of each row apart so that the row is centred.
pub(super) fn spread(placed: &mut [Placed], boxes: &[Rect], area: Rect) {
    let rows: Vec<(usize, f64)> = placed.iter().map(|one| (one.sheet, one.corner.y)).collect();
    for (row, first) in rows.iter().enumerate() {
        if row > 0 && rows.get(row - 1) == Some(first) {
            continue;
        }
        let own: Vec<usize> = (row..rows.len()).take_while(|at| rows.get(*at) == Some(first)).collect();
        let width = |at: &usize| placed.get(*at).and_then(|one| boxes.get(one.picture)).map_or(0.0, Rect::width);
        let used: f64 = own.iter().map(width).sum();
        let gap = ((area.width() - used) / (own.len() as f64 + 1.0)).max(0.0);
        let widths: Vec<f64> = own.iter().map(width).collect();
        let mut left = area.x0 + gap;
        for (at, width) in own.iter().zip(widths) {
            if let Some(one) = placed.get_mut(*at) {
                one.corner.x = left;
            }
            left += width + gap;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: an area of 200 x 100 takes two of 90 x 42 (with the caption 50) beside each other, four to a sheet.
    #[test]
    fn rows_and_sheets_fill_up() {
        let boxes = vec![Rect::new(0.0, 0.0, 90.0, 38.0); 5];
        let (placed, sheets, rest) = arrange(&boxes, Rect::new(0.0, 0.0, 200.0, 100.0));
        assert_eq!(placed.iter().map(|one| one.sheet).collect::<Vec<_>>(), [0, 0, 0, 0, 1]);
        assert_eq!(sheets, 2);
        assert_eq!(placed.iter().map(|one| one.corner.y).collect::<Vec<_>>(), [100.0, 100.0, 46.0, 46.0, 100.0]);
        let [beside, under] = rest;
        assert_eq!((beside.x0, beside.y1, under.y1), (90.0 + 2.0 * BETWEEN, 100.0, 100.0 - 46.0 - BETWEEN));
    }
}
