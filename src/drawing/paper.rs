//! Sheet sizes of ISO 216, borders, frame and grid fields of ISO 5457:1999.
//!
//! Values as two or more public pages quote the standard; its own text was not seen.

use super::sheet::Paper;
use crate::model::PaperSize;
use kurbo::Rect;

/// Border on the left, where sheets are filed, mm (ISO 5457, 4.2).
const BORDER_LEFT: f64 = 20.0;
/// Border on the other sides, mm.
const BORDER: f64 = 10.0;
/// Length of a grid field, mm (ISO 5457, 4.4).
const FIELD: f64 = 50.0;
/// Letters of grid fields, without I and O.
const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

const fn landscape(name: &'static str, short: f64, long: f64) -> Paper {
    Paper { name, width: long, height: short }
}

/// The trimmed sheets, landscape, small to large.
const SHEETS: [Paper; 4] = [
    landscape("A4", 210.0, 297.0),
    landscape("A3", 297.0, 420.0),
    landscape("A2", 420.0, 594.0),
    landscape("A1", 594.0, 841.0),
];

/// One grid field of a side: where it begins and ends along the side, and its letter or numeral.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Begin, mm from the left or lower edge of the sheet.
    pub from: f64,
    /// End.
    pub to: f64,
    /// Letter (up the sheet) or numeral (along it).
    pub name: String,
}

impl Paper {
    /// Sheets that can be asked for, landscape, small to large.
    pub const ALL: [Self; 4] = SHEETS;

    /// The landscape sheet of a size.
    #[must_use]
    pub fn landscape(size: PaperSize) -> Self {
        let [a4, a3, a2, a1] = SHEETS;
        match size {
            PaperSize::A4 => a4,
            PaperSize::A3 => a3,
            PaperSize::A2 => a2,
            PaperSize::A1 => a1,
        }
    }

    /// The same sheet turned to portrait (or back).
    #[must_use]
    pub fn turned(self) -> Self {
        Self { name: self.name, width: self.height, height: self.width }
    }

    /// Whether it stands upright.
    #[must_use]
    pub fn is_portrait(self) -> bool {
        self.height > self.width
    }

    /// The drawing space, which the frame bounds, mm.
    #[must_use]
    pub fn drawing_space(self) -> Rect {
        Rect::new(BORDER_LEFT, BORDER, self.width - BORDER, self.height - BORDER)
    }

    /// Grid fields along the sheet, left to right: 1, 2, 3...
    #[must_use]
    pub fn columns(self) -> Vec<Field> {
        fields(self.width)
            .into_iter()
            .enumerate()
            .map(|(i, (from, to))| Field { from, to, name: (i + 1).to_string() })
            .collect()
    }

    /// Grid fields up the sheet, top to bottom: A, B, C...
    #[must_use]
    pub fn rows(self) -> Vec<Field> {
        let letters = LETTERS.iter().map(|letter| char::from(*letter).to_string());
        fields(self.height).into_iter().rev().zip(letters).map(|((from, to), name)| Field { from, to, name }).collect()
    }

    /// Whether grid fields stand on all four sides; A4 has them at the top and on the right only.
    #[must_use]
    pub fn has_grid_all_round(self) -> bool {
        self.name != "A4"
    }
}

/// Splits an edge of the sheet into an even number of fields, 50 mm each from the axis of symmetry; what is left over
/// goes to the corner fields, which reach to the edge of the sheet.
fn fields(length: f64) -> Vec<(f64, f64)> {
    let half = length / 2.0;
    let mut marks = vec![half];
    let mut step = FIELD;
    while half - step >= FIELD * 0.8 {
        marks.insert(0, half - step);
        marks.push(half + step);
        step += FIELD;
    }
    marks.insert(0, 0.0);
    marks.push(length);
    marks.windows(2).filter_map(|pair| Some((*pair.first()?, *pair.get(1)?))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Word;

    fn sheet(name: &str) -> Paper {
        Paper::landscape(PaperSize::of(name).unwrap())
    }

    // ISO 5457:1999, table 1, as quoted by two public pages.
    #[test]
    fn sizes_and_drawing_spaces() {
        for (name, short, long, space_short, space_long) in
            [("A1", 594.0, 841.0, 574.0, 811.0), ("A2", 420.0, 594.0, 400.0, 564.0), ("A3", 297.0, 420.0, 277.0, 390.0)]
        {
            let paper = sheet(name);
            assert_eq!((paper.width, paper.height), (long, short));
            assert_eq!((paper.drawing_space().width(), paper.drawing_space().height()), (space_long, space_short));
        }
        let a4 = sheet("A4").turned();
        assert_eq!((a4.width, a4.height, a4.is_portrait()), (210.0, 297.0, true));
        assert_eq!((a4.drawing_space().width(), a4.drawing_space().height()), (180.0, 277.0));
    }

    // ISO 216: each sheet is the one above halved across its long side, to the lower millimetre.
    #[test]
    fn each_sheet_is_half_the_next() {
        for pair in Paper::ALL.windows(2) {
            assert_eq!(pair[0].width, pair[1].height);
            assert_eq!(pair[0].height, (pair[1].width / 2.0).floor());
        }
    }

    // ISO 5457:1999, table 2 (fields on long and short side), and the corner fields by hand: half the side less the
    // 50 mm fields.
    #[test]
    fn fields_of_each_sheet() {
        for (name, long, corner_long, short, corner_short) in
            [("A1", 16, 70.5, 12, 47.0), ("A2", 12, 47.0, 8, 60.0), ("A3", 8, 60.0, 6, 48.5), ("A4", 6, 48.5, 4, 55.0)]
        {
            let (columns, rows) = (sheet(name).columns(), sheet(name).rows());
            assert_eq!((columns.len(), rows.len()), (long, short), "{name}");
            assert_eq!((columns[0].to, rows[short - 1].to), (corner_long, corner_short), "{name}");
            assert!(columns[1..long - 1].iter().all(|field| field.to - field.from == 50.0));
        }
    }

    #[test]
    fn letters_run_down_and_skip_i_and_o() {
        let rows = sheet("A1").turned().rows();
        let names: String = rows.iter().map(|field| field.name.as_str()).collect();
        assert_eq!(names, "ABCDEFGHJKLMNPQR");
        assert_eq!(rows[0].to, 841.0);
        assert_eq!(sheet("A3").columns()[0].name, "1");
    }
}
