//! Rectangles on sheets, row by row: the highest first, each into the first row that has room for it, there under others where a
//! column has room.

use kurbo::{Size, Vec2};

/// Between two pieces, mm.
const BETWEEN: Size = Size::new(7.0, 5.0);

/// Pieces one under the other.
struct Column {
    left: f64,
    wide: f64,
    used: f64,
}

/// Columns side by side, the first as high as any may be.
struct Row {
    sheet: usize,
    top: f64,
    high: f64,
    columns: Vec<Column>,
}

impl Row {
    /// The place of a piece in a column that has room, or in a new one.
    fn take(&mut self, size: Size, wide: f64) -> Option<Vec2> {
        let fits = |column: &&mut Column| column.wide >= size.width && column.used + size.height <= self.high;
        if let Some(column) = self.columns.iter_mut().find(fits) {
            let place = Vec2::new(column.left, self.top + column.used);
            column.used += size.height + BETWEEN.height;
            return Some(place);
        }
        let left = self.columns.last().map_or(0.0, |last| last.left + last.wide + BETWEEN.width);
        if left + size.width > wide || size.height > self.high {
            return None;
        }
        self.columns.push(Column { left, wide: size.width, used: size.height + BETWEEN.height });
        Some(Vec2::new(left, self.top))
    }
}

/// How many sheets it takes, and for each size its sheet and its upper left corner, right and down from that of the sheet.
pub(super) fn pack(sizes: &[Size], sheet: Size) -> (usize, Vec<(usize, Vec2)>) {
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    let high = |at: usize| sizes.get(at).map_or(0.0, |size| size.height);
    order.sort_by(|a, b| high(*b).total_cmp(&high(*a)).then(a.cmp(b)));
    let mut places = vec![(0, Vec2::ZERO); sizes.len()];
    let (mut rows, mut ends): (Vec<Row>, Vec<f64>) = (Vec::new(), Vec::new());
    for at in order {
        let Some(size) = sizes.get(at).copied() else { continue };
        let known = rows.iter_mut().find_map(|row| row.take(size, sheet.width).map(|place| (row.sheet, place)));
        let place = known.unwrap_or_else(|| {
            let on = ends.iter().position(|end| *end + size.height <= sheet.height).unwrap_or(ends.len());
            if on == ends.len() {
                ends.push(0.0);
            }
            let top = ends.get(on).copied().unwrap_or(0.0);
            ends.get_mut(on).into_iter().for_each(|end| *end = top + size.height + BETWEEN.height);
            let mut row = Row { sheet: on, top, high: size.height, columns: Vec::new() };
            let place = row.take(size, f64::INFINITY).unwrap_or_default();
            rows.push(row);
            (on, place)
        });
        places.get_mut(at).into_iter().for_each(|known| *known = place);
    }
    (ends.len(), places)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;

    /// By hand: 30 high and 20 high side by side, 10 high under them, the last on a sheet of its own.
    #[test]
    fn rows_are_filled_from_the_highest_down() {
        let sizes = [(40.0, 20.0), (50.0, 30.0), (60.0, 10.0), (90.0, 48.0)].map(Size::from);
        let (sheets, places) = pack(&sizes, Size::new(100.0, 50.0));
        assert_eq!(sheets, 2);
        assert_eq!(
            places,
            [(1, 57.0, 0.0), (1, 0.0, 0.0), (1, 0.0, 35.0), (0, 0.0, 0.0)].map(|(s, x, y)| (s, Vec2::new(x, y)))
        );
    }

    #[test]
    fn nothing_overlaps_and_nothing_sticks_out() {
        let sizes: Vec<Size> =
            (0..80).map(|k| Size::new(f64::from(k * 37 % 90 + 10), f64::from(k * 53 % 40 + 8))).collect();
        let sheet = Size::new(180.0, 120.0);
        let (sheets, places) = pack(&sizes, sheet);
        let rects: Vec<(usize, Rect)> = sizes
            .iter()
            .zip(&places)
            .map(|(size, (on, at))| (*on, Rect::from_origin_size(at.to_point(), *size)))
            .collect();
        for (index, (on, rect)) in rects.iter().enumerate() {
            assert!(*on < sheets && sheet.to_rect().contains_rect(*rect), "{rect:?}");
            let alone = |(other, with): &(usize, Rect)| other != on || with.intersect(*rect).area() == 0.0;
            assert!(rects.iter().skip(index + 1).all(alone), "{rect:?}");
        }
        let area: f64 = sizes.iter().map(|size| size.width * size.height).sum();
        assert!(area / (sheets as f64 * sheet.width * sheet.height) > 0.6);
    }
}
